import { fUpper } from "#numerics";
import { invalid } from "#units";
import { checkStudy, type GaugeReadings } from "./gauge-readings.ts";

export interface VarianceRow {
  readonly source: "part" | "grader" | "part × grader" | "repeat";
  readonly degreesOfFreedom: number;
  readonly sumOfSquares: number;
  readonly meanSquare: number;
}

/** Standard deviations in the unit of the readings; shares of the total. */
export interface GaugeComponents {
  /** one grader, one part, again */
  readonly repeat: number;
  /** between graders */
  readonly grader: number;
  /** graders that differ in another way from part to part */
  readonly interaction: number;
  /** between parts */
  readonly part: number;
  /** repeat, grader and interaction together */
  readonly gauge: number;
  readonly total: number;
  /** gauge over total, 0 to 1 ("% GRR" over 100) */
  readonly gaugeShare: number;
  /** variance of the gauge over that of the total, 0 to 1 */
  readonly gaugeContribution: number;
  /** 1.41·part/gauge before it is cut to a whole number; null where the gauge shows no scatter at all */
  readonly categories: number | null;
  /** components whose estimate was below 0 and stands as 0 */
  readonly clipped: readonly VarianceRow["source"][];
}

export interface GaugeStudy {
  readonly rows: readonly VarianceRow[];
  /** F of the interaction against repeats, and its chance if there were none */
  readonly interactionF: number;
  readonly interactionChance: number;
  /** F of graders against the interaction (unpooled) or repeats (pooled), whichever is used, and its chance */
  readonly graderF: number;
  readonly graderChance: number;
  readonly unpooled: GaugeComponents;
  /** interaction counted with the repeats */
  readonly pooled: GaugeComponents;
  /** pooled when the chance of the interaction is above 0.25 */
  readonly used: "pooled" | "unpooled";
}

/** Chance of the interaction above which it is counted with the repeats. Source: aiag-msa. */
const poolAbove = 0.25;

/**
 * Crossed gauge study by analysis of variance. Mean squares of parts, graders, their interaction and repeats give the
 * variances σ²_repeat = MS_e, σ²_interaction = (MS_po − MS_e)/r, σ²_grader = (MS_o − MS_po)/(p·r),
 * σ²_part = (MS_p − MS_po)/(o·r); pooled, MS_po and MS_e are one. Below 0 they stand as 0 and are named.
 * @param readings by part, grader and repeat, any unit; at least 2 of each, none missing
 * @returns standard deviations in the unit of the readings, shares (1), F (1)
 * Throws InvalidInput for a study that is not crossed and for readings that are all equal.
 * Valid: parts and graders drawn from those that matter, repeats blind. Sources: aiag-msa; nist-handbook, 2.4.
 */
export function gaugeStudy(readings: GaugeReadings): GaugeStudy {
  const { parts, graders, repeats } = checkStudy(readings);
  const [p, o, r] = [parts, graders, repeats];
  const all = readings.flat(2);
  const mean = (values: readonly number[]): number => values.reduce((s, v) => s + v, 0) / values.length;
  const grand = mean(all);
  const partMeans = readings.map((part) => mean(part.flat()));
  const graderMeans = Array.from({ length: o }, (_, j) => mean(readings.flatMap((part) => part[j]!)));
  const cellMeans = readings.map((part) => part.map(mean));
  const square = (values: readonly number[]): number => values.reduce((s, v) => s + v * v, 0);
  const ssPart = o * r * square(partMeans.map((m) => m - grand));
  const ssGrader = p * r * square(graderMeans.map((m) => m - grand));
  const ssBoth =
    r * square(cellMeans.flatMap((row, i) => row.map((m, j) => m - partMeans[i]! - graderMeans[j]! + grand)));
  const ssRepeat = square(
    readings.flatMap((part, i) => part.flatMap((cell, j) => cell.map((v) => v - cellMeans[i]![j]!))),
  );
  if (!(ssPart + ssGrader + ssBoth + ssRepeat > 0)) invalid("readings", "all equal", "", "a gauge study needs scatter");
  const row = (source: VarianceRow["source"], degreesOfFreedom: number, sumOfSquares: number): VarianceRow => ({
    source,
    degreesOfFreedom,
    sumOfSquares,
    meanSquare: sumOfSquares / degreesOfFreedom,
  });
  const rows = [
    row("part", p - 1, ssPart),
    row("grader", o - 1, ssGrader),
    row("part × grader", (p - 1) * (o - 1), ssBoth),
    row("repeat", p * o * (r - 1), ssRepeat),
  ];
  const [rowPart, rowGrader, rowBoth, rowRepeat] = rows as [VarianceRow, VarianceRow, VarianceRow, VarianceRow];
  const interaction = ratioTest(rowBoth, rowRepeat);
  const together = row("repeat", rowBoth.degreesOfFreedom + rowRepeat.degreesOfFreedom, ssBoth + ssRepeat);
  const used = interaction.chance > poolAbove ? "pooled" : "unpooled";
  const grader = ratioTest(rowGrader, used === "pooled" ? together : rowBoth);
  const between = (base: VarianceRow, interactionVariance: number): GaugeComponents =>
    components({
      repeat: base === together ? together.meanSquare : rowRepeat.meanSquare,
      grader: (rowGrader.meanSquare - base.meanSquare) / (p * r),
      "part × grader": interactionVariance,
      part: (rowPart.meanSquare - base.meanSquare) / (o * r),
    });
  return {
    rows,
    interactionF: interaction.f,
    interactionChance: interaction.chance,
    graderF: grader.f,
    graderChance: grader.chance,
    unpooled: between(rowBoth, (rowBoth.meanSquare - rowRepeat.meanSquare) / r),
    pooled: between(together, 0),
    used,
  };
}

/** F of a mean square against its base; a base of 0 makes anything above it certain. */
function ratioTest(top: VarianceRow, base: VarianceRow): { readonly f: number; readonly chance: number } {
  if (base.meanSquare === 0) return { f: top.meanSquare > 0 ? 1e9 : 0, chance: top.meanSquare > 0 ? 0 : 1 };
  const f = top.meanSquare / base.meanSquare;
  return { f, chance: fUpper(f, top.degreesOfFreedom, base.degreesOfFreedom) };
}

function components(variances: Readonly<Record<VarianceRow["source"], number>>): GaugeComponents {
  const clipped = (Object.keys(variances) as VarianceRow["source"][]).filter((source) => variances[source] < 0);
  const kept = (source: VarianceRow["source"]): number => Math.max(0, variances[source]);
  const gauge = kept("repeat") + kept("grader") + kept("part × grader");
  const total = gauge + kept("part");
  return {
    repeat: Math.sqrt(kept("repeat")),
    grader: Math.sqrt(kept("grader")),
    interaction: Math.sqrt(kept("part × grader")),
    part: Math.sqrt(kept("part")),
    gauge: Math.sqrt(gauge),
    total: Math.sqrt(total),
    gaugeShare: Math.sqrt(gauge / total),
    gaugeContribution: gauge / total,
    categories: categoriesOf(Math.sqrt(kept("part")), Math.sqrt(gauge)),
    clipped,
  };
}

/**
 * Number of distinct categories 1.41·part/gauge, not yet cut to a whole number; null for a gauge without scatter.
 * Standard deviations in one unit, 0 or above; result (1). Throws nothing. Source: aiag-msa.
 */
export function categoriesOf(part: number, gauge: number): number | null {
  return gauge > 0 ? (1.41 * part) / gauge : null;
}
