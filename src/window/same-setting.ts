import type { Setting } from "#terms";

/** Two settings are the same patch to burn when every value agrees within this share (rounding of wire formats). */
const roundingShare = 1e-4;

function close(a: number | null, b: number | null): boolean {
  if (a === null || b === null) return a === b;
  return Math.abs(a - b) <= roundingShare * Math.max(Math.abs(a), Math.abs(b));
}

/** True when both settings put the same process on the part; power and level count by their product. */
export function sameSetting(a: Setting, b: Setting): boolean {
  return (
    close(a.power * a.level, b.power * b.level) &&
    close(a.duty, b.duty) &&
    close(a.frequency, b.frequency) &&
    close(a.pulseWidth, b.pulseWidth) &&
    close(a.speed, b.speed) &&
    close(a.lineSpacing, b.lineSpacing) &&
    a.passes === b.passes &&
    close(a.defocus, b.defocus) &&
    a.lens === b.lens
  );
}

export interface Repeats {
  /** patches burned with this setting and graded on both sides */
  readonly burned: number;
  /** of them clean and undamaged */
  readonly good: number;
}

export const repeatsToProve = 3;

/** Proven: at least three graded repeats, every one of them clean and undamaged. */
export function isProven(repeats: Repeats): boolean {
  return repeats.good >= repeatsToProve && repeats.good === repeats.burned;
}
