import { describe, expect, it } from "vitest";
import { checkSetting, roundToMachine } from "#beam";
import { normalCdf } from "#numerics";
import type { LaserSetup, Setting } from "#terms";
import { factorsAround, type PlanInput, planPatches, regionOf, regionQuotas, settingAt, settingKey } from "#trial";
import { invalid } from "#units";

const lens = { id: "f160", focalLength: 0.16, spotDiameter: 60e-6, rayleighLength: 2e-3, fieldSide: 0.11 };
const pulsed: LaserSetup = {
  id: "pulsed-200",
  name: "200 W pulsed",
  kind: "pulsed",
  wavelength: 1064e-9,
  ratedPower: 200,
  beamQualityM2: 1.6,
  profile: "gaussian",
  lenses: [lens],
  fibreNumericalAperture: 0.1,
  beamDiameterOnLens: 10e-3,
  pulses: [
    { width: 30e-9, energyMax: 1e-3, frequencyMax: 1e6 },
    { width: 100e-9, energyMax: 2e-3, frequencyMax: 5e5 },
    { width: 200e-9, energyMax: 4e-3, frequencyMax: 2e5 },
  ],
  frequencyMin: 10e3,
  frequencyMax: 1e6,
  modulation: null,
  speedMin: 0.05,
  speedMax: 10,
  acceleration: 5e3,
  lineSpacingMin: 10e-6,
  passesMax: 20,
  defocusMax: 5e-3,
  deliveries: ["scanner"],
  handLineWidth: null,
  smallestConcaveRadius: 0.05,
  wallPlugEfficiency: 0.3,
  price: { class: "B", low: 2e4, high: 4e4, currency: "EUR" },
  source: "practice",
  fromMemory: true,
};
const continuous: LaserSetup = {
  ...pulsed,
  id: "continuous-1500",
  kind: "continuous",
  ratedPower: 1500,
  pulses: [],
  modulation: { frequencyMin: 10, frequencyMax: 5e3, dutyMin: 0.1 },
};
const centre: Setting = {
  power: 120,
  level: 1,
  duty: 1,
  frequency: 100e3,
  pulseWidth: 100e-9,
  speed: 2,
  lineSpacing: 40e-6,
  passes: 2,
  defocus: 0,
  lens: "f160",
};
const steady: Setting = { ...centre, power: 1000, duty: 0.5, frequency: 500, pulseWidth: null, speed: 3 };
const heat = (s: Setting): number =>
  Math.log((s.power * s.level * s.duty * Math.sqrt(s.passes)) / (120 * Math.SQRT2)) - 0.4 * Math.log(s.speed / 2);
const score = (s: Setting) => ({
  clean: normalCdf((heat(s) + 0.4) / 0.25),
  undamaged: normalCdf((0.5 - heat(s)) / 0.25),
});

const input = (changes: Partial<PlanInput> = {}): PlanInput => {
  const setup = changes.setup ?? pulsed;
  return {
    setup,
    centre,
    count: 48,
    replicates: 6,
    seed: 17,
    score,
    roundToMachine: (s) => roundToMachine(setup, s),
    check: (s) => checkSetting(setup, s),
    ...changes,
  };
};

