import { requireInteger } from "#units";

/**
 * Draws per stack of a mixture: in proportion to the weights, at least one each, adding up to drawCount exactly.
 * Largest remainders take what rounding leaves; with fewer draws than stacks the heaviest stacks get one each.
 * Units: weights and counts 1. Valid range: drawCount a whole number from 1, weights 0 or above.
 * @throws InvalidInput when drawCount is no whole number from 1
 * Source: own (largest-remainder rule).
 */
export function allocateDraws(weights: readonly number[], drawCount: number): number[] {
  requireInteger("drawCount", drawCount, 1, 1_000_000);
  const total = weights.reduce((sum, w) => sum + w, 0);
  const heaviestFirst = weights.map((_, i) => i).sort((a, b) => weights[b]! - weights[a]! || a - b);
  const counts = weights.map(() => 0);
  if (drawCount <= weights.length) {
    for (const i of heaviestFirst.slice(0, drawCount)) counts[i] = 1;
    return counts;
  }
  const spare = drawCount - weights.length;
  // one each first; what is still owed to a stack beyond its first draw sets the rest
  const owed = weights.map((w) => Math.max(0, (drawCount * w) / total - 1));
  const owedTotal = owed.reduce((sum, x) => sum + x, 0) || 1;
  const exact = owed.map((x) => (spare * x) / owedTotal);
  exact.forEach((x, i) => {
    counts[i] = 1 + Math.floor(x);
  });
  const left = drawCount - counts.reduce((sum, c) => sum + c, 0);
  const byRemainder = exact.map((_, i) => i).sort((a, b) => (exact[b]! % 1) - (exact[a]! % 1) || a - b);
  for (const i of byRemainder.slice(0, left)) counts[i] = counts[i]! + 1;
  return counts;
}
