import { wilsonInterval } from "#numerics";
import { invalid } from "#units";
import { cohenKappa, type Kappa } from "./kappa.ts";

export interface GradedItem {
  readonly item: string;
  readonly grader: string;
  readonly grade: string;
}

export interface PairAgreement {
  readonly graders: readonly [string, string];
  readonly kappa: Kappa;
  /** weighted kappas; null where the grades have no order, or two grades only */
  readonly linear: Kappa | null;
  readonly quadratic: Kappa | null;
  /** share of wrong grades of one grader that the disagreement implies, and the 95 % interval of it */
  readonly wrongShare: { readonly value: number; readonly low: number; readonly high: number };
}

export interface Agreement {
  readonly grades: readonly string[];
  /** true where the grades stand in an order that is known */
  readonly ordered: boolean;
  readonly pairs: readonly PairAgreement[];
  /** pairs of graders that shared no item, or saw one grade throughout, as one sentence each */
  readonly without: readonly string[];
}

/**
 * Share of wrong grades ε that a share d of disagreement between two graders implies, were both wrong equally often and
 * independently: two grades d = 2ε(1 − ε), so ε = (1 − √(1 − 2d))/2; more grades, both wrong never alike:
 * d = 1 − (1 − ε)², so ε = 1 − √(1 − d). d (1), 0 to 1; result (1), at most ½ for two grades.
 * What both get wrong together stays unseen: the true share may be larger. Throws InvalidInput outside 0 to 1.
 * Source: own derivation, elementary probability.
 */
export function wrongShareOf(disagreement: number, grades: number): number {
  if (!(disagreement >= 0 && disagreement <= 1)) invalid("disagreement", disagreement, "", "must be 0 to 1");
  return grades === 2 ? (1 - Math.sqrt(Math.max(0, 1 - 2 * disagreement))) / 2 : 1 - Math.sqrt(1 - disagreement);
}

/**
 * Agreement of every two graders over the items that both graded, see `cohenKappa`. Grades that are all numbers stand in
 * their own order; others in `order`, where given, and else in none.
 * Throws InvalidInput for fewer than two graders, a grade outside `order`, an item graded twice by one grader, and
 * where no two graders can be compared.
 */
export function agreementOf(items: readonly GradedItem[], order: readonly string[] = []): Agreement {
  const graders = [...new Set(items.map((i) => i.grader))];
  if (graders.length < 2) invalid("graders", graders.length, "", "agreement needs 2 or more");
  const seen = [...new Set(items.map((i) => i.grade))];
  const numeric = seen.every((grade) => grade.trim() !== "" && Number.isFinite(Number(grade)));
  const ordered = order.length > 0 || numeric;
  for (const grade of seen) {
    if (order.length > 0 && !order.includes(grade)) invalid("grade", grade, "", `must be one of ${order.join(", ")}`);
  }
  const grades = order.length > 0 ? [...order] : numeric ? seen.sort((a, b) => Number(a) - Number(b)) : seen.sort();
  const byGrader = new Map(graders.map((grader) => [grader, new Map<string, number>()]));
  for (const { item, grader, grade } of items) {
    const own = byGrader.get(grader)!;
    if (own.has(item)) invalid("item", item, "", `graded twice by ${grader}`);
    own.set(item, grades.indexOf(grade));
  }
  const pairs: PairAgreement[] = [];
  const without: string[] = [];
  graders.forEach((first, a) => {
    for (const second of graders.slice(a + 1)) {
      const table = grades.map(() => new Array<number>(grades.length).fill(0));
      for (const [item, grade] of byGrader.get(first)!) {
        const other = byGrader.get(second)!.get(item);
        if (other !== undefined) table[grade]![other]!++;
      }
      const found = compare(table, ordered);
      if (typeof found === "string") without.push(`${first} and ${second}: ${found}`);
      else pairs.push({ graders: [first, second], ...found });
    }
  });
  if (pairs.length === 0) invalid("grades", `${items.length} rows`, "", `no kappa: ${without[0]}`);
  return { grades, ordered, pairs, without };
}

function compare(table: readonly (readonly number[])[], ordered: boolean): Omit<PairAgreement, "graders"> | string {
  const items = table.flat().reduce((s, c) => s + c, 0);
  if (items === 0) return "no item was graded by both";
  const used = table.filter((row, i) => row.some((c) => c > 0) || table.some((other) => other[i]! > 0)).length;
  if (used < 2) return "one grade throughout, so that agreement shows nothing";
  const kappa = cohenKappa(table);
  const apart = items - table.reduce((s, row, i) => s + row[i]!, 0);
  const interval = wilsonInterval(apart, items);
  const weighted = ordered && table.length > 2;
  return {
    kappa,
    linear: weighted ? cohenKappa(table, "linear") : null,
    quadratic: weighted ? cohenKappa(table, "quadratic") : null,
    wrongShare: {
      value: wrongShareOf(apart / items, table.length),
      low: wrongShareOf(interval.low, table.length),
      high: wrongShareOf(interval.high, table.length),
    },
  };
}
