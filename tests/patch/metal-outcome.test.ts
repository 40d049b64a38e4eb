import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CLASS_COUNT, type Draw, type PatchPlan, type Stamped } from "#patch";
import { GAS_CONSTANT, type LawTable, type MetalResponse, passReactionTime, pulseReactionTime } from "#removal";
import {
  AMBIENT,
  HELD_TIME,
  marginToLimit,
  metalHeat,
  oxideThickness,
  stayHarm,
} from "../../src/patch/metal-outcome.ts";

/** Evenly over a range: doubles as the library draws them are mostly next to nothing. */
const evenly = (low: number, high: number) =>
  fc.integer({ min: 0, max: 1e6 }).map((i) => low + ((high - low) * i) / 1e6);

/** Melts at 1000 K of linear rise from anywhere, a nanometre a kelvin beyond. */
const response: MetalResponse = {
  rise: (linear) => linear,
  meltOnset: () => 1000,
  meltDepth: (linear) => Math.max(0, linear - 1000) * 1e-9,
  riseForMeltDepth: (depth) => 1000 + depth * 1e9,
};
const stampedOf = (bare: readonly number[], covered: readonly number[] = [], strongEvents = 4): Stamped => ({
  residue: 0,
  bareFluence: Float64Array.from(bare),
  coveredRise: Float64Array.from(covered.length > 0 ? covered : new Array<number>(Math.ceil(bare.length / 8)).fill(0)),
  eatenShare: 0,
  stressShare: 0,
  strongEvents,
});
const drawOf = (more: object): Draw => ({ metal: { diffusivity: 1e-5 }, ...more }) as unknown as Draw;
const lawOf = (metalRise: number, stayRise = 0) =>
  ({ metalRise: Float64Array.of(metalRise), stayRise: Float64Array.of(stayRise) }) as unknown as LawTable;
const heatOf = (bare: readonly number[], covered?: readonly number[]) =>
  metalHeat(drawOf({}), stampedOf(bare, covered), lawOf(0.1), response, 300, 1e-7);

describe("heat of the metal", () => {
  it("is that of bare or covered places, whichever is more, and melts by share of area", () => {
    // two points of eight classes; 0.1 K·m²/J: 900 K bare; the second point 1300 K under its layer, one class 1500 K bare
    const bare = new Array<number>(16).fill(9e3);
    bare[12] = 15e3;
    const heat = heatOf(bare, [0, 1300]);
    expect(heat.hottestRise).toBeCloseTo(1500, 9);
    expect(heat.meltedShare).toBe(0.5);
    expect(heat.meltDepth).toBeCloseTo(500e-9, 15);
    expect(heat.onset).toBe(1000);
    // 2 µm (limit of micro-melting, own convention) are 2000 K more
    expect(heat.deepOnset()).toBeCloseTo(3000, 9);
    expect(heatOf(new Array<number>(8).fill(9.999e3)).meltDepth).toBe(0);
    expect(heatOf(new Array<number>(8).fill(9.999e3)).meltedShare).toBe(0);
  });

  it("picks the n-th largest as sorting does, also among many equal ones", () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.integer({ min: 0, max: 5 }), evenly(0, 1e6)), {
          minLength: 1,
          maxLength: 90,
        }),
        evenly(0, 0.999),
        (values, share) => {
          const sorted = values.map((v) => v * 0.1).sort((a, b) => b - a);
          const heat = heatOf(values);
          expect(heat.exceeded(share)).toBe(sorted[Math.floor(share * values.length)]);
          // asked again, although the first question put them in another order
          expect(heat.exceeded(0)).toBe(sorted[0]);
          expect(heat.exceeded(0.999)).toBe(sorted[Math.floor(0.999 * values.length)]);
          // more than a share has melted exactly where the rise exceeded by that share melts
          expect(heat.meltedShare > share).toBe(heat.exceeded(share) > 1000);
        },
      ),
      { numRuns: 300 },
    );
    expect(CLASS_COUNT).toBe(8);
  });
});

