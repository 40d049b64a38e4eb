import { calibrate, calibrateFurther, type PatchEvidence, type Posterior } from "#calibration";
import type { Ray } from "#edges";
import type { DriftSpread, Setting, SourceKind } from "#terms";
import { type BatchPick, nextPicks } from "./batch.ts";
import { truthDraws } from "./chances.ts";
import { type Choice, type ChoiceTable, choiceTable } from "./choice-table.ts";
import { chooseFastest } from "./choose.ts";
import { type Repeats, sameSetting } from "./same-setting.ts";
import { type StopVerdict, stopVerdict } from "./stop-rule.ts";

/** How a trial is carried on batch by batch. */
export interface TrialPolicy {
  readonly kind: SourceKind;
  /** versions of the physics behind the rays */
  readonly draws: number;
  readonly rays: readonly Ray[];
  readonly drift: DriftSpread;
  /** share of versions asked for, `Acceptance.confidence` */
  readonly confidence: number;
  readonly firstBatch: number;
  readonly batch: number;
  /** patches after which the trial ends undecided */
  readonly most: number;
  readonly particles: number;
  readonly islands: number;
  readonly moves?: number;
  readonly seed: number;
  /** what earlier jobs taught of the shifts, by name */
  readonly shifts?: ReadonlyMap<string, { readonly mean: number; readonly spread: number }>;
}

/** Patches to burn now, and what came of them. The numbers of patches go on from `burned`. */
export type Burn = (picks: readonly Choice[], burned: number) => readonly PatchEvidence[];

export interface TrialState {
  readonly patches: readonly PatchEvidence[];
  readonly settings: readonly Setting[];
  readonly table: ChoiceTable;
  readonly choice: Choice | null;
  readonly verdict: StopVerdict;
}

/** What turns patches into chances of settings. It is asked again and again with more patches at the end of the list. */
export type TrialModel = (patches: readonly PatchEvidence[]) => ChoiceTable;

/** Which settings a batch burns: what the product picks, or a design of one's own. */
export type TrialOrder = (
  picks: readonly BatchPick[],
  table: ChoiceTable,
  burned: readonly Setting[],
) => readonly Choice[];

/** Good: read as clean and as undamaged, likelier than not. A half-read patch counts only where what was read is bad. */
export function evidenceVerdict(p: PatchEvidence): boolean | null {
  const clean = p.residue === null ? null : p.residue[0] >= 0.5;
  const whole = p.metal === null ? null : p.metal[2] < 0.5;
  if (clean === false || whole === false) return false;
  return clean === null || whole === null ? null : true;
}

/** Repeats of a setting among patches and their settings. */
export function repeatsAmong(
  setting: Setting,
  patches: readonly PatchEvidence[],
  settings: readonly Setting[],
): Repeats {
  let burned = 0;
  let good = 0;
  settings.forEach((s, i) => {
    if (!sameSetting(s, setting)) return;
    const verdict = evidenceVerdict(patches[i]!);
    if (verdict === null) return;
    burned++;
    if (verdict) good++;
  });
  return { burned, good };
}

/** The product's own model: the posterior of the physics, brought forward batch by batch. */
export function physicsModel(policy: TrialPolicy): TrialModel & { readonly posterior: () => Posterior } {
  const { kind, draws, seed, particles, islands, moves, shifts } = policy;
  let posterior = calibrate({
    kind,
    draws,
    patches: [],
    seed,
    particles,
    islands,
    ...(moves === undefined ? {} : { moves }),
    ...(shifts === undefined ? {} : { shifts }),
  });
  const model: TrialModel = (patches) => {
    const known = posterior.problem.patches.length;
    if (patches.length > known) posterior = calibrateFurther(posterior, patches.slice(known), seed + 1 + known);
    return choiceTable(truthDraws(posterior), policy.rays, policy.drift);
  };
  return Object.assign(model, { posterior: () => posterior });
}

/**
 * A whole trial by the product's own rules: weigh the evidence, choose, stop or burn the next batch. `onState` sees every
 * state, the one before the first patch included. Same input, same trial. Errors: those of `calibrate`. Source: own procedure.
 */
export function sequentialTrial(
  policy: TrialPolicy,
  burn: Burn,
  options: {
    readonly model?: TrialModel;
    readonly order?: TrialOrder;
    readonly onState?: (state: TrialState) => void;
  } = {},
): TrialState {
  const model = options.model ?? physicsModel(policy);
  const patches: PatchEvidence[] = [];
  const settings: Setting[] = [];
  for (let round = 0; ; round++) {
    const table = model(patches);
    const repeats = (setting: Setting) => repeatsAmong(setting, patches, settings);
    const choice = chooseFastest(table, policy.confidence, repeats);
    const room = Math.min(policy.most - patches.length, round === 0 ? policy.firstBatch : policy.batch);
    const { picks, gain } = nextPicks({
      table,
      n: room,
      choice,
      repeats,
      patches: patches.length,
      burned: (s) => settings.some((b) => sameSetting(b, s)),
    });
    const verdict = stopVerdict({
      patches: patches.length,
      bestShare: table.choices.reduce((most, c) => Math.max(most, c.share), 0),
      repeats: choice === null ? null : repeats(choice.setting),
      gain,
    });
    const state = { patches, settings, table, choice, verdict };
    options.onState?.(state);
    const chosen = options.order === undefined ? picks.map((p) => p.choice) : options.order(picks, table, settings);
    if (verdict !== "go on" || chosen.length === 0) return state;
    const burned = burn(chosen, patches.length);
    patches.push(...burned);
    settings.push(...chosen.slice(0, burned.length).map((c) => c.setting));
  }
}
