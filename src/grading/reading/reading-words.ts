import { formatNumber } from "#units";
import type { Measured } from "./estimate.ts";
import type { PatchReading } from "./patch-reading.ts";

const percent = (share: number): string => `${formatNumber(100 * share, 2)} %`;
const about = ({ value, uncertainty }: Measured, unit = ""): string =>
  `${formatNumber(value, 2)} ± ${formatNumber(uncertainty, 1)}${unit}`;

/** Gap between the two numbers of a residue from which it is said. */
const GAP_TOLD = 0.08;
/** Cosine from which a tint went the way of the coat. */
const TOWARDS = 0.9;

/**
 * A reading in sentences for the note beside an outcome: photograph, residue or why there is none, tint, streaks, flags.
 * No number that is missing is said. Errors: none.
 */
export function readingWords(reading: PatchReading): string[] {
  const { residue, refusals, flags, tint, streaks, raggedness, photo, absolute, lightness } = reading;
  const words: string[] = [];
  if (residue === null) {
    words.push(`Photographs: residue not settled. ${refusals.map((r) => r.sentence).join(" ")}`.trim());
  } else {
    words.push(
      `Photograph ${photo ?? ""}: residue ${percent(residue.value)} ± ${percent(residue.uncertainty)} of area ` +
        `(by coverage ${percent(residue.coverage)}, by contrast ${percent(residue.contrast)}); less than ` +
        `${percent(residue.detectionLimit)} would not show.`,
    );
    if (residue.gap > GAP_TOLD)
      words.push("Coverage and contrast disagree: an even film and darkened metal look the same.");
  }
  if (tint !== null && tint.discoloured > 0.5) {
    const film = tint.towardsCoat > TOWARDS ? "; a thin film of the layer would look the same" : "";
    words.push(`Bare metal differs from the reference by ΔE00 ${about(tint.difference)}${film}.`);
  }
  if (streaks?.found) words.push(`Streaks every ${about(streaks.period, " mm")}.`);
  if (raggedness !== null) words.push(`Outline ragged by ${about(raggedness, " mm")}.`);
  if (lightness !== null && !absolute) {
    words.push(
      "Lightness is relative: the printed greys were not measured, so it compares patches of this coupon only.",
    );
  }
  return [...words, ...flags.map((f) => f.sentence)];
}
