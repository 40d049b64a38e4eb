import { checkSetting, defaultSetting } from "#beam";
import { parseEnquiry } from "#contract";
import { createLibrary } from "#library";
import { createRandom } from "#numerics";
import { fineCell, isApproximateCell, predictPatch } from "#patch";
import type { PatchResult } from "#terms";
import {
  candidateSettings,
  createPartModel,
  isClean,
  isUndamaged,
  patchResults,
  planOf,
  predict,
  searchSettings,
} from "#workflows";
import { describe, expect, it } from "vitest";
import { neighbour } from "../../src/workflows/candidates.ts";
import { choose, type Judged, judge } from "../../src/workflows/search.ts";

const library = createLibrary([]);
const [part] = parseEnquiry(
  {
    parts: [{ material: "steel-low-carbon", layers: [{ kind: "alkyd", colour: "dark", thickness_um: 30 }] }],
  },
  library,
).parts;
const model = createPartModel(part!, { seed: 3, drawCount: 6 });
const setup = library.setup("pulsed-500");
const base = defaultSetting(setup);

describe("the setting that is put forward", () => {
  const of = (both: number, rate: number, more: Partial<Judged> = {}): Judged => ({
    setting: base,
    soft: 0.5,
    softClean: 0.5,
    softUndamaged: 0.5,
    near: 0.5,
    both,
    rate,
    ...more,
  });

  it("is the fastest that is as sure as asked for, within 0.05", () => {
    const list = [of(1, 1), of(0.76, 3), of(0.74, 9), of(0.9, 2)];
    expect(choose(list, 0.8)).toBe(list[1]);
    expect(choose([...list].reverse(), 0.8)).toBe(list[1]);
  });

  it("where none is, the fastest within 0.05 of the surest", () => {
    const list = [of(0.5, 1), of(0.46, 2), of(0.44, 9)];
    expect(choose(list, 0.8)).toBe(list[1]);
  });

  it("weighs rate by 0.2 + softness; is the nearest miss where nothing is ever good; nothing of nothing", () => {
    // 3·(0.2 + 0.1) < 1.5·(0.2 + 0.9)
    const list = [of(1, 3, { soft: 0.1 }), of(1, 1.5, { soft: 0.9 })];
    expect(choose(list, 0.8)).toBe(list[1]);
    // 2·(0.2 + 0.29) < 1·(0.2 + 0.8) < 2·(0.2 + 0.31)
    const close = [of(1, 1, { soft: 0.8 }), of(1, 2, { soft: 0.29 }), of(1, 2, { soft: 0.31 })];
    expect(choose(close.slice(0, 2), 0.8)).toBe(close[0]);
    expect(choose([close[0]!, close[2]!], 0.8)).toBe(close[2]);
    const bad = [of(0, 9, { near: 0.1 }), of(0, 1, { near: 0.3 }), of(0, 5, { near: 0.2 })];
    expect(choose(bad, 0.8)).toBe(bad[1]);
    expect(choose([], 0.8)).toBeNull();
  });
});

