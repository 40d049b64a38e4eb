import type { AcceptanceTestKind, MetalConditionGrade, ShortfallKind, Spread } from "#terms";
import { formatNumber, formatQuantity, formatRange, requireFinite } from "#units";

/** Goes along with every setting, whatever else is known. */
export const aidCaution =
  "An aid for the laser safety officer, not a substitute: local law, the standards themselves and licensed practice decide.";

export const notMeasured = "not measured";

export const conditionWords: Readonly<Record<MetalConditionGrade, string>> = {
  0: "0, unchanged",
  1: "1, discoloured",
  2: "2, micro-melted",
  3: "3, melted",
  4: "4, distorted",
};

export const testWords: Readonly<Record<AcceptanceTestKind, string>> = {
  profile: "surface profile",
  salts: "soluble salts",
  dust: "dust",
  "water-break": "water break",
  "pull-off": "pull-off adhesion",
  "cross-cut": "cross-cut adhesion",
  "contact-resistance": "contact resistance",
  hardness: "hardness",
  "weld-porosity": "weld porosity",
  "dimension-loss": "dimension loss",
  "flash-rust": "flash rust",
};

export function shortfallWords(shortfall: ShortfallKind): string {
  return shortfall === "none" ? "window found" : shortfall;
}

/** Coupons cannot show more than this, so no more is stated. */
const statedMost = 0.95;

/** A chance in whole per cent, rounded down, never above 95. `p` 0 to 1; throws InvalidInput when not finite. */
export function chance(p: number): string {
  requireFinite("probability", p);
  const stated = Math.min(statedMost, Math.max(0, p));
  const text = `${Math.floor(100 * stated + 1e-9)} %`;
  return p > statedMost ? `at least ${text}` : text;
}

/** A share of area or of a whole in per cent, 3 figures. */
export function share(value: number | null): string {
  return value === null ? notMeasured : formatQuantity(value, "%");
}

export function rateText(rate: number): string {
  return rate > 0 ? formatQuantity(rate, "m2/h") : "none";
}

/** median with its 5 to 95 % points */
export function spreadText(spread: Spread, unit: string): string {
  if (spread.low === spread.high) return formatQuantity(spread.median, unit);
  return `${formatQuantity(spread.median, unit)} (${formatRange(spread.low, spread.high, unit)})`;
}

/** Seconds to wait before a patch, rounded up to what a clock shows; a dash where there is nothing to wait for. */
export function waitText(wait: number | undefined): string {
  return wait === undefined || wait <= 0 ? "–" : `${Math.ceil(requireFinite("wait", wait, "s"))} s`;
}

/** Hours for an area (m²) at a rate (m²/s), laser on the work only. */
export function hoursText(area: number, rate: number): string {
  return rate > 0 ? `${formatNumber(area / rate / 3600, 3)} h` : "not worked out";
}

export function sentenceCase(text: string): string {
  return text === "" ? text : text[0]!.toUpperCase() + text.slice(1);
}

export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
