import { chiSquareUpper, fUpper, lnGamma, median, studentTCdf } from "#numerics";
import { formatQuantity } from "#units";
import type { SpotFit } from "./burn-marks.ts";
import { weightedLine } from "./weighted-line.ts";

export interface Misfit {
  /** chance of as few changes of sign along the line, were it straight */
  readonly runs: number;
  /** chance of small and large marks giving slopes as different as these; null with fewer than 3 marks on a side */
  readonly twoSlopes: number | null;
  /** radii 1/e² from the smaller and the larger marks alone, m; null where a side has no slope above 0 */
  readonly radii: readonly [number, number] | null;
  /** chance of means of repeated energies as far off the line as these; null without repeats */
  readonly lackOfFit: number | null;
  /** chance of residuals as large as these under the given uncertainties; null where none were given */
  readonly tooLarge: number | null;
  /** numbers of marks, from 0 in the order given, that lie off the line of the others */
  readonly deviating: readonly number[];
  /** one sentence for each finding; empty where nothing was found */
  readonly words: readonly string[];
}

/** Below this chance a finding is told. Five checks on sound marks then speak up about once in twenty files. */
const told = 0.01;

/**
 * Does the line of D² over ln E hold? Runs of the residuals' signs, slopes of the smaller and of the larger half of the
 * energies, lack of fit against repeats, χ², and each mark against the line of the others (Student's t, its chance
 * multiplied by the number of marks). All chances 0 to 1 (1). Throws nothing for a fit.
 * Sources: Wald and Wolfowitz, Ann. Math. Stat. 11 (1940) 147; nist-handbook, 4.4.4 and 4.4.5.
 */
export function misfitOf(fit: SpotFit): Misfit {
  const order = fit.marks.map((_, i) => i).sort((a, b) => fit.marks[a]!.energy - fit.marks[b]!.energy);
  const runs = fewRuns(order.map((i) => fit.line.residuals[i]! > 0));
  const halves = slopesOfHalves(fit, order);
  const lackOfFit = repeatsOff(fit);
  const tooLarge = fit.diameterScatter === null ? chiSquareUpper(fit.line.chiSquare, fit.line.degreesOfFreedom) : null;
  const deviating = offTheLine(fit);
  const words: string[] = [];
  if (halves.chance !== null && halves.chance < told) {
    const [small, large] = (halves.radii ?? []).map((r) => formatQuantity(2 * r, "um"));
    words.push(
      halves.radii === null
        ? "The marks do not follow one straight line: one half of the energies shows no growth at all."
        : `Two slopes: the smaller marks speak of a spot of ${small}, the larger of ${large}. The beam is not Gaussian at its foot, or two different marks (colour, melt) were read as one.`,
    );
  }
  if (runs < told) {
    words.push("The marks lie on one side of the line over long stretches: a curve, not a straight line.");
  }
  if (lackOfFit !== null && lackOfFit < told) {
    words.push("Repeated shots agree with each other better than with the line: the line is not the whole story.");
  }
  if (tooLarge !== null && tooLarge < told) {
    words.push("The marks scatter more than their stated uncertainties allow; the errors given here were widened.");
  }
  for (const i of deviating) {
    const { energy, diameter } = fit.marks[i]!;
    words.push(
      `The mark of ${formatQuantity(diameter, "um")} at ${formatQuantity(energy, "mJ")} lies far off the line of the others: measure it again.`,
    );
  }
  return { runs, twoSlopes: halves.chance, radii: halves.radii, lackOfFit, tooLarge, deviating, words };
}

/** P(runs ≤ seen) of signs in random order, exact. */
function fewRuns(signs: readonly boolean[]): number {
  const up = signs.filter(Boolean).length;
  const down = signs.length - up;
  if (up === 0 || down === 0) return 1;
  const seen = 1 + signs.filter((sign, i) => i > 0 && sign !== signs[i - 1]).length;
  const choose = (n: number, k: number): number =>
    k < 0 || k > n ? 0 : Math.exp(lnGamma(n + 1) - lnGamma(k + 1) - lnGamma(n - k + 1));
  let ways = 0;
  for (let runs = 2; runs <= seen; runs++) {
    const half = Math.floor(runs / 2);
    ways +=
      runs % 2 === 0
        ? 2 * choose(up - 1, half - 1) * choose(down - 1, half - 1)
        : choose(up - 1, half) * choose(down - 1, half - 1) + choose(up - 1, half - 1) * choose(down - 1, half);
  }
  return Math.min(1, ways / choose(signs.length, up));
}

function slopesOfHalves(
  fit: SpotFit,
  order: readonly number[],
): { readonly chance: number | null; readonly radii: readonly [number, number] | null } {
  const middle = median(fit.marks.map((mark) => mark.energy));
  const sides = [
    order.filter((i) => fit.marks[i]!.energy <= middle),
    order.filter((i) => fit.marks[i]!.energy >= middle),
  ];
  if (sides.some((side) => side.length < 3 || new Set(side.map((i) => fit.marks[i]!.energy)).size < 2))
    return { chance: null, radii: null };
  const shift = fit.diameterScatter ?? 0;
  const [low, high] = sides.map((side) =>
    weightedLine(
      side.map((i) => Math.log(fit.marks[i]!.energy)),
      side.map((i) => fit.marks[i]!.diameter ** 2 - (fit.marks[i]!.uncertainty ?? shift) ** 2),
      side.map((i) => fit.variances[i]!),
    ),
  ) as [ReturnType<typeof weightedLine>, ReturnType<typeof weightedLine>];
  const t = Math.abs(low.slope - high.slope) / Math.sqrt(low.slopeVariance + high.slopeVariance);
  const df = Math.max(1, fit.line.degreesOfFreedom - 2);
  return {
    chance: 2 * studentTCdf(-t, df),
    radii: low.slope > 0 && high.slope > 0 ? [Math.sqrt(low.slope / 2), Math.sqrt(high.slope / 2)] : null,
  };
}

function repeatsOff(fit: SpotFit): number | null {
  const groups = new Map<number, number[]>();
  fit.marks.forEach((mark, i) => {
    groups.set(mark.energy, [...(groups.get(mark.energy) ?? []), i]);
  });
  let pure = 0;
  let pureFreedom = 0;
  for (const group of groups.values()) {
    const average = group.reduce((sum, i) => sum + fit.line.residuals[i]!, 0) / group.length;
    for (const i of group) pure += (fit.line.residuals[i]! - average) ** 2 / fit.variances[i]!;
    pureFreedom += group.length - 1;
  }
  const freedom = groups.size - 2;
  if (pureFreedom < 2 || freedom < 1 || pure === 0) return null;
  const between = Math.max(0, fit.line.chiSquare - pure);
  return fUpper(between / freedom / (pure / pureFreedom), freedom, pureFreedom);
}

function offTheLine(fit: SpotFit): number[] {
  const df = fit.line.degreesOfFreedom - 1;
  if (df < 2) return [];
  return fit.marks.flatMap((_, i) => {
    const rest = Math.max(1e-12, 1 - fit.line.leverages[i]!);
    const square = fit.line.residuals[i]! ** 2 / (fit.variances[i]! * rest);
    const others = Math.max(1e-12, fit.line.chiSquare - square) / df;
    const chance = 2 * studentTCdf(-Math.sqrt(square / others), df) * fit.marks.length;
    return chance < told ? [i] : [];
  });
}
