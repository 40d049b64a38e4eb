import { cholesky, solveCholesky } from "#numerics";
import type { SourceKind } from "#terms";
import type { PatchEvidence } from "./evidence.ts";
import { quickNormal } from "./quick-normal.ts";
import { damageShapes, referenceOf, removalShapes, shapeRow } from "./shapes.ts";

/** Where the coordinates of a version of the truth stand in its row of standard normal numbers. */
export interface Layout {
  readonly removal: number;
  readonly damage: number;
  readonly scatter: number;
  readonly lapse: number;
  readonly couponRemoval: number;
  readonly couponDamage: number;
  readonly graderRemoval: number;
  readonly graderDamage: number;
  readonly coupons: number;
  readonly graders: number;
  readonly size: number;
}

/** Coordinates for so many plates and graders. Plates and graders come last, so that others keep their places. */
export function layoutOf(coupons: number, graders: number): Layout {
  const damage = removalShapes.length;
  const scatter = damage + damageShapes.length;
  const lapse = scatter + 2;
  const couponRemoval = lapse + 1;
  const couponDamage = couponRemoval + coupons;
  const graderRemoval = couponDamage + coupons;
  const graderDamage = graderRemoval + graders;
  return {
    removal: 0,
    damage,
    scatter,
    lapse,
    couponRemoval,
    couponDamage,
    graderRemoval,
    graderDamage,
    coupons,
    graders,
    size: graderDamage + graders,
  };
}

/** Spreads of the effects, ln power, and priors of scatter and mis-grading. Own choice; thickness scatter of 15 % is in. */
export const effectPriors = {
  couponRemoval: 0.07,
  couponDamage: 0.03,
  graderRemoval: 0.05,
  graderDamage: 0.04,
  /** ln power: median and ln spread of the scatter from patch to patch */
  scatterRemoval: 0.1,
  scatterDamage: 0.07,
  scatterSpread: 0.4,
  /** share of grades that are simply wrong: median and spread of its logit */
  lapse: 0.025,
  lapseSpread: 0.4,
} as const;

/** What a likelihood needs of all patches, row by row. */
export interface Problem {
  readonly patches: readonly PatchEvidence[];
  readonly layout: Layout;
  readonly draws: number;
  readonly removalRows: readonly Float64Array[];
  readonly damageRows: readonly Float64Array[];
  readonly lapseMedian: number;
  /**
   * what the edges of each version of the physics over the burned patches look like as shifts: rows of shifts of removal and
   * of damage that imitate them best, so that one version can be put in the place of another with the edges much the same
   */
  readonly removalLikeness: readonly Float64Array[];
  readonly damageLikeness: readonly Float64Array[];
}

export function problemOf(
  patches: readonly PatchEvidence[],
  kind: SourceKind,
  draws: number,
  layout: Layout,
  lapseMedian: number = effectPriors.lapse,
): Problem {
  const from = referenceOf(kind);
  const removalRows = patches.map((p) => shapeRow(removalShapes, p.ray, p.x, p.thickness, from));
  const damageRows = patches.map((p) => shapeRow(damageShapes, p.ray, p.x, p.thickness, from));
  return {
    patches,
    layout,
    draws,
    removalRows,
    damageRows,
    lapseMedian,
    removalLikeness: likenessOf(removalRows, patches, draws, (p) => p.ray.clean),
    damageLikeness: likenessOf(damageRows, patches, draws, (p) => p.ray.damage),
  };
}

/** ln power: edges farther from a patch than this say no more than that they are far; and how well shifts need imitate. */
const LIKENESS_REACH = 1;
const LIKENESS_SLACK = 0.2;

/**
 * Shifts that imitate the edges of each version over the patches: (RᵀR + s²I)⁻¹Rᵀe, e the edge less the patch's power, held
 * within ±1. Linear in e, so that going from one version to another and back ends where it began.
 */
