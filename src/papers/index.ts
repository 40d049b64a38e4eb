export { PaperFault } from "./compile.ts";
export { type CouponPaperOptions, couponPdf } from "./coupon-pdf.ts";
export { type FramePaperOptions, framePdf } from "./frame-pdf.ts";
export { reportPdf } from "./report-pdf.ts";
export { commissioningPdf, offerPdf, procedurePdf, runSheetPdf } from "./sheet-pdf.ts";
