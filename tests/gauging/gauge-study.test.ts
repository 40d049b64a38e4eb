import { describe, expect, it } from "vitest";
import { gaugeStudy, rangeMoments, rangeStudy } from "#gauging";
import { createRandom } from "#numerics";
import aiag from "./aiag.json";

/** part, grader, repeat */
const readings = aiag.A[0]!.map((_, part) =>
  [aiag.A, aiag.B, aiag.C].map((trials) => trials.map((values) => values[part]!)),
);

describe("gauge study of the AIAG's 10 parts, 3 graders, 3 repeats", () => {
  it("by analysis of variance: 27.861 %, 4.86 categories", () => {
    const study = gaugeStudy(readings);
    expect(study.used).toBe("pooled");
    const { pooled } = study;
    expect(pooled.repeat ** 2).toBeCloseTo(0.0399732763533, 11);
    expect(pooled.grader ** 2).toBeCloseTo(0.0514552611586, 11);
    expect(pooled.part ** 2).toBeCloseTo(1.08644660441, 10);
    expect(pooled.gauge).toBeCloseTo(0.302371522323, 11);
    expect(pooled.total).toBeCloseTo(1.08529956322, 10);
    expect(100 * pooled.gaugeShare).toBeCloseTo(27.8606508811, 8);
    expect(pooled.categories).toBeCloseTo(4.86051647662, 9);
    // 0.434 and 0.974: printed with the data in the manual
    expect(Math.round(1000 * study.interactionF)).toBe(434);
    expect(study.interactionChance).toBeCloseTo(0.974, 3);
  });

  it("by ranges: 26.678 %", () => {
    const study = rangeStudy(readings);
    expect(study.repeat).toBeCloseTo(0.201856666667, 11);
    expect(study.grader).toBeCloseTo(0.229667029103, 11);
    expect(study.gauge).toBeCloseTo(0.305766345654, 11);
    expect(study.part).toBeCloseTo(1.10459555556, 10);
    expect(study.total).toBeCloseTo(1.14613454685, 10);
    expect(100 * study.gaugeShare).toBeCloseTo(26.678049841, 8);
  });

  it("by ranges with 3 parts, 2 graders, 2 repeats, by hand", () => {
    const study = rangeStudy(
      [0, 2, 4].map((part) => [0, 1].map((grader) => [part + grader - 0.1, part + grader + 0.1])),
    );
    const repeat = 0.2 * 0.8862;
    expect(study.repeat).toBeCloseTo(repeat, 12);
    expect(study.grader).toBeCloseTo(Math.sqrt((7071 / 1e4) ** 2 - repeat ** 2 / 6), 12);
    expect(study.part).toBeCloseTo(4 * 0.5231, 12);
  });

  it("leaves the unpooled interaction at 0, and says so", () => {
    expect(gaugeStudy(readings).unpooled).toMatchObject({ interaction: 0, clipped: ["part × grader"] });
  });
});

describe("constants of ranges", () => {
  // d2 of 2 to 5: 1.128, 1.693, 2.059, 2.326; K of 2 to 10: the manual's tables.
  it("are those of the tables", () => {
    expect([2, 3, 4, 5].map((n) => rangeMoments(n).mean)).toEqual(
      [1.128, 1.693, 2.059, 2.326].map((x) => expect.closeTo(x, 3)),
    );
    const k = [7071, 5231, 4467, 4030, 3742, 3534, 3375, 3249, 3146];
    expect(k.map((_, i) => Math.round(1e4 / Math.sqrt(rangeMoments(i + 2).square)))).toEqual(k);
    expect(rangeMoments(2).square).toBeCloseTo(2, 8);
  });
});

describe("gauge study of made-up graders", () => {
  function study(sd: { part: number; grader: number; both: number; repeat: number }, seed: number) {
    const stream = createRandom(seed);
    const graders = Array.from({ length: 8 }, () => sd.grader * stream.normal());
    return Array.from({ length: 60 }, () => {
      const part = sd.part * stream.normal();
      return graders.map((grader) => {
        const both = sd.both * stream.normal();
        return [0, 1, 2].map(() => part + grader + both + sd.repeat * stream.normal());
      });
    });
  }

  it("finds the standard deviations that were put in, interaction included", () => {
    const found = gaugeStudy(study({ part: 2, grader: 0.5, both: 0.4, repeat: 0.3 }, 3));
    expect(found.used).toBe("unpooled");
    expect(found.unpooled.part).toBeCloseTo(2, 0);
    expect(found.unpooled.interaction).toBeCloseTo(0.4, 1);
    expect(found.unpooled.repeat).toBeCloseTo(0.3, 1);
    expect(found.graderChance).toBeLessThan(0.001);
  });

  it("clips what comes out below 0", () => {
    const alike = gaugeStudy(study({ part: 0, grader: 0, both: 0, repeat: 1 }, 4));
    expect([...alike.pooled.clipped, ...alike.unpooled.clipped].length).toBeGreaterThan(0);
    expect(alike.pooled.gaugeShare).toBeGreaterThan(0.9);
  });

  it("refuses a study that is not crossed, one without repeats, and one without scatter", () => {
    const cell = [1, 2];
    expect(() => gaugeStudy([[cell, cell], [cell]])).toThrow("invalid graders of a part: 1 (must be 2");
    expect(() =>
      gaugeStudy([
        [cell, [1]],
        [cell, cell],
      ]),
    ).toThrow("invalid repeats of a part: 1");
    expect(() =>
      gaugeStudy([
        [[1], [2]],
        [[1], [2]],
      ]),
    ).toThrow("invalid repeats: 1");
    expect(() => gaugeStudy([[cell, cell]])).toThrow("invalid parts: 1");
    const same = [
      [5, 5],
      [5, 5],
    ];
    expect(() => gaugeStudy([same, same])).toThrow("invalid readings: all equal");
  });
});
