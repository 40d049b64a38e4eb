import { createRandom, quantile } from "#numerics";
import { allParticles, type Posterior } from "./calibrate.ts";
import { classChances, lapseOf } from "./likelihood.ts";

/** A count over the burned patches beside what the posterior would have led one to see. */
export interface PredictedCount {
  readonly seen: number;
  /** 5, 50 and 95 % points of the count in patches burned once more */
  readonly low: number;
  readonly median: number;
  readonly high: number;
  /** chance of a count at least as far out as the one seen, equal ones counted half */
  readonly p: number;
}

/** Chances of one burned patch by what all the other patches say. */
export interface LeftOutPatch {
  readonly patch: number;
  /** chance to be read as clean, lapses of the grader included; null where it was not read */
  readonly clean: number | null;
  readonly undamaged: number | null;
  readonly seenClean: boolean | null;
  readonly seenUndamaged: boolean | null;
}

/** A patch that came out as the others would hardly have led one to expect. */
export interface SurprisingPatch {
  readonly patch: number;
  readonly side: "layer" | "metal";
  /** what was seen */
  readonly seen: "clean" | "not clean" | "undamaged" | "damaged";
  /** chance of that by what all the other patches say */
  readonly chance: number;
}

export interface PredictiveChecks {
  readonly clean: PredictedCount;
  readonly damaged: PredictedCount;
  /** readings that differ from the likelier verdict of their patch */
  readonly disagreements: PredictedCount;
  readonly patches: readonly LeftOutPatch[];
  readonly surprising: readonly SurprisingPatch[];
  /** mean squared error of the left-out chances; null where nothing was read */
  readonly brierClean: number | null;
  readonly brierUndamaged: number | null;
}

const REPLICATES = 200;
/** Chance below which a patch is called surprising. */
const SURPRISE = 0.05;

/**
 * Does what was learnt fit what was seen? Patches burned once more in some versions of the truth, compared by counts; and
 * the chances of every patch by all the others.
 *
 * Equation: a reading is clean with q = (1 − λ)·P(clean) + λ/3, undamaged with q = (1 − λ)·P(undamaged) + 2λ/3. Replicates:
 * q drawn with its version. Left out: Σ q/L ÷ Σ 1/L over the versions, L the patch's own likelihood, which the lapse keeps
 * above (λ/3)², so that no single version can carry the sum. p of counts: twice the smaller tail; of disagreements: the upper tail.
 * Units: 1. Range: any posterior; without patches all counts are 0 and p is 1. Errors: none.
 * Source: Gelman, Meng and Stern, Statistica Sinica 6 (1996); Gelfand, Dey and Chang (1992) for the left-out chances.
 */
export function predictiveChecks(posterior: Posterior, seed: number): PredictiveChecks {
  const { patches } = posterior.problem;
  const seenClean = patches.map(({ residue }) => (residue === null ? null : residue[0] >= 0.5));
  const seenUndamaged = patches.map(({ metal }) => (metal === null ? null : metal[2] < 0.5));
  const table = chancesOf(posterior);
  const likelier = (chances: readonly Float64Array[]) =>
    chances.map((row) => row.reduce((sum, q) => sum + q, 0) >= 0.5 * row.length);
  const usualClean = likelier(table.clean);
  const usualUndamaged = likelier(table.undamaged);
  const counts = (clean: readonly (boolean | null)[], undamaged: readonly (boolean | null)[]) => ({
    clean: clean.filter((c) => c === true).length,
    damaged: undamaged.filter((u) => u === false).length,
    disagreements:
      clean.filter((c, i) => c !== null && c !== usualClean[i]).length +
      undamaged.filter((u, i) => u !== null && u !== usualUndamaged[i]).length,
  });
  const random = createRandom(seed);
  const versions = table.count;
  const again = Array.from({ length: REPLICATES }, (_, r) => {
    const m = Math.floor(((r + 0.5) * versions) / REPLICATES);
    const burn = (seen: readonly (boolean | null)[], chances: readonly Float64Array[]) =>
      seen.map((s, i) => (s === null ? null : random.next() < chances[i]![m]!));
    return counts(burn(seenClean, table.clean), burn(seenUndamaged, table.undamaged));
  });
  const seen = counts(seenClean, seenUndamaged);
  const left = patches.map((p, i): LeftOutPatch => {
    const mean = (q: Float64Array) => leftOut(q, table.likelihood[i]!);
    return {
      patch: p.patch,
      clean: p.residue === null ? null : mean(table.clean[i]!),
      undamaged: p.metal === null ? null : mean(table.undamaged[i]!),
      seenClean: seenClean[i]!,
      seenUndamaged: seenUndamaged[i]!,
    };
  });
  const read = (of: "clean" | "damaged" | "disagreements", tails: 1 | 2) =>
    predicted(
      seen[of],
      again.map((a) => a[of]),
      tails,
    );
  return {
    clean: read("clean", 2),
    damaged: read("damaged", 2),
    disagreements: read("disagreements", 1),
    patches: left,
    surprising: left.flatMap(surprises),
    brierClean: brier(left.map((p) => [p.clean, p.seenClean])),
    brierUndamaged: brier(left.map((p) => [p.undamaged, p.seenUndamaged])),
  };
}

