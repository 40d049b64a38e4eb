import type { Spread } from "#terms";
import { out } from "./wire-numbers.ts";

/** A spread in the unit of the file. */
export function spreadToWire(spread: Spread, unit: string): { low: number; median: number; high: number } {
  return { low: out(spread.low, unit), median: out(spread.median, unit), high: out(spread.high, unit) };
}
