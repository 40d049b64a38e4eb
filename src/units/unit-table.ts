import type { Dimension } from "./dimension.ts";

export interface UnitEntry {
  /** SI value of one unit */
  readonly factor: number;
  readonly dimension: Dimension;
  /** decimal prefixes that may stand before the symbol, as one string of letters */
  readonly prefixes: string;
  /** added after scaling when the unit stands alone: the zero of the scale in SI */
  readonly offset: number;
}

const length: Dimension = [1, 0, 0, 0, 0, 0];
const mass: Dimension = [0, 1, 0, 0, 0, 0];
const time: Dimension = [0, 0, 1, 0, 0, 0];
const temperature: Dimension = [0, 0, 0, 1, 0, 0];
const number: Dimension = [0, 0, 0, 0, 0, 0];
const volume: Dimension = [3, 0, 0, 0, 0, 0];
const pressure: Dimension = [-1, 1, -2, 0, 0, 0];

/** `small` prefixes for quantities that shrink, `all` where both directions are usual. */
const small = "fpnum";
const all = "fpnumkMG";

const entry = (factor: number, dimension: Dimension, prefixes = "", offset = 0): UnitEntry => ({
  factor,
  dimension,
  prefixes,
  offset,
});

/** SI and accepted non-SI symbols: SI Brochure (9th ed., 2019), inch, foot and pound exact since 1959; °F of NIST SP 811. */
export const unitTable: ReadonlyMap<string, UnitEntry> = new Map([
  ["m", entry(1, length, `${all}cd`)],
  ["g", entry(1e-3, mass, `${small}k`)],
  ["t", entry(1e3, mass)],
  ["lb", entry(0.45359237, mass)],
  ["s", entry(1, time, small)],
  ["min", entry(60, time)],
  ["h", entry(3600, time)],
  ["d", entry(86400, time)],
  ["K", entry(1, temperature, small)],
  ["degC", entry(1, temperature, "", 273.15)],
  ["°C", entry(1, temperature, "", 273.15)],
  ["℃", entry(1, temperature, "", 273.15)],
  ["degF", entry(5 / 9, temperature, "", (459.67 * 5) / 9)],
  ["°F", entry(5 / 9, temperature, "", (459.67 * 5) / 9)],
  ["A", entry(1, [0, 0, 0, 0, 1, 0], all)],
  ["mol", entry(1, [0, 0, 0, 0, 0, 1], "mk")],
  ["Hz", entry(1, [0, 0, -1, 0, 0, 0], all)],
  ["N", entry(1, [1, 1, -2, 0, 0, 0], all)],
  ["Pa", entry(1, pressure, `${all}h`)],
  ["bar", entry(1e5, pressure, "m")],
  ["J", entry(1, [2, 1, -2, 0, 0, 0], all)],
  ["W", entry(1, [2, 1, -3, 0, 0, 0], all)],
  ["V", entry(1, [2, 1, -3, 0, -1, 0], all)],
  ["Wh", entry(3600, [2, 1, -2, 0, 0, 0], "kM")],
  ["l", entry(1e-3, volume, "mu")],
  ["L", entry(1e-3, volume, "mu")],
  ["ha", entry(1e4, [2, 0, 0, 0, 0, 0])],
  ["in", entry(0.0254, length)],
  ["ft", entry(0.3048, length)],
  ["mil", entry(2.54e-5, length)],
  ["rad", entry(1, number, "um")],
  ["deg", entry(Math.PI / 180, number)],
  ["°", entry(Math.PI / 180, number)],
  ["sr", entry(1, number)],
  ["%", entry(0.01, number)],
  ["ppm", entry(1e-6, number)],
]);

export const prefixFactor: Readonly<Record<string, number>> = {
  f: 1e-15,
  p: 1e-12,
  n: 1e-9,
  u: 1e-6,
  m: 1e-3,
  c: 1e-2,
  d: 1e-1,
  h: 1e2,
  k: 1e3,
  M: 1e6,
  G: 1e9,
};
