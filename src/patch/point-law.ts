import { type CharLaw, fluenceThroughPlume } from "#removal";
import type { PointSpec } from "./point-spec.ts";

/** Share of the residue thickness below which nothing counts as left. */
export const NOTHING = 0.5;
/** ln of the share of the peak below which an event does nothing. */
export const FAINTEST = -6;

/**
 * ln of the local share of the peak fluence at a squared distance, r² over radius²: −2r² (Gaussian), 0 inside a flat top;
 * for a line over a flat top the chord √(1 − r²). −100 outside. Source: geometry of the beam profiles, own.
 */
export function profileLog(r2: number, profile: "gaussian" | "top-hat", line: boolean): number {
  if (profile === "gaussian") return -2 * r2;
  if (r2 >= 1) return -100;
  return line ? 0.5 * Math.log(1 - r2) : 0;
}

/**
 * Fluence of a whole event on the bare face that warms it as much as one event does whose light was held off at first:
 * heat flux q₁ under the cover, then q₂ on the bare face for the last share φ of the time.
 *
 * Equation: √φ + (q₁/q₂)·(1 − √φ), from q₁·(√τ − √(φτ)) + q₂·√(φτ) over q₂·√τ.
 * Units: rest φ 1, ratio q₁/q₂ 1; result 1. Range: 0 to 1. Errors: none.
 * Source: constant flux on a half-space, Carslaw and Jaeger 1959, 2.9, superposed.
 */
export function afterwards(rest: number, ratio: number): number {
  const root = Math.sqrt(rest);
  return root + ratio * (1 - root);
}

/** m of char that goes at one node, between two columns. */
export function goneAt(charLaw: CharLaw, row: number, column: number, share: number): number {
  const left = charLaw.gone(row, column);
  return left + share * (charLaw.gone(row, column + 1) - left);
}

export function clamp01(x: number): number {
  return x < 0 ? 0 : x > 1 ? 1 : x;
}

/** Bilinear read of a node-major table; columns are clamped at both ends. */
export function read(
  table: Float64Array,
  columns: number,
  row: number,
  next: number,
  wy: number,
  column: number,
): number {
  const c = column < 0 ? 0 : column > columns - 1.000001 ? columns - 1.000001 : column;
  const i = Math.floor(c);
  const wx = c - i;
  const a = row * columns + i;
  const b = next * columns + i;
  const lower = table[a] + wx * (table[a + 1] - table[a]);
  return wy === 0 ? lower : lower + wy * (table[b] + wx * (table[b + 1] - table[b]) - lower);
}

/**
 * Light of the events of one pass on a point, through their own plumes. distances: squared, m²; inverse: 1/radius², 1/m².
 * Fills ln of their share of the peak and their fluence (J/m²); result: how many real events have at least half the peak.
 * Source: `profileLog`, `fluenceThroughPlume`.
 */
export function lightOnPoint(
  spec: PointSpec,
  distances: Float64Array,
  inverse: number,
  lnShape: Float64Array,
  fluence: Float64Array,
): number {
  const { profile, lineEvents, multiplicity, plume = Number.POSITIVE_INFINITY, fluence: peak } = spec;
  let strong = 0;
  for (let e = 0; e < distances.length; e++) {
    const ln = profileLog(distances[e] * inverse, profile, lineEvents);
    lnShape[e] = ln;
    if (ln < FAINTEST) continue;
    if (ln > -0.69) strong += multiplicity;
    fluence[e] = peak * Math.exp(ln);
    if (fluence[e] > plume) {
      fluence[e] = fluenceThroughPlume(fluence[e], plume);
      lnShape[e] = Math.log(fluence[e] / peak);
    }
  }
  return strong;
}

/**
 * Share of an event's fluence that warms metal laid bare by a film thrown off during it: the film let go at
 * F* = F·exp(−over/slope), left in `flight` of the event's time, and `afterwards` holds for the rest.
 *
 * Units: over ln adhesion beyond what held, slope of ln adhesion over ln fluence, flight share of the event's time, ratio
 * of the flux under the film to that on the bare face; result 1. Range: over ≥ 0. Errors: none. Source: own derivation.
 */
export function afterThrow(over: number, slope: number, flight: number, ratio: number): number {
  const rest = 1 - Math.exp(-over / Math.max(slope, 1e-3)) - flight;
  return rest > 0 ? afterwards(rest, ratio) : 0;
}
