import { join } from "node:path";
import { runSheetCsv, type TrialWire } from "#contract";
import { couponSvg, frameSheetSvg, printTheme } from "#drawing";
import { couponsWithFrames, type FrameLayout, frameFor } from "#grading";
import { couponPdf, framePdf, runSheetPdf } from "#papers";
import { buildRunSheet } from "#report";
import type { Coupon, Enquiry, LaserSetup, PartEnquiry, Trial } from "#terms";
import { InvalidInput } from "#units";
import { writeWhole } from "./files.ts";
import { json } from "./show.ts";
import { day } from "./today.ts";

export interface Sheets {
  readonly files: readonly string[];
  /** what could not be drawn, one sentence each */
  readonly words: readonly string[];
}

/**
 * Writes a trial and the sheets to burn it from: run sheet, coupons and their frames. `from`: number of the first coupon
 * whose sheets are written, 1 where nothing is said; a later batch has sheets of its own.
 */
export async function writeSheets(
  folder: string,
  trial: Trial,
  setup: LaserSetup,
  part: PartEnquiry,
  cautions: readonly string[],
  wire: TrialWire,
  customer: Pick<Enquiry, "customer" | "invented">,
  from = 1,
): Promise<Sheets> {
  const files: string[] = [];
  const put = async (name: string, content: string | Uint8Array): Promise<void> => {
    await writeWhole(join(folder, name), content);
    files.push(join(folder, name));
  };
  const coupons = trial.coupons.filter(({ coupon }) => coupon >= from);
  const own = { ...trial, coupons, patches: trial.patches.filter(({ coupon }) => coupon >= from) };
  const stage = from === 1 ? "" : `.from-coupon-${from}`;
  const tests = part.acceptance.tests.map((t) => t.kind);
  await put(`${trial.id}.trial.json`, `${json(wire)}\n`);
  await put(`${trial.id}${stage}.run-sheet.csv`, runSheetCsv(own, setup, tests));
  for (const coupon of coupons) {
    const name = `${trial.id}.coupon-${coupon.coupon}`;
    await put(`${name}.svg`, couponSvg(trial, coupon, { trueSize: true, cautions }));
    await put(`${name}.pdf`, await couponPdf(trial, coupon, { cautions }));
  }
  const sheet = buildRunSheet(
    {
      documentId: `${trial.id}-run`.slice(0, 60),
      revision: from === 1 ? "1" : `1, coupons from ${from}`,
      dateText: day(undefined),
      approver: null,
      enquiryId: trial.enquiryId,
      ...customer,
      modelVersion: trial.modelVersion,
      trial: own,
      setup,
      partName: part.name,
      acceptance: part.acceptance,
      cautions,
    },
    "en",
  );
  await put(`${trial.id}${stage}.run-sheet.pdf`, await runSheetPdf(sheet));
  return { files, words: await writeFrames(trial, coupons, put) };
}

/** The sheets that coupons lie on when they are photographed; those after the 31st have none of their own. */
async function writeFrames(
  trial: Trial,
  coupons: readonly Coupon[],
  put: (name: string, content: string | Uint8Array) => Promise<void>,
): Promise<string[]> {
  const words: string[] = [];
  const late = coupons.filter(({ coupon }) => coupon > couponsWithFrames);
  if (late.length > 0)
    words.push(`No frame sheet for coupons ${late[0].coupon} and on: ${couponsWithFrames} have markers of their own.`);
  for (const coupon of coupons.filter((c) => c.coupon <= couponsWithFrames)) {
    const frame = frameOf(coupon);
    if (typeof frame === "string") {
      words.push(`No frame sheet for coupon ${coupon.label}: ${frame}.`);
      continue;
    }
    const names = { coupon: coupon.label, trial: trial.id };
    const name = `${trial.id}.frame-${coupon.coupon}`;
    await put(`${name}.svg`, frameSheetSvg(frame, { ...names, trueSize: true, theme: printTheme }));
    await put(`${name}.pdf`, await framePdf(frame, names));
  }
  return words;
}

/** A frame, or why there is none: a plate that no sheet frames can still be burned and graded by eye. */
function frameOf(coupon: Coupon): FrameLayout | string {
  try {
    return frameFor(coupon, { coupon: coupon.coupon });
  } catch (error) {
    if (error instanceof InvalidInput) return error.message;
    throw error;
  }
}
