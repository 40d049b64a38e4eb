/**
 * Basis of the light over the frame in log light: slopes, curvatures and cubics in coordinates from −1 to 1 over all samples.
 * One lamp or the sky bends the light smoothly; more terms would take on the colours of patches.
 */
export const FIELD_TERMS = 9;
/**
 * Spread of its terms in ln light over half the frame (a) that a shoot may have: a lamp at a distance d, E ~ cos/d², gives
 * slopes to 3·a/d, curvatures of 1.5·(a/d)² and cubics of 2.5·(a/d)³, taken at a/d = 0.2 and half as much again for the
 * lens. More freedom bends the field after glare on the layer (own choice).
 */
export const FIELD_SPREAD = [0.4, 0.4, 0.08, 0.08, 0.08, 0.03, 0.03, 0.03, 0.03] as const;

export interface FieldFrame {
  readonly centreX: number;
  readonly centreY: number;
  /** m, half of the longer side */
  readonly reach: number;
}

/** Frame of coordinates that holds all places. Units m; errors: none (a single place has reach 1). */
export function fieldFrame(places: readonly { readonly x: number; readonly y: number }[]): FieldFrame {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { x, y } of places) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    low = Math.min(low, y);
    high = Math.max(high, y);
  }
  const reach = Math.max(right - left, high - low) / 2;
  return { centreX: (left + right) / 2, centreY: (low + high) / 2, reach: reach > 0 ? reach : 1 };
}

/** Writes s, t, s² − 1/3, s·t, t² − 1/3, s³ − 0.6·s, s²·t, s·t², t³ − 0.6·t at (x, y) in m to `into` from `at` on. */
export function fieldTerms({ centreX, centreY, reach }: FieldFrame, x: number, y: number, into: Float64Array, at = 0) {
  const s = (x - centreX) / reach;
  const t = (y - centreY) / reach;
  into[at] = s;
  into[at + 1] = t;
  into[at + 2] = s * s - 1 / 3;
  into[at + 3] = s * t;
  into[at + 4] = t * t - 1 / 3;
  into[at + 5] = s * s * s - 0.6 * s;
  into[at + 6] = s * s * t;
  into[at + 7] = s * t * t;
  into[at + 8] = t * t * t - 0.6 * t;
}
