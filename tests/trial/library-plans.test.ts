import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { beamState, checkSetting, completeSetting, roundToMachine } from "#beam";
import { createLibrary } from "#library";
import { createRandom, normalCdf } from "#numerics";
import type { LaserSetup, Setting } from "#terms";
import {
  type DesignName,
  designNames,
  orderApart,
  type PlanInput,
  planPatches,
  settingKey,
  shareOverCoupons,
} from "#trial";
import { twoLevelFactorial } from "#trial";

import { InvalidInput } from "#units";

const library = createLibrary([]);
const cases: readonly (readonly [string, Setting])[] = [
  ["pulsed-100", completeSetting(library.setup("pulsed-100"), { passes: 2 })],
  ["pulsed-500", completeSetting(library.setup("pulsed-500"), { power: 420, passes: 3 })],
  ["continuous-1500", completeSetting(library.setup("continuous-1500"), { power: 1100, duty: 0.5, passes: 2 })],
];

const input = (setup: LaserSetup, centre: Setting, changes: Partial<PlanInput> = {}): PlanInput => {
  const heat = (s: Setting): number =>
    Math.log((s.power * s.level * s.duty * Math.sqrt(s.passes)) / centre.power) -
    0.4 * Math.log(s.speed / centre.speed);
  return {
    setup,
    centre,
    count: 36,
    replicates: 4,
    candidatesMax: 192,
    seed: 9,
    score: (s) => ({ clean: normalCdf((heat(s) + 0.4) / 0.25), undamaged: normalCdf((0.5 - heat(s)) / 0.25) }),
    roundToMachine: (s) => roundToMachine(setup, s),
    check: (s) => checkSetting(setup, s),
    soak: {
      plate: { conductivity: 16, volumetricHeat: 4e6, plateThickness: 3e-3 },
      loss: 10,
      burn: (s) => ({ energy: 0.2 * s.power * s.level * s.duty * s.passes, duration: 3 * s.passes }),
    },
    ...changes,
  };
};

const runs = cases.flatMap(([id, centre]) => designNames.map((design) => [design, id, centre] as const));

