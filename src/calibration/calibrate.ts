import { createRandom } from "#numerics";
import type { SourceKind } from "#terms";
import { invalid, requireInRange, requireInteger } from "#units";
import type { PatchEvidence } from "./evidence.ts";
import { effectPriors, layoutOf, type Layout, type Problem, problemOf } from "./likelihood.ts";
import type { Island, ShiftPrior } from "./island.ts";
import { noLessons, priorIsland, temper, widened } from "./particles.ts";
import { shiftShapes } from "./shapes.ts";

export interface CalibrateInput {
  readonly kind: SourceKind;
  /** versions of the physics behind every ray */
  readonly draws: number;
  readonly patches: readonly PatchEvidence[];
  readonly seed: number;
  /** mean and spread of shifts by name, from earlier jobs; standard normal where absent */
  readonly shifts?: ReadonlyMap<string, { readonly mean: number; readonly spread: number }>;
  /** share of wrong grades: median; a gauge study may know better */
  readonly lapse?: number;
  /** versions of the truth kept, over all islands; 1200 */
  readonly particles?: number;
  /** populations that know nothing of each other; 4 */
  readonly islands?: number;
  /** moves of every particle at each stage of tempering; 3 */
  readonly moves?: number;
}

/** Versions of the truth that fit what was burned. */
export interface Posterior {
  readonly kind: SourceKind;
  readonly layout: Layout;
  readonly problem: Problem;
  readonly prior: ShiftPrior;
  readonly islands: readonly Island[];
  /** share of moves taken in the last update */
  readonly acceptance: number;
  readonly stages: number;
  readonly moves: number;
  /** particles that an island keeps once there are patches; before, there are more of them */
  readonly count: number;
}

/**
 * Bayesian update of the physics by the outcomes of a trial, of any number of patches, none included.
 *
 * The unknown is: which version of the product's own physics (a draw from the library's spreads, edges solved by
 * `solveRay`), the shifts of `shiftShapes`, two scatters, the share of wrong grades, and effects of plates and graders.
 * Units: as in `PatchEvidence`. Range: patches on rays of the same draws. Errors: InvalidInput on a patch number that comes
 * twice or a value that is no number. Source: own model; sampling by `temper`.
 */
export function calibrate(input: CalibrateInput): Posterior {
  checkPatches(input.patches, input.draws);
  const islands = requireInteger("islands", input.islands ?? 4, 1, 16);
  const particles = requireInteger("particles", input.particles ?? 1200, 40 * islands, 100_000);
  const lapse = requireInRange("lapse", input.lapse ?? effectPriors.lapse, "", 1e-4, 0.4);
  const random = createRandom(input.seed);
  const layout = layoutFor(input.patches);
  const prior = shiftPrior(layout, input.shifts);
  const count = Math.floor(particles / islands);
  const start = Array.from({ length: islands }, (_, i) =>
    priorIsland(AHEAD * count, input.draws, prior, random.substream(i)),
  );
  const problem = problemOf(input.patches, input.kind, input.draws, layout, lapse);
  return run(
    start,
    count,
    problem,
    prior,
    input.kind,
    0,
    requireInteger("moves", input.moves ?? 3, 1, 100),
    random.substream(99),
  );
}

/**
 * The posterior with more patches. The particles go on from where they are, so that a batch costs less than a fresh start.
 * Errors and source as `calibrate`.
 */
export function calibrateFurther(before: Posterior, more: readonly PatchEvidence[], seed: number): Posterior {
  const patches = [...before.problem.patches, ...more];
  checkPatches(patches, before.problem.draws);
  const random = createRandom(seed);
  const layout = layoutFor(patches, before.layout);
  const prior = extended(before.prior, before.layout, layout);
  const start = before.islands.map((island, i) => widened(island, before.layout, layout, random.substream(i)));
  const problem = problemOf(patches, before.kind, before.problem.draws, layout, before.problem.lapseMedian);
  const known = before.problem.patches.length;
  return run(start, before.count, problem, prior, before.kind, known, before.moves, random.substream(99));
}

