import { couponSvg, printTheme } from "#drawing";
import { drawingWords } from "#report";
import type { Coupon, Trial } from "#terms";
import { invalid } from "#units";
import { setPaper } from "./compile.ts";
import { couponTemplate } from "./template.ts";

export interface CouponPaperOptions {
  /** cautions printed under the coupon; without them the general one is printed */
  readonly cautions?: readonly string[];
}

const margin = 12;
/** A4 and A3 upright and on their side, mm (ISO 216) */
const sheets = [
  { width: 210, height: 297 },
  { width: 297, height: 210 },
  { width: 297, height: 420 },
  { width: 420, height: 297 },
] as const;
/** title and line above the picture, mm */
const headHeight = 18;

/** A coupon at true size on the smallest sheet that holds it; throws InvalidInput when not even A3 does. */
export async function couponPdf(trial: Trial, coupon: Coupon, options: CouponPaperOptions = {}): Promise<Uint8Array> {
  const svg = couponSvg(trial, coupon, { ...options, trueSize: true, theme: printTheme });
  const size = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg)!;
  const [width, height] = [Number(size[1]), Number(size[2])];
  const page = sheets.find((s) => width <= s.width - 2 * margin && height <= s.height - 2 * margin - headHeight);
  if (page === undefined)
    return invalid("coupon", `${width} x ${height}`, "mm", "must fit on an A3 sheet at true size");
  return setPaper(couponTemplate, {
    title: `Coupon ${coupon.label}, trial ${trial.id}`,
    language: "en",
    line: `Print at 100 %, no scaling. Enquiry ${trial.enquiryId}, part ${trial.partId}, set-up ${trial.setupId}, seed ${trial.seed}.`,
    page: { ...page, margin },
    svg,
    width,
    height,
    alt: drawingWords(svg),
  });
}