describe("every design on set-ups of the library", () => {
  it.each(runs)(
    "%s on %s: settings that it can run, as it can be set, none twice but as a repeat",
    (design, id, centre) => {
      const setup = library.setup(id);
      const plan = planPatches(input(setup, centre, { design }));
      expect(plan.patches).toHaveLength(36);
      const tests = plan.patches.filter((p) => p.role === "test");
      const delivered = new Set<string>();
      for (const { setting } of tests) {
        checkSetting(setup, setting!);
        expect(roundToMachine(setup, setting!)).toEqual(setting);
        const { meanPower, energyLimited } = beamState(setup, setting!);
        // What the pulse energy cannot give is not asked for.
        if (energyLimited) expect(meanPower / (setting!.power * setting!.level)).toBeGreaterThan(1 - 1e-9);
        delivered.add(settingKey({ ...setting!, power: meanPower, level: 1, duty: setting!.duty }));
      }
      expect(delivered.size).toBe(tests.length);
      for (const p of plan.patches.filter((q) => q.role === "replicate")) {
        const original = plan.patches.find((q) => q.patch === p.replicateOf)!;
        expect(original.setting).toEqual(p.setting);
        expect(original.coupon).not.toBe(p.coupon);
      }
      for (const coupon of plan.coupons) {
        const roles = plan.patches.filter((p) => p.coupon === coupon.coupon).map((p) => p.role);
        expect(roles.filter((r) => r === "untouched")).toHaveLength(1);
        expect(roles.filter((r) => r === "cleaned-reference")).toHaveLength(1);
      }
      expect(plan.spacing!.warmest).toBeLessThanOrEqual(15);
      expect(plan.spacing!.gap).toBeGreaterThanOrEqual(5e-3);
      for (const p of plan.patches) expect(p.wait !== undefined).toBe(p.setting !== null);
      expect(Math.max(...plan.patches.map((p) => p.wait ?? 0))).toBe(plan.spacing!.wait);
      const correlation = /correlation of a control with the coupon is (\d\.\d+)/.exec(plan.reasons.join(" "));
      expect(Number(correlation![1])).toBeLessThan(0.12);
      if (id === "continuous-1500") expect(planPatches(input(setup, centre, { design })).patches).toEqual(plan.patches);
    },
  );

  it("takes a list handed in, in its order, without the centre where that is not in it", () => {
    const [, centre] = cases[0]!;
    const setup = library.setup("pulsed-100");
    const at = (speed: number): Setting => ({ ...centre, speed });
    const broken = { ...centre, speed: 1e6, passes: 10_000 };
    const guided = [at(1.2), at(1.4), broken, at(1.4), at(1.6), at(1.8)];
    const plan = planPatches(
      input(setup, centre, { guided, count: 6, replicates: 0, check: (s) => checkSetting(setup, s) }),
    );
    const speeds = plan.patches.filter((p) => p.role === "test").map((p) => p.setting!.speed);
    expect(speeds.filter((v) => [1.2, 1.4, 1.6, 1.8].includes(v)).sort()).toHaveLength(
      speeds.includes(setup.speedMax) ? 3 : 4,
    );
    expect(plan.reasons.join(" ")).toContain("in that order");
    expect(plan.patches.some((p) => p.setting !== null && settingKey(p.setting) === settingKey(centre))).toBe(false);
    // Where the list is longer than the plan its end is left out.
    const long = planPatches(
      input(setup, centre, { guided: [at(1.8), at(1.6), at(1.4), at(1.2)], count: 4, replicates: 0 }),
    );
    expect(long.patches.flatMap((p) => (p.setting === null ? [] : [p.setting.speed])).sort()).toEqual([1.6, 1.8]);
    const short = planPatches(
      input(setup, centre, { guided: guided.slice(0, 2), count: 3, replicates: 0, cleanedReference: 0 }),
    );
    expect(new Set(short.patches.filter((p) => p.role === "test").map((p) => p.setting!.speed))).toEqual(
      new Set([1.2, 1.4]),
    );
  });

  it("pulls points in and says what the design is worth then", () => {
    // At full power and its cut-in frequency every point with more power or less frequency is out of reach.
    const setup = library.setup("pulsed-100");
    const centre = completeSetting(setup, {});
    const ranges = { power: { low: 60, high: 100 }, speed: { low: 1, high: 1 }, passes: { low: 1, high: 1 } };
    const held = { pulseWidth: { low: centre.pulseWidth!, high: centre.pulseWidth! } };
    const plan = planPatches(
      input(setup, centre, { design: "factorial", ranges: { ...ranges, ...held }, count: 11, replicates: 0 }),
    );
    const said = plan.reasons.join(" ");
    expect(said).toMatch(/\d of 8 points lay outside the limits of the set-up and were pulled in/);
    expect(said).toMatch(/largest correlation between two controls is 0\.\d\d \(power with frequency\)/);
    expect(said).toMatch(/D-efficiency for straight effects is \d\d % of the design on paper/);
  });

  it("lets the caller say what a D-optimal plan is to settle", () => {
    const [, centre] = cases[2]!;
    const setup = library.setup("continuous-1500");
    // Only power and speed matter, and only near one kilowatt.
    const model = (s: Setting) => [
      { row: [1, Math.log(s.power), Math.log(s.speed)], weight: s.power > 900 ? 1 : 0.01 },
    ];
    const plan = planPatches(input(setup, centre, { design: "d-optimal", model, count: 12, replicates: 0 }));
    const tests = plan.patches.filter((p) => p.role === "test").map((p) => p.setting!);
    expect(plan.reasons.join(" ")).toContain("the model handed in, 3 coefficients");
    expect(tests.filter((s) => s.power > 900).length).toBeGreaterThan(7);
    const speeds = tests.map((s) => s.speed);
    expect(Math.max(...speeds) / Math.min(...speeds)).toBeGreaterThan(3);
  });

  it("refuses designs that do not fit in one clear line", () => {
    const [, centre] = cases[0]!;
    const setup = library.setup("pulsed-100");
    const plan =
      (design: DesignName, changes: Partial<PlanInput> = {}) =>
      () =>
        planPatches(input(setup, centre, { design, replicates: 0, ...changes }));
    expect(plan("box-behnken", { count: 12 })).toThrow(
      "invalid design: box-behnken (needs at least 13 settings beside the centre, there is room for 9)",
    );
    const one = { power: { low: 60, high: 90 }, speed: { low: 1, high: 1 }, passes: { low: 1, high: 1 } };
    const held = {
      frequency: { low: centre.frequency!, high: centre.frequency! },
      lineSpacing: { low: 5e-5, high: 5e-5 },
      pulseWidth: { low: centre.pulseWidth!, high: centre.pulseWidth! },
    };
    expect(plan("central-composite", { ranges: { ...one, ...held } })).toThrow(
      "invalid design: central-composite (needs 2 controls that vary, here 1 do)",
    );
    expect(plan("star" as DesignName)).toThrow("invalid design: star (must be one of physics-guided, factorial");
    expect(
      plan("factorial", { patch: { width: 0.3, height: 0.01 }, coupon: { width: 1, height: 1, rim: 0, gap: 0 } }),
    ).toThrow(/invalid patch width: 300 mm \(at most \d+ mm, the scan field of/);
    const soak = input(setup, centre).soak!;
    expect(plan("grid", { soak: { ...soak, limit: 0 } })).toThrow("invalid gap limit: 0 K (must be above 0)");
  });
});

describe("any plan", () => {
  const width = (centre: Setting): Setting["pulseWidth"] => centre.pulseWidth;
  it("is runnable settings, once each, all numbers finite, or one clear line", () => {
    let planned = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...cases),
        fc.constantFrom(...designNames),
        fc.integer({ min: 3, max: 60 }),
        fc.integer({ min: 0, max: 6 }),
        fc.integer({ min: 0, max: 2 ** 31 }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        fc.double({ min: 1, max: 6, noNaN: true }),
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        ([id, centre], design, count, replicates, seed, share, spread, pace) => {
          const setup = library.setup(id);
          const middle = roundToMachine(setup, { ...centre, power: centre.power * share, speed: centre.speed * pace });
          const power = { low: middle.power / spread, high: middle.power * spread };
          const change = { design, count, replicates, seed, ranges: { power } };
          const { score: _, soak: __, ...bare } = input(setup, middle, change);
          try {
            const { patches, reasons } = planPatches(bare);
            planned++;
            const tests = patches.filter((p) => p.role === "test");
            for (const p of tests) {
              checkSetting(setup, p.setting!);
              expect(roundToMachine(setup, p.setting!)).toEqual(p.setting);
              expect(Object.values(p.setting!).some((v) => Number.isNaN(v))).toBe(false);
              if (width(middle) === null) expect(p.setting!.pulseWidth).toBeNull();
            }
            expect(new Set(tests.map((p) => settingKey(p.setting!))).size).toBe(tests.length);
            expect(patches).toHaveLength(count);
            expect(reasons.join(" ")).not.toMatch(/NaN|Infinity|undefined/);
          } catch (error) {
            expect(error).toBeInstanceOf(InvalidInput);
          }
        },
      ),
      { numRuns: 150, seed: 4 },
    );
    expect(planned).toBeGreaterThan(60);
  });
});