describe("oxide on the metal", () => {
  const oxide = { preExponential: 6.1e-4, activationEnergy: 169452, refractiveIndex: 2.5 };
  const draw = drawOf({ sample: { metal: { oxide, meltingTemperature: 1e9, boilingTemperature: 3100 } } });
  const planOf = (events: "train" | "line", passes = 1, exposure = 0) =>
    ({ events, setting: { passes }, warming: { exposure } }) as unknown as PatchPlan;
  const growth = (t: number) => 6.1e-4 * Math.exp(-169452 / (GAS_CONSTANT * t));
  const seconds = (plan: PatchPlan, peak: number, start: number, duration: number, strong = 1) =>
    oxideThickness(draw, plan, peak, start, duration, stampedOf([], [0], strong)) ** 2 / growth(peak);

  it("of pulses counts each for its time at the peak, within 4 % of the integral over heating and cooling", () => {
    for (const [peak, start] of [
      [1400, 300],
      [1700, 300],
      [1100, 500],
    ] as const) {
      const full = pulseReactionTime({ duration: 1e-7, period: 1e3, start, rise: peak - start }, 169452);
      expect(Math.abs(seconds(planOf("train"), peak, start, 1e-7) / full - 1)).toBeLessThan(0.04);
    }
  });

  it("of a line counts its pass by radius over speed, half of the event's width, within 5 % of the integral to twenty radii", () => {
    for (const peak of [1100, 1400]) {
      const pass = { radiusTime: 5e-4, until: 1e-2, start: 300, rise: peak - 300 };
      const full = passReactionTime(pass, 169452);
      expect(Math.abs(seconds(planOf("line"), peak, 300, 1e-3) / full - 1)).toBeLessThan(0.05);
    }
  });

  it("grows no faster above melting than at it: a film breaks up on the liquid", () => {
    const low = drawOf({ sample: { metal: { oxide, meltingTemperature: 1500, boilingTemperature: 3100 } } });
    const at = (peak: number) => oxideThickness(low, planOf("train"), peak, 300, 1e-7, stampedOf([], [0], 1));
    expect(at(2800)).toBe(at(1500));
    expect(at(1499)).toBeLessThan(at(1500));
  });

  it("goes with events and passes under the root, at least one event", () => {
    const one = seconds(planOf("train"), 1400, 300, 1e-7, 1);
    expect(seconds(planOf("train"), 1400, 300, 1e-7, 6)).toBeCloseTo(6 * one, 12);
    expect(seconds(planOf("train", 3), 1400, 300, 1e-7, 6)).toBeCloseTo(18 * one, 12);
    expect(seconds(planOf("train"), 1400, 300, 1e-7, 0.2)).toBeCloseTo(one, 14);
  });

  it("of a flat peak counts 2·τ·R·T²/(E·ΔT), at most all of τ", () => {
    // 1000 K over 900 K: 2·8.314463·1e6/(169452·100) = 0.98133
    expect(seconds(planOf("train"), 1000, 900, 1e-3)).toBeCloseTo(0.98133e-3, 7);
    expect(seconds(planOf("line"), 1000, 900, 1e-3)).toBeCloseTo(0.98133e-3, 7);
    expect(seconds(planOf("train"), 1000, 999, 1e-3)).toBeCloseTo(1e-3, 12);
    expect(seconds(planOf("train"), 1000, 1000, 1e-3)).toBeCloseTo(1e-3, 12);
    // so hot that E/(R·T) is 4.25: 2·8.314463·4796²/(169452·4496)… still the plain form
    const plain = (2 * GAS_CONSTANT * 4796 ** 2) / (169452 * 4496);
    expect(seconds(planOf("train"), 4796, 300, 1e-3) / 1e-3).toBeCloseTo(plain, 9);
  });

  it("adds what grows in the warmth between, x² upon x²; warmth is held below boiling", () => {
    const both = oxideThickness(draw, planOf("train", 1, 30), 1400, 900, 1e-7, stampedOf([], [0], 1)) ** 2;
    const hot = oxideThickness(draw, planOf("train", 1, 0), 1400, 900, 1e-7, stampedOf([], [0], 1)) ** 2;
    expect((both - hot) / (growth(900) * 30)).toBeCloseTo(1, 6);
    const boiled = oxideThickness(draw, planOf("train", 1, 30), 3100, 9e3, 1e-7, stampedOf([], [0], 1)) ** 2;
    expect(boiled / (growth(3100) * 30)).toBeCloseTo(1, 6);
    expect(
      oxideThickness(drawOf({ sample: { metal: { oxide: null } } }), planOf("train"), 1400, 300, 1, stampedOf([])),
    ).toBe(0);
  });
});

