import { normalCdf } from "#numerics";
import { invalid, requireFinite } from "#units";

export type KappaWeights = "none" | "linear" | "quadratic";

export interface Kappa {
  readonly kappa: number;
  /** standard error of `kappa`, for intervals */
  readonly standardError: number;
  /** standard error if the graders agreed by chance alone, for the test against 0 */
  readonly standardErrorOfChance: number;
  /** two-sided probability of a kappa this far from 0 by chance */
  readonly chance: number;
  /** share of the items that both put into the same grade */
  readonly agreement: number;
  readonly items: number;
}

/**
 * Cohen's kappa of two graders: κ = (Po − Pe)/(1 − Pe), Po = Σ w_ij·p_ij, Pe = Σ w_ij·p_i·p_j, with weights of
 * agreement w = 1 on the diagonal alone (none), 1 − |i − j|/(k − 1) (linear) or 1 − (i − j)²/(k − 1)² (quadratic).
 * Standard error: that of large samples, n·(1 − Pe)²·var = Σ p_ij·(w_ij − (w̄_i + w̄_j)(1 − κ))² − (κ − Pe(1 − κ))².
 * @param table counts (1), k × k, k ≥ 2: rows the grade of the first grader, columns that of the second, both in the same order
 * @returns dimensionless; κ from −1 to 1
 * Throws InvalidInput for a table that is not square, counts that are not whole, and where both graders gave one
 * grade throughout (kappa has no value then).
 * Sources: Cohen (1960); Fleiss, Cohen and Everitt, Psychol. Bull. 72 (1969) 323 for the errors.
 */
export function cohenKappa(table: readonly (readonly number[])[], weights: KappaWeights = "none"): Kappa {
  const k = table.length;
  if (k < 2) invalid("grades", k, "", "at least two different grades");
  let n = 0;
  for (const row of table) {
    if (row.length !== k) invalid("table of grades", row.length, "columns", `must be ${k}`);
    for (const count of row) {
      requireFinite("count of grades", count);
      if (!Number.isInteger(count) || count < 0)
        invalid("count of grades", count, "", "must be a whole number, 0 or more");
      n += count;
    }
  }
  if (n === 0) invalid("graded items", 0, "", "at least one item graded by both");
  const weigh = (i: number, j: number): number => {
    if (weights === "none") return i === j ? 1 : 0;
    const apart = Math.abs(i - j) / (k - 1);
    return weights === "linear" ? 1 - apart : 1 - apart * apart;
  };
  const first = table.map((row) => row.reduce((s, c) => s + c, 0) / n);
  const second = first.map((_, j) => table.reduce((s, row) => s + row[j]!, 0) / n);
  const firstMean = first.map((_, i) => second.reduce((s, p, j) => s + p * weigh(i, j), 0));
  const secondMean = second.map((_, j) => first.reduce((s, p, i) => s + p * weigh(i, j), 0));
  let seen = 0;
  let expected = 0;
  let same = 0;
  for (let i = 0; i < k; i++) {
    same += table[i]![i]! / n;
    for (let j = 0; j < k; j++) {
      seen += (weigh(i, j) * table[i]![j]!) / n;
      expected += weigh(i, j) * first[i]! * second[j]!;
    }
  }
  const rest = 1 - expected;
  if (!(rest > 1e-12)) invalid("grades", "one grade throughout", "", "kappa needs items of at least two grades");
  const kappa = (seen - expected) / rest;
  let spread = -((kappa - expected * (1 - kappa)) ** 2);
  let spreadOfChance = -(expected ** 2);
  for (let i = 0; i < k; i++) {
    for (let j = 0; j < k; j++) {
      const pull = firstMean[i]! + secondMean[j]!;
      spread += (table[i]![j]! / n) * (weigh(i, j) - pull * (1 - kappa)) ** 2;
      spreadOfChance += first[i]! * second[j]! * (weigh(i, j) - pull) ** 2;
    }
  }
  const standardErrorOfChance = Math.sqrt(Math.max(0, spreadOfChance) / n) / rest;
  return {
    kappa,
    standardError: Math.sqrt(Math.max(0, spread) / n) / rest,
    standardErrorOfChance,
    chance: standardErrorOfChance > 0 ? 2 * normalCdf(-Math.abs(kappa) / standardErrorOfChance) : 1,
    agreement: same,
    items: n,
  };
}