describe("sharing over coupons", () => {
  const items = (points: readonly (readonly number[])[]) => points.map((point) => ({ point, repeats: null }));

  it.each([
    [3, 2],
    [4, 2],
    [4, 4],
    [5, 4],
    [6, 2],
  ])("a 2^%i factorial falls into %i blocks without a trace of a single factor", (factors, coupons) => {
    const points = twoLevelFactorial(factors);
    const sizes = Array.from({ length: coupons }, () => points.length / coupons);
    const shared = shareOverCoupons(items(points), sizes, createRandom(3));
    expect(shared.correlation).toBeLessThan(1e-9);
    for (let k = 0; k < factors; k++)
      for (let c = 0; c < coupons; c++)
        expect(points.reduce((sum, p, i) => sum + (shared.coupon[i] === c ? p[k]! : 0), 0)).toBe(0);
  });

  it("two blocks of a 2³ are the signs of the product of all three, as published", () => {
    // Box, Hunter and Hunter: block generator ABC.
    const points = twoLevelFactorial(3);
    const { coupon } = shareOverCoupons(items(points), [4, 4], createRandom(1));
    const signs = points.map((p) => p[0]! * p[1]! * p[2]!);
    expect(new Set(points.map((_, i) => `${coupon[i]}${signs[i]}`)).size).toBe(2);
  });

  it("leaves no exchange of two that would help", () => {
    const random = createRandom(8);
    for (let round = 0; round < 20; round++) {
      const points = Array.from({ length: 14 }, () => [random.next()]);
      const { coupon, correlation } = shareOverCoupons(items(points), [5, 9], random);
      const mean = points.reduce((sum, p) => sum + p[0]!, 0) / 14;
      const whole = points.reduce((sum, p) => sum + (p[0]! - mean) ** 2, 0);
      // Share of the variance that lies between the coupons.
      const unbalance = (where: readonly number[]): number =>
        [5, 9].reduce((sum, size, c) => {
          const off = points.reduce((s, p, i) => s + (where[i] === c ? p[0]! - mean : 0), 0);
          return sum + off ** 2 / size / whole;
        }, 0);
      const now = unbalance(coupon);
      for (let i = 0; i < 14; i++) {
        for (let j = 0; j < i; j++) {
          const swapped = coupon.map((c, k) => (k === i ? coupon[j]! : k === j ? coupon[i]! : c));
          expect(unbalance(swapped)).toBeGreaterThan(now - 2e-9);
        }
      }
      expect(correlation).toBeCloseTo(Math.sqrt(now), 9);
    }
  });

  it("keeps the sizes, parts repeats from their originals, beats chance", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 6, max: 40 }),
        fc.integer({ min: 2, max: 4 }),
        fc.integer(),
        (count, coupons, seed) => {
          const random = createRandom(seed);
          const points = Array.from({ length: count }, () => [random.next(), random.next(), random.next()]);
          const all = [...items(points), ...points.slice(0, 3).map((point, repeats) => ({ point, repeats }))];
          const sizes = Array.from({ length: coupons }, (_, c) => Math.floor((all.length + c) / coupons));
          const { coupon, correlation } = shareOverCoupons(all, sizes, random);
          expect(sizes.map((_, c) => coupon.filter((x) => x === c).length)).toEqual(sizes);
          for (let k = 0; k < 3; k++) expect(coupon[count + k]).not.toBe(coupon[k]);
          if (count >= 20) expect(correlation).toBeLessThan(0.25);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("run order", () => {
  it("is a shuffle; no two neighbours follow each other on six by four places, few can avoid it on two by two", () => {
    const places = Array.from({ length: 24 }, (_, i) => ({ x: (i % 6) * 20, y: Math.floor(i / 6) * 20 }));
    for (let seed = 0; seed < 20; seed++) {
      const { order, touching } = orderApart(places, 20, 20, createRandom(seed));
      expect([...order].sort((a, b) => a - b)).toEqual(places.map((_, i) => i));
      expect(touching).toBe(0);
      for (let k = 1; k < 24; k++) {
        const [a, b] = [places[order[k - 1]!]!, places[order[k]!]!];
        expect(Math.max(Math.abs(a.x - b.x), Math.abs(a.y - b.y))).toBeGreaterThan(20);
      }
    }
    const square = places.filter((p) => p.x < 40 && p.y < 40);
    expect(orderApart(square, 20, 20, createRandom(1)).touching).toBe(3);
    expect(orderApart(places, 20, 20, createRandom(1)).order).not.toEqual(
      orderApart(places, 20, 20, createRandom(2)).order,
    );
  });
});
