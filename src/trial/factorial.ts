import { invalid, requireInteger } from "#units";

/**
 * Full factorial: every combination of level numbers, the first factor changing fastest (standard order).
 * `levels`: number of levels of each factor, 1 to 100, at most 100,000 runs in all; result: rows of level numbers
 * from 0. Throws InvalidInput on counts out of range. Source: Box, Hunter and Hunter, Statistics for Experimenters.
 * @example fullFactorial([2, 2]) // [[0,0],[1,0],[0,1],[1,1]]
 */
export function fullFactorial(levels: readonly number[]): number[][] {
  if (levels.length === 0) invalid("levels", 0, "factors", "at least one factor");
  for (const [k, count] of levels.entries()) requireInteger(`levels of factor ${k + 1}`, count, 1, 100);
  const runs = levels.reduce((product, count) => product * count, 1);
  if (runs > 100_000) invalid("levels", runs, "runs", "at most 100000");
  return Array.from({ length: runs }, (_, run) => {
    let rest = run;
    return levels.map((count) => {
      const level = rest % count;
      rest = (rest - level) / count;
      return level;
    });
  });
}
