import { requireInteger } from "#units";
import { twoLevelFactorial } from "./two-level.ts";

const pairsOf = (factors: number): number[][] =>
  Array.from({ length: factors }, (_, a) => a).flatMap((a) =>
    Array.from({ length: factors - 1 - a }, (_, step) => [a, a + 1 + step]),
  );

/** Sets of factors that vary together: all pairs up to five, triples (each factor three times) for six and seven. */
const triples: Readonly<Record<number, readonly (readonly number[])[]>> = {
  6: [
    [0, 1, 3],
    [1, 2, 4],
    [2, 3, 5],
    [0, 3, 4],
    [1, 4, 5],
    [0, 2, 5],
  ],
  7: [
    [3, 4, 5],
    [0, 5, 6],
    [1, 4, 6],
    [0, 1, 3],
    [2, 3, 6],
    [0, 2, 4],
    [1, 2, 5],
  ],
};

/**
 * Box-Behnken design without its centre, in coded units: two-level factorials in small sets of factors, the others at
 * 0. `factors` k: 3 to 7; result: 12, 24, 40, 48 or 56 rows of −1, 0 and +1, no corner among them.
 * Throws InvalidInput on another k. Source: Box and Behnken, Technometrics 2 (1960) 455.
 */
export function boxBehnken(factors: number): number[][] {
  requireInteger("factors", factors, 3, 7);
  return (triples[factors] ?? pairsOf(factors)).flatMap((set) =>
    twoLevelFactorial(set.length).map((levels) => {
      const row = Array.from({ length: factors }, () => 0);
      set.forEach((factor, i) => {
        row[factor] = levels[i]!;
      });
      return row;
    }),
  );
}
