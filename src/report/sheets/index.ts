export { type Language, languages, requireLanguage } from "./language.ts";
export type {
  Cell,
  CouponSketch,
  Sentence,
  Sheet,
  SheetBlock,
  SheetColumn,
  SheetFact,
  SheetKind,
  SheetRow,
  SheetSection,
} from "./model.ts";
export type { PaperHead } from "./paper-head.ts";
export { type Footing, footingOf } from "./footing.ts";
export type { ProcedureInput, ScanPlan } from "./procedure-input.ts";
export { buildProcedureSheet } from "./procedure.ts";
export type { CommissioningInput, Recheck, VerificationPatch } from "./commissioning-input.ts";
export { buildCommissioningSheet } from "./commissioning.ts";
export type { RunSheetInput } from "./run-sheet-input.ts";
export { buildRunSheet } from "./run-sheet.ts";
export type { OfferInput, OfferOption, PriceRange } from "./offer-input.ts";
export { buildOffer } from "./offer.ts";
export { commissioningHtml, offerHtml, procedureHtml, runSheetHtml } from "./sheet-html.ts";
export { shorten, spareCount } from "./shorten.ts";
export { sketchSvg } from "./sketch-svg.ts";
export { translateCaution } from "./translate-caution.ts";
