import type { PlannerScore } from "./scoring.ts";

/** One thing that the physics-guided planner must reach. `reached` is null where the study had no case of it. */
export interface Goal {
  readonly what: string;
  readonly wanted: string;
  readonly got: string;
  readonly reached: boolean | null;
}

/** A reliability bin with fewer settings says too little. */
const BIN_LEAST = 30;
const BIN_GAP = 0.07;
const TIMES_PROBIT = 3;

export const percent = (value: number | null): string => (value === null ? "-" : `${(100 * value).toFixed(1)} %`);
export const plain = (value: number | null): string => (value === null ? "-" : String(Number(value.toFixed(1))));

const known = (value: number | null, holds: (v: number) => boolean) => (value === null ? null : holds(value));

/** Goals of the physics-guided planner; none where it took no part. */
export function goalsOf(scores: readonly PlannerScore[]): Goal[] {
  const own = scores.find((s) => s.planner === "physics-guided");
  if (own === undefined) return [];
  return [
    {
      what: "median patches of those that stop",
      wanted: "at most 16",
      got: plain(own.median_patches),
      reached: known(own.median_patches, (v) => v <= 16),
    },
    {
      what: "90th percentile of patches",
      wanted: "at most 36",
      got: plain(own.p90_patches),
      reached: known(own.p90_patches, (v) => v <= 36),
    },
    atLeast("stopped within 48 patches", own.stopped_share, 0.94),
    {
      ...atMost("wrong", own.wrong_share, 0.03),
      got: `${percent(own.wrong_share)}, below ${percent(own.wrong_upper95)} with 95 % confidence`,
    },
    atLeast("good and within 25 % of the best rate", own.within25_share, 0.8),
    timesProbit(own, scores),
    atLeast('"nothing works" found', own.nothing_works_found, 0.95),
    atMost('"nothing works" falsely', own.nothing_works_false, 0.01),
    reliability(own),
    {
      what: "coverage of 90 % intervals of the edges",
      wanted: "85 % to 95 %",
      got: percent(own.coverage90),
      reached: known(own.coverage90, (v) => v >= 0.85 && v <= 0.95),
    },
  ];
}

function atLeast(what: string, value: number | null, least: number): Goal {
  const wanted = `at least ${Math.round(100 * least)} %`;
  return { what, wanted, got: percent(value), reached: known(value, (v) => v >= least) };
}

function atMost(what: string, value: number | null, most: number): Goal {
  const wanted = `at most ${Math.round(100 * most)} %`;
  return { what, wanted, got: percent(value), reached: known(value, (v) => v <= most) };
}

function timesProbit(own: PlannerScore, scores: readonly PlannerScore[]): Goal {
  const probit = scores.find((s) => s.planner === "probit");
  return {
    what: "good and within 25 % after 24 patches",
    wanted: "at least three times the probit's share",
    got: `${percent(own.good25_at24)} against ${percent(probit?.good25_at24 ?? null)}`,
    reached: probit === undefined ? null : isTimes(own, probit),
  };
}

/** In whole counts, since 3 · 0.2 is not 0.6 in binary. Three times nothing is nothing: any share above it is enough. */
function isTimes(own: PlannerScore, probit: PlannerScore): boolean | null {
  if (own.good25_at24 === null || probit.good25_at24 === null) return null;
  const ours = Math.round(own.good25_at24 * own.good25_at24_of);
  const theirs = Math.round(probit.good25_at24 * probit.good25_at24_of);
  return ours > 0 && ours * probit.good25_at24_of >= TIMES_PROBIT * theirs * own.good25_at24_of;
}

function reliability(own: PlannerScore): Goal {
  const full = own.reliability.filter((b) => b.n >= BIN_LEAST);
  const worst = full.reduce((a, b) => (Math.abs(b.gap ?? 0) > Math.abs(a?.gap ?? 0) ? b : a), full[0]);
  const apart = Math.abs(worst?.gap ?? 0);
  return {
    what: `stated against true chance, bins of ${BIN_LEAST} settings or more`,
    wanted: `within ${BIN_GAP}`,
    got:
      worst === undefined
        ? "-"
        : `${apart.toFixed(3)} at most, between ${worst.from.toFixed(1)} and ${worst.to.toFixed(1)}`,
    reached: worst === undefined ? null : apart <= BIN_GAP,
  };
}

export const reachedText = (reached: boolean | null): string =>
  reached === null ? "no cases" : reached ? "reached" : "missed";
