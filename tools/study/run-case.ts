import type { PatchEvidence } from "#calibration";
import { metalReading, residueReading } from "#calibration";
import { createRandom, quantile, type RandomStream } from "#numerics";
import type { Acceptance, DriftCase, DriftSpread, LaserSetup, Outcome } from "#terms";
import type { World } from "#truth";
import {
  type Burn,
  type Choice,
  levelOf,
  LEVELS,
  atLevel,
  MEETS,
  physicsModel,
  rayTruth,
  sequentialTrial,
  type TrialOrder,
  type TrialPolicy,
  type TrialState,
  truthDraws,
} from "#window";
import { fitProbitModel, type ProbitCandidates, probitTable } from "./probit-model.ts";
import type { DesignPoint, ScenarioBook } from "./scenario-book.ts";
import type { CaseRecord } from "./scoring.ts";

export const planners = ["physics-guided", "probit", "full grid", "one factor at a time", "latin hypercube"] as const;
export type PlannerName = (typeof planners)[number];

const PER_COUPON = 12;
const MOST = 48;

export interface CaseInput {
  readonly planner: PlannerName;
  readonly scenario: {
    readonly id: string;
    readonly setup: LaserSetup;
    readonly acceptance: Acceptance;
    readonly layers: number;
  };
  readonly book: ScenarioBook;
  readonly probit: ProbitCandidates;
  readonly world: World;
  readonly drift: DriftSpread;
  readonly cases: readonly DriftCase[];
  /** m²/s, the fastest of all candidates that truly works, or null */
  readonly bestRate: number | null;
  readonly seed: number;
  /** sees every state of the trial */
  readonly watch?: (state: TrialState) => void;
}

/** Production days: each factor lognormal with the spread of the drift. The same for every planner and every world. */
export function driftCases(drift: DriftSpread, count: number, seed: number): DriftCase[] {
  const random = createRandom(seed);
  const half = Array.from({ length: count / 2 }, () => [0, 0, 0, 0].map(() => random.normal()));
  // Each day and its mirror, so that sixteen days have no drift on the mean.
  return [...half, ...half.map((z) => z.map((v) => -v))].map((z) => ({
    power: Math.exp(drift.power * z[0]!),
    spot: Math.exp(drift.spot * z[1]!),
    speed: Math.exp(drift.speed * z[2]!),
    thickness: Math.exp(drift.thickness * z[3]!),
  }));
}

/** The fastest candidate with a true chance of at least 0.95; null where none has it. */
export function trueBestRate(book: ScenarioBook, world: World, cases: readonly DriftCase[]): number | null {
  const order = book.rays.map((_, i) => i).sort((a, b) => book.rays[b]!.areaRate - book.rays[a]!.areaRate);
  for (const i of order) {
    const ray = book.rays[i]!;
    const { lnClean, lnDamage } = world.edges(ray.setting);
    // Levels outside of both nominal edges have no chance of 0.95.
    if (LEVELS.some((x) => x >= lnClean && x <= lnDamage && world.chance(atLevel(ray.setting, x), cases).both >= MEETS))
      return ray.areaRate;
  }
  return null;
}

/** One planner against one world, to its own stop or to 48 patches. */
export function runCase(input: CaseInput): CaseRecord {
  const { planner, scenario, book, world, cases, drift } = input;
  const random = createRandom(input.seed).substream(3);
  const policy: TrialPolicy = {
    kind: scenario.setup.kind,
    draws: book.draws,
    rays: book.rays,
    drift,
    confidence: scenario.acceptance.confidence,
    firstBatch: 8,
    batch: 4,
    most: MOST,
    particles: 1000,
    islands: 2,
    moves: 3,
    seed: input.seed,
  };
  const burn = worldBurn(input, random);
  const physics = planner === "probit" ? null : physicsModel(policy);
  const model =
    physics ??
    ((patches: readonly PatchEvidence[]) => probitTable(fitProbitModel(patches, book.rays, input.seed), input.probit));
  const truthOf = (choice: Choice | null) =>
    choice === null ? null : { truth: world.chance(choice.setting, cases).both, rate: choice.areaRate };
  let at12: CaseRecord["at12"] = null;
  let at24: CaseRecord["at24"] = null;
  const onState = (state: TrialState) => {
    const n = state.patches.length;
    input.watch?.(state);
    if (n === 12) at12 = truthOf(state.choice);
    if (n === 24) at24 = truthOf(state.choice);
  };
  const order =
    planner in book.designs ? designOrder(book.designs[planner as keyof ScenarioBook["designs"]], book) : undefined;
  const end = sequentialTrial(policy, burn, { model, onState, ...(order === undefined ? {} : { order }) });
  const choice = truthOf(end.choice);
  const stopped = end.verdict !== "go on";
  const n = end.patches.length;
  // A trial that stopped would recommend the same later on.
  if (stopped && n < 12) at12 = choice;
  if (stopped && n < 24) at24 = choice;
  return {
    planner,
    scenario: scenario.id,
    kind: world.kind,
    pulsed: scenario.setup.kind === "pulsed",
    layers: scenario.layers,
    seed: input.seed,
    patches: n,
    stopped,
    verdict: end.verdict === "recommend" ? "recommended" : end.verdict === "nothing found" ? "nothing" : "open",
    truth: choice?.truth ?? null,
    rate: choice?.rate ?? null,
    bestRate: input.bestRate,
    at24,
    at12,
    stated: statedAgainstTrue(end, world, cases, random),
    covered: physics === null ? [] : coverage(physics.posterior(), input, end, random),
  };
}