describe("planned patches", () => {
  it("adds up: 48 patches on two coupons, four references, six repeats, settings that the set-up can run", () => {
    const plan = planPatches(input());
    expect(plan.patches.length).toBe(48);
    expect(plan.coupons.map((c) => c.label)).toEqual(["1 of 2", "2 of 2"]);
    const role = (name: string) => plan.patches.filter((p) => p.role === name);
    expect([role("untouched").length, role("cleaned-reference").length]).toEqual([2, 2]);
    expect([role("test").length, role("replicate").length]).toEqual([38, 6]);
    for (const p of plan.patches) {
      if (p.setting === null) {
        expect(p.runOrder).toBe(0);
        continue;
      }
      checkSetting(pulsed, p.setting);
      expect(roundToMachine(pulsed, p.setting)).toEqual(p.setting);
      expect(p.predictedClean).toBe(score(p.setting).clean);
    }
    expect(plan.patches.map((p) => p.patch)).toEqual(Array.from({ length: 48 }, (_, i) => i + 1));
  });

  it("burns no setting twice but as a repeat, and a repeat names its original on another coupon", () => {
    const { patches } = planPatches(input());
    const tests = patches.filter((p) => p.role === "test");
    expect(new Set(tests.map((p) => settingKey(p.setting!))).size).toBe(tests.length);
    for (const p of patches.filter((q) => q.role === "replicate")) {
      const original = patches.find((q) => q.patch === p.replicateOf)!;
      expect(original.role).toBe("test");
      expect(original.setting).toEqual(p.setting);
      expect(original.coupon).not.toBe(p.coupon);
    }
    expect(tests.some((p) => settingKey(p.setting!) === settingKey(centre))).toBe(true);
  });

  it("runs in an order that is a shuffle of 1…44, coupon after coupon", () => {
    const { patches } = planPatches(input());
    const burned = patches.filter((p) => p.setting !== null);
    const orders = burned.map((p) => p.runOrder);
    expect([...orders].sort((a, b) => a - b)).toEqual(Array.from({ length: 44 }, (_, i) => i + 1));
    expect(orders).not.toEqual([...orders].sort((a, b) => a - b));
    const last = Math.max(...burned.filter((p) => p.coupon === 1).map((p) => p.runOrder));
    expect(burned.filter((p) => p.coupon === 2).every((p) => p.runOrder > last)).toBe(true);
  });

  it("puts about a third near each predicted edge", () => {
    const { patches } = planPatches(input());
    const regions = patches.filter((p) => p.role === "test").map((p) => regionOf(score(p.setting!)));
    const share = (name: string) => regions.filter((r) => r === name).length / regions.length;
    expect(share("clean edge")).toBeGreaterThan(0.25);
    expect(share("damage edge")).toBeGreaterThan(0.25);
    expect(share("inside")).toBeGreaterThan(0.1);
    // Without a prediction the share near the edges is what the ranges happen to hold.
    const blind = planPatches(input({ score: undefined }));
    expect(blind.patches.every((p) => p.predictedClean === null)).toBe(true);
    expect(blind.reasons.join(" ")).toContain("No prediction was handed in");
    expect(regionQuotas(30)).toEqual({ "clean edge": 10, "damage edge": 10, inside: 5, outside: 5 });
    for (let n = 1; n < 40; n++) expect(Object.values(regionQuotas(n)).reduce((a, b) => a + b)).toBe(n);
  });

  it("is the same again from the same seed and another from another", () => {
    expect(planPatches(input())).toEqual(planPatches(input()));
    expect(planPatches(input({ seed: 18 })).patches).not.toEqual(planPatches(input()).patches);
  });

  it("spreads wider than the first points of the sequence would", () => {
    const closest = (patches: readonly { setting: Setting | null; role: string }[]): number => {
      const points = patches
        .filter((p) => p.role === "test")
        .map(({ setting: s }) => [s!.power, s!.speed, s!.frequency!, s!.lineSpacing, s!.passes].map(Math.log));
      let least = Number.POSITIVE_INFINITY;
      points.forEach((a, i) => {
        for (const b of points.slice(i + 1)) least = Math.min(least, Math.hypot(...a.map((x, k) => x - b[k]!)));
      });
      return least;
    };
    expect(closest(planPatches(input({ count: 24, replicates: 0 })).patches)).toBeGreaterThan(0.3);
  });

  it("leaves out what the caller's check refuses, and other errors come through", () => {
    const check = (s: Setting): void => {
      if (s.speed > 3) invalid("speed", s.speed, "m/s", "at most 3 m/s here");
    };
    const { patches } = planPatches(input({ check }));
    expect(patches.length).toBe(48);
    expect(patches.every((p) => p.setting === null || p.setting.speed <= 3)).toBe(true);
    expect(planPatches(input()).patches.some((p) => p.setting !== null && p.setting.speed > 3)).toBe(true);
    const broken = (s: Setting): void => {
      if (s.speed !== centre.speed) throw new TypeError("a fault of the caller");
    };
    expect(() => planPatches(input({ check: broken }))).toThrow("a fault of the caller");
  });

  it("goes through the controls at equal ratios, and through choices one by one", () => {
    const factors = factorsAround(pulsed, centre, { power: { low: 50, high: 200 } });
    const power = factors.filter((f) => f.name === "power");
    expect(settingAt(centre, power, [0.5]).power).toBeCloseTo(100, 9);
    expect(settingAt({ ...centre, level: 0.9 }, power, [0.5]).level).toBeCloseTo(100 / 120, 9);
    const width = factors.filter((f) => f.name === "pulseWidth");
    expect([0, 0.4, 0.99].map((t) => settingAt(centre, width, [t]).pulseWidth)).toEqual([30e-9, 100e-9, 200e-9]);
  });

  it("plans a grid: levels at equal ratios, the others held", () => {
    const grid = { x: { factor: "power", levels: 4 }, y: { factor: "speed", levels: 3 } } as const;
    const { patches } = planPatches(
      input({ design: "grid", grid, count: 14, replicates: 0, ranges: { power: { low: 50, high: 200 } } }),
    );
    const tests = patches.filter((p) => p.role === "test").map((p) => p.setting!);
    expect(tests.length).toBe(12);
    const powers = [...new Set(tests.map((s) => s.power))].sort((a, b) => a - b);
    expect(powers.length).toBe(4);
    expect(powers[1]! / powers[0]!).toBeCloseTo(4 ** (1 / 3), 2);
    expect([powers[0], powers[3]]).toEqual([50, 200]);
    expect(new Set(tests.map((s) => s.speed)).size).toBe(3);
    expect(tests.every((s) => s.frequency === 100e3 && s.passes === 2)).toBe(true);
    expect(() => planPatches(input({ design: "grid", grid: { ...grid, x: { factor: "duty", levels: 2 } } }))).toThrow(
      "invalid grid factor: duty",
    );
  });

  it("plans a factorial: every pair of low and high of the first factors, and the centre", () => {
    const { patches } = planPatches(input({ design: "factorial", count: 11, replicates: 0 }));
    const tests = patches.filter((p) => p.role === "test").map((p) => p.setting!);
    expect(tests.length).toBe(9);
    const corners = tests.filter((s) => settingKey(s) !== settingKey(centre));
    const pairs = new Set(corners.map((s) => `${s.power}/${s.speed}/${s.frequency}`));
    expect(pairs.size).toBe(8);
    expect(new Set(corners.map((s) => s.power)).size).toBe(2);
  });

  it("plans a continuous source over power, speed, spacing, passes and duty", () => {
    const { patches } = planPatches(input({ setup: continuous, centre: steady }));
    const tests = patches.filter((p) => p.role === "test").map((p) => p.setting!);
    for (const s of tests) checkSetting(continuous, s);
    for (const name of ["power", "speed", "lineSpacing", "passes", "duty"] as const)
      expect(new Set(tests.map((s) => s[name])).size).toBeGreaterThan(2);
    expect(tests.every((s) => s.pulseWidth === null)).toBe(true);
  });

  it("fills up with repeats when the machine has too few different settings, and says so", () => {
    const tight = { power: { low: 119.95, high: 120.1 }, speed: { low: 2, high: 2 } };
    const held = { frequency: { low: 1e5, high: 1e5 }, lineSpacing: { low: 4e-5, high: 4e-5 } };
    const rest = { passes: { low: 2, high: 2 }, pulseWidth: { low: 1e-7, high: 1e-7 } };
    const plan = planPatches(input({ count: 12, replicates: 2, ranges: { ...tight, ...held, ...rest } }));
    const tests = plan.patches.filter((p) => p.role === "test");
    expect(plan.patches.length).toBe(12);
    expect(tests.length).toBeLessThan(8);
    expect(plan.reasons.join(" ")).toContain("fewer than asked for");
  });

  it("refuses what does not fit in one clear line", () => {
    expect(() => planPatches(input({ count: 3, replicates: 1 }))).toThrow(
      "invalid count: 3 patches (more than 2 references and 1 repeats need)",
    );
    expect(() => planPatches(input({ count: 0 }))).toThrow("invalid count: 0");
    expect(() => planPatches(input({ ranges: { power: { low: 100, high: 50 } } }))).toThrow("invalid range of power");
    expect(() => planPatches(input({ ranges: { power: { low: 300, high: 400 } } }))).toThrow("invalid range of power");
    expect(() => planPatches(input({ ranges: { duty: { low: 0.2, high: 0.9 } } }))).toThrow("cannot vary it here");
    expect(() => planPatches(input({ centre: { ...centre, power: Number.NaN } }))).toThrow("invalid power");
  });
});
