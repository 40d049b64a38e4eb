import { describe, expect, it } from "vitest";
import { studyReport } from "../../tools/study/report.ts";
import { type CaseRecord, scoreStudy } from "../../tools/study/scoring.ts";
import { scenarios, worldMix } from "../../tools/study/worlds.ts";

/** A trial that stopped after 12 patches with a good setting at the best rate; changed as a test needs it. */
function trial(change: Partial<CaseRecord> = {}): CaseRecord {
  return {
    planner: "physics-guided",
    scenario: "s",
    kind: "as anchored",
    pulsed: true,
    layers: 1,
    seed: 1,
    patches: 12,
    stopped: true,
    verdict: "recommended",
    truth: 1,
    rate: 1e-4,
    bestRate: 1e-4,
    at24: { truth: 1, rate: 1e-4 },
    at12: { truth: 1, rate: 1e-4 },
    stated: [],
    covered: [],
    ...change,
  };
}

const open = (change: Partial<CaseRecord> = {}) =>
  trial({ stopped: false, verdict: "open", patches: 48, at12: null, at24: null, ...change });
const nothing = (change: Partial<CaseRecord> = {}) =>
  trial({ verdict: "nothing", truth: null, rate: null, bestRate: null, at12: null, at24: null, ...change });

const only = (records: readonly CaseRecord[], good?: number) => scoreStudy(records, good).json[0]!;
const times = (n: number, make: () => CaseRecord) => Array.from({ length: n }, make);

describe("figures of a planner", () => {
  it("counts stops of either verdict over all cases, and patches over stops alone", () => {
    const s = only([
      trial({ patches: 8 }),
      nothing({ patches: 12 }),
      trial({ patches: 16 }),
      open({ patches: 48 }),
      open({ patches: 48 }),
    ]);
    expect(s.cases).toBe(5);
    expect(s.stopped_share).toBeCloseTo(0.6, 12);
    expect(s.open_share).toBeCloseTo(0.4, 12);
    expect(s.median_patches).toBe(12);
    // Position 0.9 · 2 of [8, 12, 16], straight between neighbours.
    expect(s.p90_patches).toBeCloseTo(15.2, 12);
  });

  it("calls a recommendation wrong below 0.95, and always where nothing works; open ends and finds of nothing are no part", () => {
    const s = only([
      trial({ truth: 0.95 }),
      trial({ truth: 0.9375 }),
      trial({ truth: 0.85 }),
      trial({ truth: 0.75 }),
      trial({ truth: 1, bestRate: null }),
      open({ truth: 0 }),
      nothing(),
    ]);
    expect(s.wrong_share).toBe(0.8);
    expect(s.wrong_share_of).toBe(5);
    expect(s.wrong_share_at_0_8).toBe(0.2);
  });

  it("takes the true chance from which a setting is good as asked", () => {
    expect(only([trial({ truth: 0.9 })], 0.9).wrong_share).toBe(0);
    expect(only([trial({ truth: 0.9 })], 0.91).wrong_share).toBe(1);
  });

  it("bounds the wrong share from above on one side", () => {
    // None of n: the exact bound is 1 − 0.05^(1/n).
    expect(only(times(20, trial)).wrong_upper95).toBeCloseTo(1 - 0.05 ** (1 / 20), 10);
  });

  it("gives Wilson's interval with every share", () => {
    // 8 of 10, worked out by hand from (p + z²/2n ± z√(p(1−p)/n + z²/4n²))/(1 + z²/n) with z = 1.959964.
    const [low, high] = only([...times(8, trial), ...times(2, open)]).stopped_share_interval!;
    expect(low).toBeCloseTo(0.49016, 4);
    expect(high).toBeCloseTo(0.94332, 4);
  });

  it("asks for a good setting of at least best/1.25 of every stop where something works", () => {
    const s = only([
      trial({ rate: 0.81e-4 }),
      trial({ rate: 0.79e-4 }),
      trial({ truth: 0.9 }),
      nothing({ bestRate: 1e-4 }),
      nothing(),
      open(),
    ]);
    expect(s.within25_share).toBe(0.25);
    expect(s.within25_share_of).toBe(4);
  });

  it("tells found from falsely said", () => {
    const s = only([
      nothing(),
      nothing(),
      open({ bestRate: null }),
      trial({ bestRate: null }),
      ...times(3, trial),
      nothing({ bestRate: 1e-4 }),
    ]);
    expect(s.nothing_works_found).toBe(0.5);
    expect(s.nothing_works_false).toBe(0.25);
  });

  it("takes what would be recommended at 12 and at 24 patches over the worlds where something works", () => {
    const s = only([
      trial({ at12: { truth: 0.9, rate: 1e-4 }, at24: { truth: 1, rate: 0.5e-4 } }),
      trial({ at12: { truth: 1, rate: 0.5e-4 } }),
      open({ at24: { truth: 1, rate: 0.9e-4 } }),
      open(),
      nothing(),
    ]);
    expect(s.good_at12).toBe(0.25);
    expect(s.good25_at12).toBe(0);
    expect(s.good_at24).toBe(0.75);
    expect(s.good25_at24).toBe(0.5);
    expect(s.good25_at24_of).toBe(4);
  });

  it("puts coverage together and apart by edge", () => {
    const s = only([
      trial({
        covered: [
          { edge: "clean", inside: true },
          { edge: "damage", inside: false },
        ],
      }),
      trial({
        covered: [
          { edge: "clean", inside: true },
          { edge: "damage", inside: true },
        ],
      }),
    ]);
    expect([s.coverage90, s.coverage90_clean, s.coverage90_damage]).toEqual([0.75, 1, 0.5]);
  });

  it("bins stated chances in tenths, 1 in the last", () => {
    const { reliability } = only([
      trial({
        stated: [
          { stated: 0.92, truth: 1 },
          { stated: 1, truth: 0.5 },
          { stated: 0.1, truth: 0 },
          { stated: 0, truth: 0 },
        ],
      }),
    ]);
    expect(reliability).toHaveLength(10);
    expect(reliability.map((b) => b.n)).toEqual([1, 1, 0, 0, 0, 0, 0, 0, 0, 2]);
    const last = reliability[9]!;
    expect(last.mean_stated).toBeCloseTo(0.96, 12);
    expect(last.mean_true).toBeCloseTo(0.75, 12);
    expect(last.gap).toBeCloseTo(-0.21, 12);
    expect(reliability[2]).toEqual({ from: 0.2, to: 0.3, n: 0, mean_stated: null, mean_true: null, gap: null });
  });

  it("gives the same figures by kind and by scenario", () => {
    const s = only([
      trial({ scenario: "a" }),
      open({ scenario: "b", pulsed: false, layers: 2, kind: "narrow" }),
      trial({ scenario: "b", pulsed: false, layers: 2, kind: "narrow", patches: 20 }),
    ]);
    expect(s.by_kind.map((g) => [g.group, g.cases, g.stopped_share, g.median_patches])).toEqual([
      ["continuous, 2 layers, narrow", 2, 0.5, 20],
      ["pulsed, 1 layer, as anchored", 1, 1, 12],
    ]);
    expect(s.by_scenario.map((g) => [g.group, g.cases])).toEqual([
      ["a", 1],
      ["b", 2],
    ]);
  });

  it("says null, never NaN, where there is nothing to count", () => {
    const text = JSON.stringify(only([open({ bestRate: null })]));
    const s = JSON.parse(text);
    expect(text).not.toContain("NaN");
    for (const key of ["median_patches", "p90_patches", "wrong_share", "wrong_upper95", "within25_share", "coverage90"])
      expect(s[key], key).toBeNull();
    expect(s.wrong_share_interval).toBeNull();
    // JSON writes NaN as null as well: a share of nothing is told from one by its count.
    for (const [key, of] of Object.entries(s))
      if (key.endsWith("_of") && of !== 0) expect(s[key.slice(0, -3)]).not.toBeNull();
    expect(scoreStudy([]).json).toEqual([]);
  });
});