function designOrder(points: readonly DesignPoint[], book: ScenarioBook): TrialOrder {
  let next = 0;
  return (picks, table) => {
    const repeats = picks.filter((p) => p.why === "repeat").map((p) => p.choice);
    const wanted = picks.length - repeats.length;
    const design = points.slice(next, next + wanted).map((point): Choice => {
      const near = table.choices.find((c) => c.family === point.family) ?? table.choices[0]!;
      return { ...near, setting: point.setting, areaRate: book.rays[point.family]!.areaRate, family: point.family };
    });
    next += wanted;
    return [...repeats, ...design];
  };
}

function worldBurn(input: CaseInput, random: RandomStream): Burn {
  const { book, world, scenario } = input;
  return (picks, burned) =>
    picks.map((pick, i): PatchEvidence => {
      const ray = book.rays[pick.family]!;
      const coupon = Math.floor((burned + i) / PER_COUPON);
      const seen = world.burn(pick.setting, coupon, random);
      const outcome = outcomeOf(burned + i + 1, seen);
      return {
        patch: burned + i + 1,
        ray,
        x: levelOf(ray, pick.setting.level),
        coupon,
        grader: 0,
        thickness: 0,
        residue: residueReading(outcome, scenario.acceptance),
        metal: metalReading(outcome, scenario.acceptance),
      };
    });
}

function outcomeOf(patch: number, seen: ReturnType<World["burn"]>): Outcome {
  return {
    trialId: "study",
    patch,
    residueFraction: seen.residueFraction,
    residueUncertainty: null,
    metalCondition: seen.metalCondition,
    lightness: null,
    roughnessBefore: null,
    roughnessAfter: null,
    thicknessBefore: null,
    thicknessAfter: null,
    temperature: null,
    tests: [],
    grader: "a",
    note: "",
  };
}

const SAMPLES = 12;

/** Settings drawn without sight of the truth: stated chance against the true one. */
function statedAgainstTrue(
  end: TrialState,
  world: World,
  cases: readonly DriftCase[],
  random: RandomStream,
): CaseRecord["stated"] {
  return Array.from({ length: SAMPLES }, () => {
    const choice = end.table.choices[random.integer(end.table.choices.length)]!;
    return { stated: choice.both, truth: world.chance(choice.setting, cases).both };
  });
}

/** 90 % intervals of both edges on the ray of the choice and on a few others, against the edges of the world. */
function coverage(
  posterior: Parameters<typeof truthDraws>[0],
  input: CaseInput,
  end: TrialState,
  random: RandomStream,
): CaseRecord["covered"] {
  const truths = truthDraws(posterior, 600);
  const families = [
    end.choice?.family ?? input.book.centre.family,
    ...[0, 1].map(() => random.integer(input.book.rays.length)),
  ];
  return families.flatMap((family) => {
    const ray = input.book.rays[family]!;
    const truth = rayTruth(truths, ray, input.drift);
    const edges = input.world.edges(ray.setting);
    // Edges that no power of the machine reaches are not asked about: neither model nor world looks there closely.
    return (
      [
        ["clean", truth.clean, truth.cleanSlope, edges.lnClean],
        ["damage", truth.damage, truth.damageSlope, edges.lnDamage],
      ] as const
    ).flatMap(([edge, at, slope, lnTrue]) => {
      if (lnTrue < -1.9 || lnTrue > 0.5) return [];
      const solved = Float64Array.from(at, (a, s) => a / (1 - slope[s]!));
      return [{ edge, inside: lnTrue >= quantile(solved, 0.05) && lnTrue <= quantile(solved, 0.95) }];
    });
  });
}
