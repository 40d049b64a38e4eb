import { formatQuantity, formatRange, noValue, unitLabel } from "#units";
import { type UnitSystem, unitSystem } from "./unit-system.ts";

/**
 * What US shops read in place of our units. Laser power, pulse energy, fluence and irradiance stay as the trade says them
 * on both sides of the ocean (common practice, no source); lengths, areas, speeds and temperatures change.
 */
const us: Readonly<Record<string, string>> = {
  um: "mil",
  mm: "in",
  cm: "in",
  m: "ft",
  "mm/s": "in/s",
  "m/s": "ft/s",
  mm2: "in2",
  cm2: "in2",
  m2: "ft2",
  "m2/h": "ft2/h",
  "cm2/s": "in2/s",
  "m3/h": "ft3/min",
  "m3/s": "ft3/s",
  degC: "degF",
  kg: "lb",
};

/** The unit that a page shows in the chosen system. */
export const shownUnit = (unit: string, system: UnitSystem = unitSystem()): string =>
  system === "us" ? (us[unit] ?? unit) : unit;

/** An SI value as text in `unit`, or in what US shops read in its place when that is chosen. */
export const quantityText = (valueSI: number | null | undefined, unit: string, digits = 3): string =>
  formatQuantity(valueSI, shownUnit(unit), digits);

/** Two SI values as "low to high unit", in the chosen system. */
export const rangeText = (lowSI: number | null, highSI: number | null, unit: string, digits = 3): string =>
  formatRange(lowSI, highSI, shownUnit(unit), digits);

export { noValue, unitLabel };
