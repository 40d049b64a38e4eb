import { frequencyRange } from "#beam";
import type { Setting } from "#terms";
import { CandidatePool, fillPool, type PlanCandidate } from "./candidates.ts";
import { chooseCoded } from "./choose-coded.ts";
import { chooseDOptimal } from "./choose-d-optimal.ts";
import { chooseFarthest, chooseSpread, regionQuotas } from "./choose-settings.ts";
import { codedDesign } from "./coded-designs.ts";
import { asDelivered } from "./deliverable.ts";
import { type DesignName, gridFactors, gridSettings } from "./design-settings.ts";
import { type Factor, factorsAround, placeSetting } from "./factors.ts";
import { twoLevelFactorial } from "./two-level.ts";
import type { PlanInput } from "./plan-input.ts";

export interface PlanChoice {
  /** with their scores */
  readonly chosen: readonly PlanCandidate[];
  readonly factors: readonly Factor[];
  /** what the design is and what became of it, one sentence each */
  readonly notes: readonly string[];
}

/** A pool in the making. */
interface Work {
  readonly input: PlanInput;
  readonly factors: readonly Factor[];
  readonly pool: CandidatePool;
  readonly distinct: number;
  readonly chosen: PlanCandidate[];
  readonly notes: string[];
}

/**
 * The distinct settings of a plan by its design: at most `distinct`, each one that the set-up can run, none twice.
 * The centre is among them but for a grid and where the order was handed in. What a design leaves of the patches is
 * filled with settings far from all others. Throws InvalidInput when the design does not fit the factors or the room.
 */
export function choosePlan(input: PlanInput, design: DesignName, distinct: number): PlanChoice {
  const factors = factorsAround(input.setup, asDelivered(input.setup, input.centre), input.ranges);
  const guided = design === "physics-guided";
  const pool = new CandidatePool(factors, input, guided || design === "d-optimal");
  const work: Work = { input, factors, pool, distinct, chosen: [], notes: [] };
  if (design === "grid") add(work, gridSettings(input.centre, factors, distinct, input.grid));
  else if (guided && input.guided !== undefined) add(work, input.guided, true);
  else add(work, [input.centre], true);
  const varied = follow(work, design);
  const left = distinct - work.chosen.length;
  if (left > 0) {
    if (guided) work.chosen.push(...guidedSpread(work, left));
    else {
      widen(work, 3 * distinct, varied);
      work.chosen.push(...chooseFarthest(pool.candidates, work.chosen, left));
    }
    const filled = left - (distinct - work.chosen.length);
    if (filled > 0 && work.chosen.length > filled + 1 && design !== "space-filling" && !guided)
      work.notes.push(`${filled} more are spread over the same controls where the design left room.`);
  }
  return { chosen: work.chosen.map((candidate) => pool.scored(candidate)), factors, notes: work.notes };
}

function add(work: Work, settings: readonly Setting[], asGiven = false): void {
  for (const setting of settings) {
    if (work.chosen.length >= work.distinct) return;
    const candidate = work.pool.add(setting, asGiven);
    if (candidate !== null) work.chosen.push(candidate);
  }
}

/** Adds what the design asks for and says what it is; returns the factors that it varies. */
function follow(work: Work, design: DesignName): readonly Factor[] {
  const { input, factors, pool, distinct, chosen, notes } = work;
  const room = distinct - chosen.length;
  switch (design) {
    case "physics-guided":
      if (input.guided !== undefined)
        notes.push(
          "The settings that teach most by the physics, in that order; their places on the coupon are random.",
        );
      else if (input.score === undefined)
        notes.push("Spread over the logarithms of the controls so that no two are close.");
      return factors;
    case "space-filling":
      notes.push("Spread over the logarithms of the controls so that no two are close.");
      return factors;
    case "grid":
      notes.push("A grid over two controls with the others held.");
      return gridFactors(factors, input.grid);
    case "d-optimal": {
      if (factors.length === 0 || room < 1) return factors;
      add({ ...work, chosen: [], distinct: 200 }, corners(work));
      widen(work, Math.max(input.candidatesMax ?? 384, 2 * distinct), factors);
      const told = chooseDOptimal(input, pool, factors, chosen, room);
      chosen.push(...told.chosen);
      notes.push("The settings that together tell most of a stated model.", ...told.notes);
      return factors;
    }
    default: {
      const options = { room, axial: input.axial ?? "rotatable", seed: input.seed } as const;
      const whole = codedDesign(design, factors, options);
      const varies = whole.factors.some((factor) => factor.name === "pulseWidth");
      const coded = varies ? whole : codedDesign(design, reachable(work), options);
      const told = chooseCoded(input, pool, coded);
      chosen.push(...told.chosen.slice(0, room));
      notes.push(`The centre and ${coded.words}.`, ...told.notes);
      return coded.factors;
    }
  }
}

/** The factors with the frequency cut to what the centre's pulse width allows, for designs too small to vary the width. */
function reachable({ input, factors }: Work): readonly Factor[] {
  const range = frequencyRange(input.setup, input.centre.pulseWidth);
  if (range === null) return factors;
  return factors.flatMap((factor) => {
    if (factor.name !== "frequency") return [factor];
    const cut = { ...factor, low: Math.max(factor.low, range.min), high: Math.min(factor.high, range.max) };
    return cut.high > cut.low * (1 + 1e-9) ? [cut] : [];
  });
}

/** Corners of the ranges that the set-up can run, for a list to choose from. */
function corners({ input, factors, pool }: Work): Setting[] {
  const base = asDelivered(input.setup, input.centre);
  return twoLevelFactorial(factors.length)
    .map((row) =>
      placeSetting(
        base,
        factors,
        row.map((x) => (x + 1) / 2),
      ),
    )
    .filter((setting) => pool.runs(setting));
}

function widen({ input, pool }: Work, goal: number, factors: readonly Factor[]): void {
  const most = Math.max(input.candidatesMax ?? 384, 2 * goal);
  fillPool(pool, input.centre, factors, input.seed, most, (all) => all.length >= goal);
}

/** A third near each predicted edge, spread by maximin. */
function guidedSpread({ input, factors, pool, chosen, distinct }: Work, count: number): PlanCandidate[] {
  const quotas = regionQuotas(distinct);
  const enough = (candidates: readonly PlanCandidate[]): boolean => {
    if (candidates.length < 3 * distinct) return false;
    if (input.score === undefined) return true;
    return (["clean edge", "damage edge", "inside"] as const).every(
      (region) => candidates.filter((c) => c.region === region).length >= 2 * quotas[region],
    );
  };
  const most = Math.max(input.candidatesMax ?? 384, 2 * distinct);
  fillPool(pool, input.centre, factors, input.seed, most, enough);
  return chooseSpread(pool.candidates, chosen, count);
}