/** How many times more particles an update starts from than it keeps: a narrow posterior must find its first ones. */
const AHEAD = 8;

function run(
  start: readonly Island[],
  count: number,
  problem: Problem,
  prior: ShiftPrior,
  kind: SourceKind,
  known: number,
  moves: number,
  random: ReturnType<typeof createRandom>,
): Posterior {
  const options = { known, moves, count };
  const done =
    problem.patches.length === 0
      ? start.map((island) => ({ island, stages: 0, acceptance: 1 }))
      : start.map((island, i) => temper(island, problem, prior, options, random.substream(i)));
  return {
    kind,
    layout: problem.layout,
    problem,
    prior,
    islands: done.map((d) => d.island),
    acceptance: done.reduce((sum, d) => sum + d.acceptance, 0) / done.length,
    stages: Math.max(...done.map((d) => d.stages)),
    moves,
    count,
  };
}

function layoutFor(patches: readonly PatchEvidence[], least?: Layout): Layout {
  const most = (read: (p: PatchEvidence) => number) => patches.reduce((m, p) => Math.max(m, read(p) + 1), 1);
  return layoutOf(
    Math.max(
      most((p) => p.coupon),
      least?.coupons ?? 1,
    ),
    Math.max(
      most((p) => p.grader),
      least?.graders ?? 1,
    ),
  );
}

function shiftPrior(layout: Layout, shifts: CalibrateInput["shifts"]): ShiftPrior {
  const prior = noLessons(layout.size);
  shiftShapes.forEach((shape, k) => {
    const known = shifts?.get(shape.name);
    if (!known) return;
    prior.mean[k] = known.mean;
    prior.spread[k] = requireInRange(`spread of ${shape.name}`, known.spread, "", 1e-3, 10);
  });
  return prior;
}

/** Shifts, scatters and mis-grading keep their prior; plates and graders are all alike. */
function extended(prior: ShiftPrior, from: Layout, to: Layout): ShiftPrior {
  const next = noLessons(to.size);
  next.mean.set(prior.mean.subarray(0, from.couponRemoval));
  next.spread.set(prior.spread.subarray(0, from.couponRemoval));
  return next;
}

function checkPatches(patches: readonly PatchEvidence[], draws: number): void {
  requireInteger("draws", draws, 1, 1_000_000);
  const seen = new Set<number>();
  for (const p of patches) {
    if (seen.has(p.patch)) invalid("patch", p.patch, "", "must come once");
    seen.add(p.patch);
    if (p.ray.clean.length !== draws) invalid(`draws of patch ${p.patch}`, p.ray.clean.length, "", `must be ${draws}`);
    if (!Number.isFinite(p.x)) invalid(`power of patch ${p.patch}`, p.x, "", "must be a number");
    if (!Number.isFinite(p.thickness)) invalid(`thickness of patch ${p.patch}`, p.thickness, "", "must be a number");
    requireInteger(`plate of patch ${p.patch}`, p.coupon, 0, 10_000);
    requireInteger(`grader of patch ${p.patch}`, p.grader, 0, 10_000);
    for (const chance of [...(p.residue ?? []), ...(p.metal ?? [])])
      requireInRange(`reading of patch ${p.patch}`, chance, "", 0, 1);
  }
}

/** All particles of all islands in one list. */
export function allParticles(posterior: Posterior): Island {
  const { islands, layout } = posterior;
  const count = islands.reduce((sum, i) => sum + i.count, 0);
  const draw = new Int32Array(count);
  const phi = new Float64Array(count * layout.size);
  let at = 0;
  for (const island of islands) {
    draw.set(island.draw, at);
    phi.set(island.phi, at * layout.size);
    at += island.count;
  }
  return { count, draw, phi };
}
