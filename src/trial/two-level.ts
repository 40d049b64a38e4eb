import { requireInteger } from "#units";
import { fullFactorial } from "./factorial.ts";

/**
 * Two-level full factorial in coded units: all 2^k rows of −1 and +1, the first factor changing fastest (standard
 * order). `factors` k: 1 to 12; result: 2^k rows of k. Columns balanced and orthogonal. Throws InvalidInput on a count
 * out of range. Source: Box, Hunter and Hunter, Statistics for Experimenters.
 * @example twoLevelFactorial(2) // [[-1,-1],[1,-1],[-1,1],[1,1]]
 */
export function twoLevelFactorial(factors: number): number[][] {
  requireInteger("factors", factors, 1, 12);
  return fullFactorial(Array.from({ length: factors }, () => 2)).map((row) => row.map((level) => 2 * level - 1));
}