describe("the layer that stays", () => {
  const draw = drawOf({ strip: { stay: [{ damageTemperature: 500 }] } });

  it("is harmed where its top passes its temperature: three places of eight over 200 K", () => {
    const stamped = stampedOf([1e3, 1e3, 1e3, 1e3, 1e3, 3e3, 4e3, 8e3]);
    const harm = stayHarm(draw, stamped, lawOf(0, 0.1), 300);
    expect(harm.share).toBe(3 / 8);
    expect(harm.margin).toBeCloseTo(Math.log(200 / 800), 12);
    expect(stayHarm(draw, stampedOf(new Array<number>(8).fill(1e3)), lawOf(0, 0.1), 300).margin).toBeCloseTo(
      Math.LN2,
      12,
    );
  });

  it("has no say where there is none or its limit is not known; warmth above the limit harms it by any light", () => {
    for (const stay of [[], [{ damageTemperature: null }]])
      expect(stayHarm(drawOf({ strip: { stay } }), stampedOf([1e9]), lawOf(0, 1), 300)).toEqual({
        share: 0,
        margin: Number.POSITIVE_INFINITY,
      });
    expect(stayHarm(draw, stampedOf([1e-3]), lawOf(0, 0.1), 600)).toMatchObject({ share: 1 });
  });
});

describe("margin to the limit of the metal", () => {
  const at = { startForLaw: AMBIENT + 100, start: AMBIENT + 100, duration: 1e-7, peak: AMBIENT + 600, line: false };
  /** 800 K at most, 500 K exceeded by a hundredth, 200 K by a tenth of the area; melts at 900, deep at 1500. */
  const heat = {
    hottestRise: 800,
    onset: 900,
    deepOnset: () => 1500,
    exceeded: (share: number) => (share === 0.01 ? 500 : share === 0.1 ? 200 : Number.NaN),
  };
  const limit = (metalConditionMax: 0 | 1 | 2 | 3 | 4, metalTemperatureMax: number | null = null) => ({
    metalConditionMax,
    metalTemperatureMax,
  });

  it("is between totals above ambient: (100 + 900)/(100 + 500) for unmelted metal", () => {
    expect(marginToLimit(limit(1), heat, at)).toBeCloseTo(Math.log(1000 / 600), 12);
    expect(marginToLimit(limit(0), heat, at)).toBeCloseTo(Math.log(1000 / 600), 12);
  });

  it("where micro-melting is allowed is the nearer of deep and wide, never less than unmelted", () => {
    // deep 1600/900, wide 1000/300: the nearer is deep, 1.78, over 1.67
    expect(marginToLimit(limit(2), heat, at)).toBeCloseTo(Math.log(1600 / 900), 12);
    expect(marginToLimit(limit(2), { ...heat, deepOnset: () => 5000 }, at)).toBeCloseTo(Math.log(1000 / 300), 12);
    expect(marginToLimit(limit(2), { ...heat, hottestRise: 2000 }, at)).toBeCloseTo(Math.log(1000 / 600), 12);
  });

  it("is negative past it, and counts warmth that has itself passed the start of the law", () => {
    const hot = { ...heat, exceeded: () => 1700 };
    expect(marginToLimit(limit(1), hot, at)).toBeCloseTo(Math.log(1000 / 1800), 12);
    const warm = { ...at, start: AMBIENT + 500, startForLaw: AMBIENT + 300 };
    expect(marginToLimit(limit(1), heat, warm)).toBeCloseTo(Math.log(1200 / 1000), 12);
  });

  it("is far, e³, where molten metal is allowed, and never farther", () => {
    expect(marginToLimit(limit(3), heat, at)).toBe(3);
    expect(marginToLimit(limit(4), heat, at)).toBe(3);
    expect(marginToLimit(limit(1), { ...heat, exceeded: () => 0 }, { ...at, start: AMBIENT })).toBe(3);
  });

  it("of a temperature asks the peak of heat that lasts a millisecond or of a line, the warmth of short pulses", () => {
    expect(HELD_TIME).toBe(1e-3);
    const limited = limit(3, AMBIENT + 300);
    expect(marginToLimit(limited, heat, at)).toBeCloseTo(Math.log(3), 12);
    expect(marginToLimit(limited, heat, { ...at, duration: 1e-3 })).toBeCloseTo(Math.log(0.5), 12);
    expect(marginToLimit(limited, heat, { ...at, duration: 0.99e-3 })).toBeCloseTo(Math.log(3), 12);
    expect(marginToLimit(limited, heat, { ...at, line: true })).toBeCloseTo(Math.log(0.5), 12);
    // the nearer of both limits
    expect(marginToLimit(limit(1, AMBIENT + 110), heat, at)).toBeCloseTo(Math.log(1.1), 12);
    expect(marginToLimit(limit(1, AMBIENT + 900), heat, at)).toBeCloseTo(Math.log(1000 / 600), 12);
    expect(Number.isFinite(marginToLimit(limit(1, AMBIENT - 5), heat, at))).toBe(true);
  });
});