describe("the study as a whole", () => {
  it("has one object per planner with the figures asked for, physics-guided first", () => {
    const { json, planners } = scoreStudy(
      ["full grid", "probit", "physics-guided"].map((planner) => trial({ planner })),
    );
    expect(planners).toEqual(["physics-guided", "probit", "full grid"]);
    expect(json.map((s) => s.planner)).toEqual(planners);
    expect(Object.keys(json[0]!)).toEqual(
      expect.arrayContaining([
        ...["planner", "cases", "stopped_share", "median_patches", "p90_patches", "wrong_share", "wrong_upper95"],
        ...["within25_share", "nothing_works_found", "nothing_works_false", "coverage90"],
      ]),
    );
  });

  const goal = (records: readonly CaseRecord[], what: string) =>
    scoreStudy(records).goals.find((g) => g.what.includes(what))!;

  it("holds each goal against its figure", () => {
    expect(goal(times(3, trial), "median").reached).toBe(true);
    expect(goal([trial({ patches: 17 })], "median").reached).toBe(false);
    expect(goal([trial({ patches: 36 })], "90th").reached).toBe(true);
    expect(goal([trial({ patches: 37 })], "90th").reached).toBe(false);
    expect(goal([...times(47, trial), ...times(3, open)], "stopped").reached).toBe(true);
    expect(goal([...times(46, trial), ...times(4, open)], "stopped").reached).toBe(false);
    const wrong = () => trial({ truth: 0.5 });
    expect(goal([...times(97, trial), ...times(3, wrong)], "wrong").reached).toBe(true);
    expect(goal([...times(96, trial), ...times(4, wrong)], "wrong").reached).toBe(false);
    expect(goal([...times(4, trial), wrong()], "best rate").reached).toBe(true);
    expect(goal([...times(3, trial), wrong()], "best rate").reached).toBe(false);
    expect(goal([...times(19, nothing), open({ bestRate: null })], "found").reached).toBe(true);
    expect(goal([...times(18, nothing), open({ bestRate: null })], "found").reached).toBe(false);
    const falsely = () => nothing({ bestRate: 1e-4 });
    expect(goal([...times(99, trial), falsely()], "falsely").reached).toBe(true);
    expect(goal([...times(98, trial), ...times(2, falsely)], "falsely").reached).toBe(false);
    expect(goal([trial()], "coverage").reached).toBeNull();
  });

  it("wants coverage neither too small nor too large", () => {
    const covered = (inside: number) =>
      trial({ covered: Array.from({ length: 100 }, (_, k) => ({ edge: "clean" as const, inside: k < inside })) });
    expect([84, 85, 95, 96].map((n) => goal([covered(n)], "coverage").reached)).toEqual([false, true, true, false]);
  });

  it("wants three times the probit's share at 24 patches", () => {
    const probit = (good: number, of: number) =>
      Array.from({ length: of }, (_, k) => (k < good ? trial : open)({ planner: "probit" }));
    const own = [...times(6, trial), ...times(4, open)];
    expect(goal([...own, ...probit(2, 10)], "24 patches").reached).toBe(true);
    expect(goal([...own, ...probit(3, 10)], "24 patches").reached).toBe(false);
    expect(goal([...own, ...probit(0, 10)], "24 patches").reached).toBe(true);
    expect(goal(own, "24 patches").reached).toBeNull();
  });

  it("judges bins of 30 settings or more, in either direction", () => {
    const bin = (n: number, truth: number) =>
      trial({ stated: Array.from({ length: n }, () => ({ stated: 0.55, truth })) });
    expect(goal([bin(29, 0)], "stated").reached).toBeNull();
    expect([0.47, 0.49, 0.61, 0.63].map((t) => goal([bin(30, t)], "stated").reached)).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });

  it("writes a table and the goals for the terminal, and a page of at most 120 columns", () => {
    const many = Array.from({ length: 400 }, (_, k) => {
      const planner = ["physics-guided", "probit", "full grid", "one factor at a time", "latin hypercube"][k % 5]!;
      const scenario = scenarios[k % scenarios.length]!;
      const kind = worldMix(k);
      const stated = Array.from({ length: 12 }, (_, j) => ({ stated: j / 12, truth: j / 12 }));
      const covered = [{ edge: "clean" as const, inside: k % 9 > 0 }];
      const { id, layers, setup } = scenario;
      const change = { planner, scenario: id, layers, kind, pulsed: setup.kind === "pulsed", stated, covered };
      return kind === "nothing works" ? nothing(change) : k % 11 === 0 ? open(change) : trial(change);
    });
    const score = scoreStudy(many);
    expect(score.lines.filter((l) => /^ {2}(reached|missed|no cases)/.test(l))).toHaveLength(10);
    const page = studyReport(score, { truths: 80, seconds: 12 });
    expect(page).not.toMatch(/NaN|undefined|null/);
    expect(page.split("\n").filter((l) => l.length > 120)).toEqual([]);
    for (const scenario of scenarios) expect(page).toContain(scenario.id);
    expect(page).toContain("12 s");
  });
});

