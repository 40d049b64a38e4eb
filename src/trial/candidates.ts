import type { LaserSetup, Setting } from "#terms";
import { InvalidInput } from "#units";
import { asDelivered, isDelivered } from "./deliverable.ts";
import { type Factor, settingAt, settingKey, settingPoint } from "./factors.ts";
import { sobolDesign } from "./unit-designs.ts";

/** Predicted chances of a setting, 0 to 1. */
export interface PatchScore {
  readonly clean: number;
  readonly undamaged: number;
}

/** Where a setting lies against the predicted window. */
export type Region = "clean edge" | "damage edge" | "inside" | "outside";

export interface PlanCandidate {
  readonly setting: Setting;
  /** scaled log coordinates */
  readonly point: readonly number[];
  readonly score: PatchScore | null;
  readonly region: Region;
}

/** What the planner must be handed to try a setting. */
export interface SettingTools {
  readonly setup: LaserSetup;
  readonly roundToMachine: (setting: Setting) => Setting;
  /** throws InvalidInput when the set-up cannot run the setting */
  readonly check: (setting: Setting) => void;
  readonly score?: (setting: Setting) => PatchScore;
}

/**
 * Region of a pair of chances: an edge where one of them is 0.2 to 0.8 (the one nearer to 0.5 when both are),
 * inside where both are above 0.8, else outside. Without a score: outside. Source: own choice of limits.
 */
export function regionOf(score: PatchScore | null): Region {
  if (score === null) return "outside";
  const offClean = Math.abs(score.clean - 0.5);
  const offDamage = Math.abs(score.undamaged - 0.5);
  const reach = 0.3 + 1e-12;
  if (Math.min(offClean, offDamage) <= reach) return offClean <= offDamage ? "clean edge" : "damage edge";
  return score.clean > 0.5 && score.undamaged > 0.5 ? "inside" : "outside";
}

/**
 * Keeps what the set-up can run, once each, as it can be set; settings that deliver the same are the same. Scores what
 * it keeps at once, or with `scoring` false only when asked (`scored`).
 */
export class CandidatePool {
  readonly candidates: PlanCandidate[] = [];
  readonly #seen = new Set<string>();
  readonly #factors: readonly Factor[];
  readonly #tools: SettingTools;

  readonly #scoring: boolean;

  constructor(factors: readonly Factor[], tools: SettingTools, scoring = true) {
    this.#factors = factors;
    this.#tools = tools;
    this.#scoring = scoring;
  }

  /** Whether the set-up can run a setting as it stands and gives the power that is set. */
  runs(setting: Setting): boolean {
    try {
      this.#tools.check(setting);
      return isDelivered(this.#tools.setup, setting);
    } catch (error) {
      if (error instanceof InvalidInput) return false;
      throw error;
    }
  }

  /** A candidate with its score and region. */
  scored(candidate: PlanCandidate): PlanCandidate {
    if (candidate.score !== null || this.#tools.score === undefined) return candidate;
    const score = this.#tools.score(candidate.setting);
    return { ...candidate, score, region: regionOf(score) };
  }

  /**
   * Adds a setting after rounding; null when the set-up cannot run it or it is there already. Power that the pulse
   * energy cannot give is taken back to what it gives, unless the setting is to be kept `asGiven`.
   */
  add(raw: Setting, asGiven = false): PlanCandidate | null {
    const { roundToMachine, setup } = this.#tools;
    let setting: Setting;
    try {
      setting = roundToMachine(raw);
      if (!asGiven) setting = asDelivered(setup, setting);
      this.#tools.check(setting);
    } catch (error) {
      if (error instanceof InvalidInput) return null;
      throw error;
    }
    const key = settingKey(asDelivered(setup, setting));
    if (this.#seen.has(key)) return null;
    this.#seen.add(key);
    const bare: PlanCandidate = {
      setting,
      point: settingPoint(this.#factors, setting),
      score: null,
      region: regionOf(null),
    };
    const candidate = this.#scoring ? this.scored(bare) : bare;
    this.candidates.push(candidate);
    return candidate;
  }
}

const block = 64;

/**
 * Fills a pool with Sobol points in the logarithms of the factors, block by block, until `enough` says so or `most`
 * points were tried. Fixed by `seed`.
 */
export function fillPool(
  pool: CandidatePool,
  centre: Setting,
  factors: readonly Factor[],
  seed: number,
  most: number,
  enough: (candidates: readonly PlanCandidate[]) => boolean,
): void {
  if (factors.length === 0) return;
  for (let tried = 0; tried < most && !enough(pool.candidates); tried += block) {
    for (const t of sobolDesign(Math.min(block, most - tried), factors.length, seed, tried)) {
      pool.add(settingAt(centre, factors, t));
    }
  }
}