function likenessOf(
  rows: readonly Float64Array[],
  patches: readonly PatchEvidence[],
  draws: number,
  edgeOf: (p: PatchEvidence) => Float64Array,
): Float64Array[] {
  const size = rows[0]?.length ?? 0;
  if (size === 0) return Array.from({ length: draws }, () => new Float64Array(0));
  const normal = new Float64Array(size * size);
  for (const row of rows)
    for (let a = 0; a < size; a++) for (let b = 0; b < size; b++) normal[a * size + b]! += row[a]! * row[b]!;
  for (let a = 0; a < size; a++) normal[a * size + a]! += LIKENESS_SLACK ** 2;
  const factor = cholesky(normal, size);
  return Array.from({ length: draws }, (_, j) => {
    const right = new Float64Array(size);
    patches.forEach((p, i) => {
      const e = Math.max(-LIKENESS_REACH, Math.min(LIKENESS_REACH, edgeOf(p)[j]! - p.x));
      for (let a = 0; a < size; a++) right[a]! += rows[i]![a]! * e;
    });
    return Float64Array.from(solveCholesky(factor, size, right));
  });
}

export const scatterOf = (median: number, z: number): number => median * Math.exp(effectPriors.scatterSpread * z);

export function lapseOf(median: number, z: number): number {
  const odds = (median / (1 - median)) * Math.exp(effectPriors.lapseSpread * z);
  return odds / (1 + odds);
}

/** Chances of the three classes of both readings of one patch in one version; written into `out`, residue first. */
export function classChances(
  problem: Problem,
  i: number,
  draw: number,
  phi: Float64Array,
  at: number,
  out: Float64Array,
): void {
  const { layout } = problem;
  const p = problem.patches[i]!;
  const removalRow = problem.removalRows[i]!;
  let shift = 0;
  for (let k = 0; k < removalRow.length; k++) shift += removalRow[k]! * phi[at + k]!;
  shift += effectPriors.couponRemoval * phi[at + layout.couponRemoval + p.coupon]!;
  shift += effectPriors.graderRemoval * phi[at + layout.graderRemoval + p.grader]!;
  const scatter = scatterOf(effectPriors.scatterRemoval, phi[at + layout.scatter]!);
  const reach = (p.x - shift) / scatter;
  const clean = quickNormal(reach - p.ray.clean[draw]! / scatter);
  const half = quickNormal(reach - p.ray.half[draw]! / scatter);
  out[0] = clean;
  out[1] = Math.max(0, half - clean);
  out[2] = 1 - Math.max(half, clean);
  const damageRow = problem.damageRows[i]!;
  let harm = 0;
  for (let k = 0; k < damageRow.length; k++) harm += damageRow[k]! * phi[at + layout.damage + k]!;
  harm += effectPriors.couponDamage * phi[at + layout.couponDamage + p.coupon]!;
  harm += effectPriors.graderDamage * phi[at + layout.graderDamage + p.grader]!;
  const spread = scatterOf(effectPriors.scatterDamage, phi[at + layout.scatter + 1]!);
  const room = (harm - p.x) / spread;
  const whole = quickNormal(room + p.ray.melt[draw]! / spread);
  const accepted = quickNormal(room + p.ray.damage[draw]! / spread);
  out[3] = whole;
  out[4] = Math.max(0, accepted - whole);
  out[5] = 1 - Math.max(accepted, whole);
}

const chances = new Float64Array(6);

/**
 * ln likelihood of patches `first` to `last` − 1 in one version of the truth.
 *
 * Equation: Σ ln[(1 − λ)·Σ_k w_k·p_k + λ/3] over both readings of each patch; w_k chances that the reading means class k,
 * p_k chances of that class from Φ((x − edge)/σ), λ the share of wrong grades.
 * Units: 1. Range: any. Errors: none. Source: own model; ordinal probit with lapse (Wichmann and Hill 2001).
 */
export function logLikelihood(
  problem: Problem,
  draw: number,
  phi: Float64Array,
  at: number,
  first = 0,
  last = problem.patches.length,
): number {
  const { layout } = problem;
  const lapse = lapseOf(problem.lapseMedian, phi[at + layout.lapse]!);
  let sum = 0;
  for (let i = first; i < last; i++) {
    const { residue, metal } = problem.patches[i]!;
    classChances(problem, i, draw, phi, at, chances);
    if (residue !== null) {
      const p = residue[0] * chances[0]! + residue[1] * chances[1]! + residue[2] * chances[2]!;
      sum += Math.log((1 - lapse) * p + lapse / 3);
    }
    if (metal !== null) {
      const p = metal[0] * chances[3]! + metal[1] * chances[4]! + metal[2] * chances[5]!;
      sum += Math.log((1 - lapse) * p + lapse / 3);
    }
  }
  return sum;
}
