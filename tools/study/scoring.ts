import { clopperPearson, mean, quantile, wilsonInterval } from "#numerics";
import { type Goal, goalsOf } from "./goals.ts";
import { scoreLines } from "./score-lines.ts";

/** How one planner ended in one invented world. */
export interface CaseRecord {
  readonly planner: string;
  readonly scenario: string;
  readonly kind: string;
  readonly pulsed: boolean;
  readonly layers: number;
  readonly seed: number;
  /** burned at its own stop, or 48 */
  readonly patches: number;
  readonly stopped: boolean;
  readonly verdict: "recommended" | "nothing" | "open";
  /** true chance under drift of the setting recommended at the end (or in the lead, where it did not stop) */
  readonly truth: number | null;
  /** m²/s */
  readonly rate: number | null;
  /** m²/s of the fastest candidate with a true chance of 0.95, null where none has it */
  readonly bestRate: number | null;
  /** what it would have recommended after 24 and after 12 patches */
  readonly at24: { readonly truth: number; readonly rate: number } | null;
  readonly at12: { readonly truth: number; readonly rate: number } | null;
  /** settings sampled at the stop without sight of the truth */
  readonly stated: readonly { readonly stated: number; readonly truth: number }[];
  /** edges of a few rays against their 90 % intervals */
  readonly covered: readonly { readonly edge: "clean" | "damage"; readonly inside: boolean }[];
}

/** True chance from which a setting is good. */
const GOOD = 0.95;
/** True chance below which a recommended setting is far off. */
const FAR_OFF = 0.8;
/** A rate counts as close to the best from best/1.25 on. */
const CLOSE = 1.25;
const BINS = 10;

type Pair = readonly [low: number, high: number];

/** A share, its 95 % Wilson interval and the number of cases it is of; null, never NaN, where there are none. */
type ShareFields<K extends string> = Readonly<
  Record<K, number | null> & Record<`${K}_interval`, Pair | null> & Record<`${K}_of`, number>
>;

function share<K extends string, T>(key: K, cases: readonly T[], hit: (record: T) => boolean): ShareFields<K> {
  const hits = cases.filter(hit).length;
  const interval = cases.length === 0 ? null : wilsonInterval(hits, cases.length);
  return {
    [key]: cases.length === 0 ? null : hits / cases.length,
    [`${key}_interval`]: interval === null ? null : ([interval.low, interval.high] as const),
    [`${key}_of`]: cases.length,
  } as ShareFields<K>;
}

/**
 * Figures of one planner over some worlds.
 *
 * - stopped_share: of all cases, those that stopped by themselves, with either verdict.
 * - median_patches, p90_patches: patches burned, over those that stopped, with either verdict.
 * - wrong_share: of the stops that recommended, those whose true chance is below `good`; recommending where nothing works
 *   is always wrong. wrong_upper95: one-sided 95 % upper bound of it (Clopper-Pearson).
 * - wrong_share_at_0_8: of the stops that recommended, those whose true chance is below 0.8.
 * - within25_share: of the stops (either verdict) in worlds where something works, those that recommended a good setting
 *   of at least best rate/1.25.
 * - nothing_works_found: of the worlds where nothing works, those where the verdict is "nothing".
 * - nothing_works_false: of the worlds where something works, those where the verdict is "nothing".
 * - open_share: of all cases, those that burned 48 patches without a verdict.
 * - good_at12, good_at24: of the worlds where something works, those in which the setting that would have been recommended
 *   after 12 or 24 patches is good; no recommendation counts as not good. good25_at12, good25_at24: and of at least
 *   best rate/1.25.
 * - coverage90: of the edges asked about, those inside their 90 % interval, also by edge. Edges of one world hang
 *   together, so its own interval is somewhat too narrow.
 */