/** Rows by patch, columns by version of the truth: chances of both readings, and the likelihood of what was read. */
function chancesOf(posterior: Posterior) {
  const { problem, layout } = posterior;
  const { count, draw, phi } = allParticles(posterior);
  const rows = () => problem.patches.map(() => new Float64Array(count));
  const [clean, undamaged, likelihood] = [rows(), rows(), rows()];
  const six = new Float64Array(6);
  for (let m = 0; m < count; m++) {
    const at = m * layout.size;
    const lapse = lapseOf(problem.lapseMedian, phi[at + layout.lapse]!);
    problem.patches.forEach(({ residue, metal }, i) => {
      classChances(problem, i, draw[m]!, phi, at, six);
      const [p0, p1, p2, p3, p4, p5] = six as unknown as [number, number, number, number, number, number];
      clean[i]![m] = (1 - lapse) * p0 + lapse / 3;
      undamaged[i]![m] = (1 - lapse) * (p3 + p4) + (2 * lapse) / 3;
      let l = 1;
      if (residue !== null) l *= (1 - lapse) * (residue[0] * p0 + residue[1] * p1 + residue[2] * p2) + lapse / 3;
      if (metal !== null) l *= (1 - lapse) * (metal[0] * p3 + metal[1] * p4 + metal[2] * p5) + lapse / 3;
      likelihood[i]![m] = l;
    });
  }
  return { count, clean, undamaged, likelihood };
}

function leftOut(chance: Float64Array, likelihood: Float64Array): number {
  let sum = 0;
  let total = 0;
  for (let m = 0; m < chance.length; m++) {
    sum += chance[m]! / likelihood[m]!;
    total += 1 / likelihood[m]!;
  }
  return sum / total;
}

function predicted(seen: number, again: readonly number[], tails: 1 | 2): PredictedCount {
  const equal = again.filter((a) => a === seen).length;
  const above = (again.filter((a) => a > seen).length + 0.5 * equal) / again.length;
  return {
    seen,
    low: quantile(again, 0.05),
    median: quantile(again, 0.5),
    high: quantile(again, 0.95),
    // Where every replicate gives the count that was seen there is nothing to wonder at, on one side or on two.
    p: equal === again.length ? 1 : tails === 1 ? above : Math.min(1, 2 * Math.min(above, 1 - above)),
  };
}

function surprises(p: LeftOutPatch): SurprisingPatch[] {
  const found: SurprisingPatch[] = [];
  if (p.clean !== null) {
    const chance = p.seenClean ? p.clean : 1 - p.clean;
    if (chance < SURPRISE)
      found.push({ patch: p.patch, side: "layer", seen: p.seenClean ? "clean" : "not clean", chance });
  }
  if (p.undamaged !== null) {
    const chance = p.seenUndamaged ? p.undamaged : 1 - p.undamaged;
    if (chance < SURPRISE)
      found.push({ patch: p.patch, side: "metal", seen: p.seenUndamaged ? "undamaged" : "damaged", chance });
  }
  return found;
}

function brier(pairs: readonly (readonly [number | null, boolean | null])[]): number | null {
  const read = pairs.filter((p): p is readonly [number, boolean] => p[0] !== null && p[1] !== null);
  if (read.length === 0) return null;
  return read.reduce((sum, [chance, seen]) => sum + (chance - (seen ? 1 : 0)) ** 2, 0) / read.length;
}
