import {
  type PatchEvidence,
  type Posterior,
  posteriorChecks,
  predictiveChecks,
  type PredictedCount,
} from "#calibration";
import { mean, standardDeviation } from "#numerics";
import type { LearntNumber, WindowResult } from "#terms";
import { formatNumber } from "#units";
import { misfitCheck } from "#window";

const groupWords = [
  ["time", "event time"],
  ["count", "events per point"],
  ["passes", "number of passes"],
  ["spot", "spot"],
  ["dose", "fluence"],
  ["power", "mean power"],
] as const;

/** Columns of the model without physics: logarithms of the groups of every patch, each to mean 0 and deviation 1. */
function columnsOf(patches: readonly PatchEvidence[]): { rows: number[][]; names: string[] } {
  const raw = groupWords.map(([key]) =>
    patches.map((p) => p.ray.groups[key] + (key === "dose" || key === "power" ? p.x : 0)),
  );
  const used = raw.flatMap((column, k) => {
    const deviation = column.length > 1 ? standardDeviation(column) : 0;
    return deviation > 1e-6 ? [{ k, middle: mean(column), deviation }] : [];
  });
  return {
    rows: patches.map((_, i) => used.map(({ k, middle, deviation }) => (raw[k]![i]! - middle) / deviation)),
    names: used.map(({ k }) => groupWords[k]![1]),
  };
}

export interface CheckedFit {
  readonly diagnostics: Pick<
    WindowResult["diagnostics"],
    "rHat" | "effectiveSampleSize" | "brierClean" | "brierUndamaged" | "priorMatters"
  >;
  readonly words: readonly string[];
  readonly caveats: readonly string[];
}

/**
 * Whether what was learnt can be relied on: islands of the posterior against each other, counts against what the posterior
 * would have led one to see, patches that surprise, and a model without physics against the physics.
 */
export function checkFit(posterior: Posterior, pinned: readonly LearntNumber[], seed: number): CheckedFit {
  const settled = posteriorChecks(posterior);
  const predicted = predictiveChecks(posterior, seed);
  const { patches } = posterior.problem;
  const words = [...settled.words];
  const caveats: string[] = [];
  if (patches.length > 0) {
    words.push(
      `Seen against what these versions of the physics expect: clean ${countWords(predicted.clean)}, damaged ${countWords(predicted.damaged)}.`,
    );
    for (const s of predicted.surprising.slice(0, 6))
      caveats.push(
        `Patch ${s.patch} came out ${s.seen}, which the others gave ${chance(s.chance)}: look at it again, or burn it once more.`,
      );
    for (const [name, count] of [
      ["clean", predicted.clean],
      ["damaged", predicted.damaged],
    ] as const)
      if (count.p < 0.02)
        caveats.push(`The number of ${name} patches does not fit the physics (p = ${formatNumber(count.p, 2)}).`);
  }
  for (const side of ["clean", "undamaged"] as const) {
    const at = predicted.patches.flatMap((p, i) => {
      const model = p[side];
      const seen = side === "clean" ? p.seenClean : p.seenUndamaged;
      return model === null || seen === null ? [] : [{ i, model, seen }];
    });
    if (at.length < 2) continue;
    const { rows, names } = columnsOf(at.map(({ i }) => patches[i]!));
    if (names.length === 0) continue;
    const misfit = misfitCheck({
      rows,
      seen: at.map((a) => a.seen),
      modelProbabilities: at.map((a) => a.model),
      names,
      verdict: side,
    });
    words.push(misfit.words);
    if (misfit.missed) caveats.push(misfit.words);
  }
  if (!settled.settled) caveats.push(...settled.words);
  return {
    diagnostics: {
      rHat: settled.rHat,
      effectiveSampleSize: settled.effectiveSampleSize,
      brierClean: predicted.brierClean ?? 0,
      brierUndamaged: predicted.brierUndamaged ?? 0,
      priorMatters: priorWords(pinned),
    },
    words,
    caveats,
  };
}

function countWords(count: PredictedCount): string {
  return `${count.seen} (${Math.round(count.low)} to ${Math.round(count.high)})`;
}

const chance = (p: number): string => `${Math.max(1, Math.round(100 * p))} of 100`;

/** How much of the answer is still the library's, by what is left of the spread of both edges. */
function priorWords(pinned: readonly LearntNumber[]): string {
  const [removal, damage] = pinned;
  if (!removal || !damage) return "Nothing was burned: all of this is physics and prior.";
  const left = (n: LearntNumber) => `${Math.round(100 * Math.min(1, n.spreadLeft))} %`;
  return `Of what the library left open about this setting ${left(removal)} remains on the removal edge and ${left(damage)} on the damage edge; the rest was learnt from the patches.`;
}