function figuresOf(cases: readonly CaseRecord[], good: number) {
  const stops = cases.filter((c) => c.stopped);
  const recommended = stops.filter((c) => c.verdict === "recommended");
  const possible = cases.filter((c) => c.bestRate !== null);
  const hopeless = cases.filter((c) => c.bestRate === null);
  const covered = cases.flatMap((c) => c.covered);
  const patches = stops.map((c) => c.patches);
  const isGood = (truth: number | null | undefined) => (truth ?? 0) >= good;
  const isClose = (rate: number | null | undefined, best: number | null) =>
    rate != null && best !== null && rate >= best / CLOSE;
  const isWrong = (c: CaseRecord) => c.bestRate === null || !isGood(c.truth);
  return {
    cases: cases.length,
    ...share("stopped_share", cases, (c) => c.stopped),
    median_patches: patches.length === 0 ? null : quantile(patches, 0.5),
    p90_patches: patches.length === 0 ? null : quantile(patches, 0.9),
    ...share("wrong_share", recommended, isWrong),
    wrong_upper95:
      recommended.length === 0
        ? null
        : clopperPearson(recommended.filter(isWrong).length, recommended.length, 0.9).high,
    ...share("wrong_share_at_0_8", recommended, (c) => (c.truth ?? 0) < FAR_OFF),
    ...share(
      "within25_share",
      stops.filter((c) => c.bestRate !== null),
      (c) => c.verdict === "recommended" && isGood(c.truth) && isClose(c.rate, c.bestRate),
    ),
    ...share("nothing_works_found", hopeless, (c) => c.verdict === "nothing"),
    ...share("nothing_works_false", possible, (c) => c.verdict === "nothing"),
    ...share("coverage90", covered, (e) => e.inside),
    ...share(
      "coverage90_clean",
      covered.filter((e) => e.edge === "clean"),
      (e) => e.inside,
    ),
    ...share(
      "coverage90_damage",
      covered.filter((e) => e.edge === "damage"),
      (e) => e.inside,
    ),
    ...share("good_at12", possible, (c) => isGood(c.at12?.truth)),
    ...share("good25_at12", possible, (c) => isGood(c.at12?.truth) && isClose(c.at12?.rate, c.bestRate)),
    ...share("good_at24", possible, (c) => isGood(c.at24?.truth)),
    ...share("good25_at24", possible, (c) => isGood(c.at24?.truth) && isClose(c.at24?.rate, c.bestRate)),
    ...share("open_share", cases, (c) => c.verdict === "open"),
  };
}

export type Figures = ReturnType<typeof figuresOf>;

/** One bin of stated chances: what was said, what is true, and the second less the first. */
export interface ReliabilityBin {
  readonly from: number;
  readonly to: number;
  readonly n: number;
  readonly mean_stated: number | null;
  readonly mean_true: number | null;
  readonly gap: number | null;
}

/** Ten bins of the stated chance from 0 to 1, the last with its upper end. */
function reliabilityOf(cases: readonly CaseRecord[]): ReliabilityBin[] {
  const all = cases.flatMap((c) => c.stated);
  return Array.from({ length: BINS }, (_, k) => {
    const bin = all.filter((s) => Math.min(BINS - 1, Math.floor(s.stated * BINS)) === k);
    const edges = { from: k / BINS, to: (k + 1) / BINS, n: bin.length };
    if (bin.length === 0) return { ...edges, mean_stated: null, mean_true: null, gap: null };
    const stated = mean(bin.map((s) => s.stated));
    const truth = mean(bin.map((s) => s.truth));
    return { ...edges, mean_stated: stated, mean_true: truth, gap: truth - stated };
  });
}

/** The figures over a part of the worlds. */
export type GroupFigures = { readonly group: string } & Figures;

function grouped(
  cases: readonly CaseRecord[],
  good: number,
  nameOf: (record: CaseRecord) => string,
  names: readonly string[],
): GroupFigures[] {
  return names.flatMap((group) => {
    const own = cases.filter((c) => nameOf(c) === group);
    return own.length === 0 ? [] : [{ group, ...figuresOf(own, good) }];
  });
}

export const kindOf = (c: Pick<CaseRecord, "pulsed" | "layers" | "kind">): string =>
  `${c.pulsed ? "pulsed" : "continuous"}, ${c.layers === 1 ? "1 layer" : `${c.layers} layers`}, ${c.kind}`;

const distinctSorted = (names: readonly string[]) => [...new Set(names)].sort();

function plannerScore(planner: string, cases: readonly CaseRecord[], good: number) {
  return {
    planner,
    ...figuresOf(cases, good),
    reliability: reliabilityOf(cases),
    by_kind: grouped(cases, good, kindOf, distinctSorted(cases.map(kindOf))),
    by_scenario: grouped(cases, good, (c) => c.scenario, distinctSorted(cases.map((c) => c.scenario))),
  };
}

export type PlannerScore = ReturnType<typeof plannerScore>;

export interface StudyScore {
  /** one object per planner, for out/study.json */
  readonly json: readonly PlannerScore[];
  /** for the terminal */
  readonly lines: readonly string[];
  readonly planners: readonly string[];
  /** what the physics-guided planner must reach */
  readonly goals: readonly Goal[];
}

const ORDER = ["physics-guided", "probit", "full grid", "one factor at a time", "latin hypercube"];
const place = (planner: string) => (ORDER.includes(planner) ? ORDER.indexOf(planner) : ORDER.length);

/** Scores every planner over the same worlds. `good`: true chance from which a setting counts as good. */
export function scoreStudy(records: readonly CaseRecord[], good = GOOD): StudyScore {
  const planners = distinctSorted(records.map((r) => r.planner)).sort((a, b) => place(a) - place(b));
  const json = planners.map((p) =>
    plannerScore(
      p,
      records.filter((r) => r.planner === p),
      good,
    ),
  );
  const goals = goalsOf(json);
  return { json, planners, goals, lines: scoreLines(json, goals) };
}