describe("a search", () => {
  const options = { seed: 5, powerMax: null, candidates: 24, quickDraws: 3, fineDraws: 6 };
  const found = searchSettings(model, setup, options);

  it("begins with its candidates, adds neighbours that run, and says the same twice", () => {
    const candidates = candidateSettings(setup, { count: 24, seed: 5, powerMax: null });
    expect(found.judged.slice(0, candidates.length).map((j) => j.setting)).toEqual(candidates);
    expect(found.judged.length).toBeGreaterThan(candidates.length + 2 * 3 * 14);
    expect(found.judged.length).toBeLessThanOrEqual(candidates.length + 3 * 3 * 14);
    for (const j of found.judged) expect(() => checkSetting(setup, j.setting)).not.toThrow();
    expect(searchSettings(model, setup, options)).toEqual(found);
    expect(found.judged[3]).toEqual(judge(model, setup, candidates[3]!, 3, true));
  });

  it.each([
    ["as sure as asked for", part!.acceptance.confidence],
    ["surer than anything", 1.06],
  ])(
    "puts forward what is to be chosen of the five best and the six fastest sure enough, judged on all draws: %s",
    (_, confidence) => {
      const asked = { ...model, part: { ...part!, acceptance: { ...part!.acceptance, confidence } } };
      const { best, judged } = searchSettings(asked, setup, options);
      const sureness = (j: Judged) =>
        Math.log(0.3 * j.soft + 0.7 * j.near + 1e-3) + j.both + 0.12 * Math.log(Math.max(j.rate, 1e-12));
      const ranked = [...judged].sort((a, b) => sureness(b) - sureness(a)).slice(0, 5);
      const quick = judged.filter((j) => j.both >= confidence - 0.05).sort((a, b) => b.rate - a.rate);
      if (confidence > 1) expect(quick).toEqual([]);
      else expect(quick.length).toBeGreaterThan(6);
      const last = [...new Set([...ranked, ...quick.slice(0, 6)])].map((j) => judge(asked, setup, j.setting, 6));
      expect(best).toEqual(choose(last, confidence));
    },
  );

  it("moves from the fastest that is sure enough and the next surest, three at a time, ever less far", () => {
    const random = createRandom(options.seed);
    const figure = (j: Judged) => Math.log(0.3 * j.soft + 0.7 * j.near + 1e-3) + j.both + 0.12 * Math.log(j.rate);
    const bar = part!.acceptance.confidence - 0.05;
    const three = (list: readonly Judged[]) => {
      const quick = list.filter((j) => j.both >= bar).sort((a, b) => b.rate - a.rate);
      return [...new Set([...quick.slice(0, 1), ...[...list].sort((a, b) => figure(b) - figure(a))])].slice(0, 3);
    };
    let at = candidateSettings(setup, { count: 24, seed: 5, powerMax: null }).length;
    let leaders = three(found.judged.slice(0, at));
    for (const reach of [1 / 2, 1 / 4, 1 / 6]) {
      const tried: Judged[] = [];
      for (const leader of leaders)
        for (let i = 0; i < 14; i++) {
          const u = Array.from({ length: 5 }, () => random.next());
          const moved = neighbour(setup, leader.setting, u, reach, null);
          if (!moved) continue;
          expect(found.judged[at]!.setting).toEqual(moved);
          tried.push(found.judged[at++]!);
        }
      leaders = three([...leaders, ...tried]);
    }
    expect(at).toBe(found.judged.length);
  });

  it("goes uphill: the neighbours of the last round do better than the candidates on the mean, and the best is faster", () => {
    const mean = (list: readonly Judged[]) => list.reduce((sum, j) => sum + j.both, 0) / list.length;
    const candidates = found.judged.slice(0, 24);
    expect(mean(found.judged.slice(-30))).toBeGreaterThan(mean(candidates) + 0.2);
    const bar = part!.acceptance.confidence - 0.05;
    const fastest = (list: readonly Judged[]) => Math.max(0, ...list.filter((j) => j.both >= bar).map((j) => j.rate));
    expect(fastest(found.judged)).toBeGreaterThan(1.2 * fastest(candidates));
  });

  it("keeps to the power that the site allows", () => {
    const low = searchSettings(model, setup, { ...options, candidates: 8, powerMax: 100 });
    for (const j of low.judged)
      expect(planOf(model, setup, j.setting).beam.meanPower).toBeLessThanOrEqual(100 * (1 + 1e-9));
  });
});

describe("a prediction", () => {
  /** Draws answered on the plan's cell, and on the fine one where the rule says that it is approximate. */
  function byRule(setting: typeof base): { careful: PatchResult[]; plain: PatchResult[]; replaced: number } {
    const plan = planOf(model, setup, setting);
    const plain = patchResults(model, plan);
    let replaced = 0;
    const careful = plain.map((r, i) => {
      if (!isApproximateCell(plan, r.residueFraction)) return r;
      replaced++;
      return predictPatch(model.draws[i]!, { ...plan, cell: fineCell(plan) }, part!.acceptance);
    });
    return { careful, plain, replaced };
  }
  const spot = planOf(model, setup, base).beam.spotDiameter;
  const apart = { ...base, frequency: 20e3, speed: 0.85 * spot * 20e3, lineSpacing: 0.5 * spot };
  const close = { ...base, frequency: 20e3, speed: 0.05 * spot * 20e3, lineSpacing: 0.2 * spot };

  it("answers pulses far apart on the fine cell, draw by draw, and close ones on their own", () => {
    const far = byRule(apart);
    expect(far.replaced).toBeGreaterThan(0);
    expect(far.replaced).toBeLessThan(model.draws.length);
    expect(far.careful).not.toEqual(far.plain);
    expect(predict(model, setup, apart).draws).toEqual(far.careful);
    const near = byRule(close);
    expect(near.replaced).toBe(0);
    expect(predict(model, setup, close).draws).toEqual(near.plain);
  });

  it("counts its draws: shares of grades, spreads and chances with a half added on each side", () => {
    for (const setting of [apart, close, base]) {
      const p = predict(model, setup, setting, 5);
      expect(p.draws.length).toBe(5);
      const clean = p.draws.filter((d) => isClean(d, part!.acceptance)).length;
      const kept = p.draws.filter((d) => isUndamaged(d, part!.acceptance)).length;
      const both = p.draws.filter((d) => isClean(d, part!.acceptance) && isUndamaged(d, part!.acceptance)).length;
      expect(p.probabilityClean).toBeCloseTo((clean + 0.5) / 6, 12);
      expect(p.probabilityUndamaged).toBeCloseTo((kept + 0.5) / 6, 12);
      expect(p.probabilityBoth).toBeCloseTo((both + 0.5) / 6, 12);
      const residues = p.draws.map((d) => d.residueFraction).sort((a, b) => a - b);
      expect(p.residueFraction.median).toBeCloseTo(residues[2]!, 12);
      expect(p.residueFraction.low).toBeLessThanOrEqual(p.residueFraction.median);
      const grades = p.draws.map((d) => d.metalCondition).sort();
      expect(p.metalCondition).toBe(grades[2]);
      expect(p.metalConditionShares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
      for (const g of [0, 1, 2, 3, 4])
        expect(p.metalConditionShares[g]).toBeCloseTo(grades.filter((x) => x === g).length / 5, 12);
    }
  });
});