describe("worlds of the study", () => {
  it("has eight scenarios of both sources, one and two layers, with names of their own", () => {
    expect(new Set(scenarios.map((s) => s.id)).size).toBe(8);
    const cells = scenarios.map((s) => `${s.setup.kind} ${s.layers}`);
    for (const cell of ["pulsed 1", "pulsed 2", "continuous 1", "continuous 2"])
      expect(cells.filter((c) => c === cell)).toHaveLength(2);
    for (const { part, layers, nominalThickness } of scenarios) {
      const coat = part.mixture[0]!.stack.layers;
      expect(coat).toHaveLength(layers);
      expect(nominalThickness).toBeCloseTo(
        coat.reduce((sum, l) => sum + l.thickness.value, 0),
        12,
      );
    }
  });

  it("mixes kinds 70/15/15 on every scenario, with all kinds among the first twenty", () => {
    const count = (kinds: readonly string[], kind: string) => kinds.filter((k) => k === kind).length;
    const of = scenarios.length;
    for (let place = 0; place < of; place++) {
      const kinds = Array.from({ length: 20 }, (_, turn) => worldMix(turn * of + place));
      expect(["as anchored", "narrow", "nothing works"].map((k) => count(kinds, k))).toEqual([14, 3, 3]);
    }
    expect(new Set(Array.from({ length: 20 }, (_, i) => worldMix(i))).size).toBe(3);
  });
});
