import { createRandom } from "#numerics";
import type { LaserSetup, PatchResult, Setting } from "#terms";
import { candidateSettings, neighbour } from "./candidates.ts";
import type { PartModel } from "./part-model.ts";
import { patchResults, planOf, productionRate } from "./predict.ts";
import { isClean, isUndamaged, nearMiss, softClean, softUndamaged } from "./scores.ts";

/** How a setting did over a few draws. */
export interface Judged {
  readonly setting: Setting;
  /** mean of the soft verdicts together, 0..1: guides the search where counts are all zero */
  readonly soft: number;
  readonly softClean: number;
  readonly softUndamaged: number;
  /** mean of the forgiving verdict, 0..1: leads towards the edges where no setting is good */
  readonly near: number;
  /** share of draws clean and undamaged */
  readonly both: number;
  readonly rate: number;
}

export interface SearchOptions {
  readonly seed: number;
  readonly powerMax: number | null;
  readonly candidates?: number;
  readonly quickDraws?: number;
  readonly fineDraws?: number;
}

/** What is given up in sureness for a faster setting once the surest is known. */
const SURENESS_SLACK = 0.05;
const ROUNDS = 3;
const STARTS = 3;
const NEIGHBOURS = 14;

/** Judges one setting on the first `count` draws of a part. */
export function judge(model: PartModel, setup: LaserSetup, setting: Setting, count: number, quickly = false): Judged {
  const results = patchResults(model, planOf(model, setup, setting, quickly), count);
  return { ...tally(model, results), setting, rate: productionRate(model, setup, setting) };
}

function tally(model: PartModel, results: readonly PatchResult[]) {
  const { acceptance } = model.part;
  let soft = 0;
  let clean = 0;
  let undamaged = 0;
  let both = 0;
  let near = 0;
  for (const r of results) {
    const c = softClean(r, acceptance);
    const u = softUndamaged(r, acceptance);
    soft += c * u;
    clean += c;
    undamaged += u;
    near += nearMiss(r);
    if (isClean(r, acceptance) && isUndamaged(r, acceptance)) both++;
  }
  const n = results.length;
  return { soft: soft / n, softClean: clean / n, softUndamaged: undamaged / n, both: both / n, near: near / n };
}

/**
 * The setting to put forward: the fastest that meets the part's confidence; where none does, the fastest within a
 * little of the surest.
 */
export function choose(judged: readonly Judged[], confidence: number): Judged | null {
  if (judged.length === 0) return null;
  const surest = Math.max(...judged.map((j) => j.both));
  const bar = Math.min(confidence, surest) - SURENESS_SLACK;
  const good = judged.filter((j) => j.both >= Math.max(bar, 1e-9));
  if (good.length === 0) return judged.reduce((a, b) => (b.near > a.near ? b : a));
  return good.reduce((a, b) => (b.rate * (0.2 + b.soft) > a.rate * (0.2 + a.soft) ? b : a));
}

/**
 * Searches a set-up's settings for one part: spread candidates on few draws, then neighbours of the best starts, then
 * a last look at the leaders on more draws. Deterministic by seed.
 */
export function searchSettings(
  model: PartModel,
  setup: LaserSetup,
  options: SearchOptions,
): { best: Judged | null; judged: readonly Judged[] } {
  const quick = options.quickDraws ?? 8;
  const fine = options.fineDraws ?? model.draws.length;
  const random = createRandom(options.seed);
  const pool = candidateSettings(setup, {
    count: options.candidates ?? 176,
    seed: options.seed,
    powerMax: options.powerMax,
  }).map((s) => judge(model, setup, s, quick, true));
  const rank = (list: readonly Judged[]) => [...list].sort((a, b) => figure(b) - figure(a));
  const bar = model.part.acceptance.confidence - SURENESS_SLACK;
  let leaders = distinct([...fastest(pool, bar).slice(0, 1), ...rank(pool)]).slice(0, STARTS);
  for (let round = 0; round < ROUNDS; round++) {
    const reach = 0.5 / (round + 1);
    const tried: Judged[] = [];
    for (const leader of leaders) {
      for (let i = 0; i < NEIGHBOURS; i++) {
        const moved = neighbour(
          setup,
          leader.setting,
          [random.next(), random.next(), random.next(), random.next(), random.next()],
          reach,
          options.powerMax,
        );
        if (moved) tried.push(judge(model, setup, moved, quick, true));
      }
    }
    pool.push(...tried);
    // One start goes for rate among what seems sure enough, the others for sureness.
    const all = [...leaders, ...tried];
    leaders = distinct([...fastest(all, bar).slice(0, 1), ...rank(all)]).slice(0, STARTS);
  }
  const finalists = distinct([...rank(pool).slice(0, 5), ...fastest(pool, bar).slice(0, 6)]).map((j) =>
    judge(model, setup, j.setting, fine),
  );
  return { best: choose(finalists, model.part.acceptance.confidence), judged: pool };
}

/** Those at least as sure as the bar on the quick draws, fastest first. */
function fastest(list: readonly Judged[], bar: number): Judged[] {
  return list.filter((j) => j.both >= bar).sort((a, b) => b.rate - a.rate);
}

function distinct(list: readonly Judged[]): Judged[] {
  return [...new Set(list)];
}

/** Sureness first, then rate: a tenth of sureness is worth about a factor of two in rate. */
function figure(j: Judged): number {
  return Math.log(0.3 * j.soft + 0.7 * j.near + 1e-3) + j.both + 0.12 * Math.log(Math.max(j.rate, 1e-12));
}
