import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  blendLaw,
  buildKernel,
  filmFactor,
  interfaceGasStrength,
  type LawConditions,
  lawTable,
  metalResponse,
  NO_STRENGTH,
  responseTable,
  stressHeld,
  stressStrength,
  stripOf,
  ventingFactor,
  ventLength,
} from "#removal";
import type { StackSample } from "#terms";
import { sampleOf } from "./samples.ts";

/** Evenly over a range: doubles as the library draws them are mostly next to nothing. */
const evenly = (low: number, high: number) =>
  fc.integer({ min: 0, max: 1e6 }).map((i) => low + ((high - low) * i) / 1e6);

const coat = sampleOf("steel-low-carbon", [["alkyd", "dark", 60, false]]);
const rust = sampleOf("steel-low-carbon", [["red-rust", "natural", 40, false]]);
const response = metalResponse(responseTable(coat.metal, "square"));
const at: LawConditions = { startTemperature: 320, radius: 80e-6, lateralFactor: 0.7 };
const short = buildKernel(coat, 64e-6, "square");
const long = buildKernel(coat, 128e-6, "square");
const dull = buildKernel(rust, 100e-9, "square");

function pair() {
  const first = lawTable(coat, short, response, at);
  const second = lawTable(coat, long, response, { ...at, lnFluenceFirst: first.lnFluenceFirst });
  return { first, second };
}

describe("a law between two durations", () => {
  it("is the first at weight 0, and at weight 1 has every figure of the second", () => {
    const { first, second } = pair();
    expect(blendLaw(first, second, 0)).toBe(first);
    const all = blendLaw(first, second, 1);
    for (let row = 0; row < all.remaining.length; row++) all.need(row);
    for (const key of ["eaten", "strength", "byStress", "metalRise", "stayRise", "firstEaten"] as const)
      for (let i = 0; i < all[key].length; i++) expect(all[key][i]).toBeCloseTo(second[key][i]!, 9);
    expect(all.reactionTime).toBeCloseTo(128e-6, 15);
    expect(first.eaten.some((v, i) => v !== second.eaten[i])).toBe(true);
  });

  it("lies a third of the way at weight 1/3: figures straight, the time by its logarithm", () => {
    const { first, second } = pair();
    const mixed = blendLaw(first, second, 1 / 3);
    const row = mixed.remaining.length - 1;
    mixed.need(row);
    expect(mixed.reactionTime).toBeCloseTo(64e-6 * 2 ** (1 / 3), 12);
    let told = 0;
    for (const key of ["eaten", "strength", "metalRise", "firstEaten"] as const) {
      const from = key === "eaten" || key === "strength" ? row * mixed.columns : row;
      for (let i = from; i < mixed[key].length; i++) {
        const [a, b] = [first[key][i]!, second[key][i]!];
        expect(mixed[key][i]).toBeCloseTo((2 * a + b) / 3, 12);
        if (a !== b) told++;
      }
    }
    expect(told).toBeGreaterThan(30);
    expect(mixed.firstEaten[0]).toBe(Number.POSITIVE_INFINITY);
  });

  it("fills a row only when it is asked for, and then in both laws", () => {
    const { first, second } = pair();
    const mixed = blendLaw(first, second, 0.5);
    const rowOf = (table: Float64Array, row: number) => table.subarray(row * mixed.columns, (row + 1) * mixed.columns);
    mixed.need(3);
    for (const law of [first, second, mixed]) {
      expect(rowOf(law.eaten, 3).some((v) => v > 0)).toBe(true);
      expect(rowOf(law.eaten, 2).every((v) => v === 0)).toBe(true);
      expect(rowOf(law.strength, 2).every((v) => v === 0)).toBe(true);
    }
    const kept = [...rowOf(mixed.eaten, 3)];
    mixed.need(3);
    mixed.need(2);
    expect([...rowOf(mixed.eaten, 3)]).toEqual(kept);
  });

  it("names the way of the nearer law where gas leads in one and stress in the other", () => {
    const first = lawTable(rust, dull, response, at);
    const slower = buildKernel(rust, 3e-6, "square");
    const second = lawTable(rust, slower, response, { ...at, lnFluenceFirst: first.lnFluenceFirst });
    const [near, far] = [blendLaw(first, second, 0.4), blendLaw(first, second, 0.6)];
    near.need(4);
    far.need(4);
    const way = (law: typeof first) => [...law.byStress.subarray(4 * law.columns, 5 * law.columns)];
    expect(way(first)).not.toEqual(way(second));
    expect(way(near)).toEqual(way(first));
    expect(way(far)).toEqual(way(second));
  });

  it("blends the char laws in what goes and in the heat that comes through", () => {
    const { first, second } = pair();
    const mixed = blendLaw(first, second, 0.25).char()!;
    const [a, b] = [first.char()!, second.char()!];
    let told = 0;
    for (let row = 0; row < 3; row++) {
      expect(mixed.metalRise[row]).toBeCloseTo((3 * a.metalRise[row]! + b.metalRise[row]!) / 4, 15);
      for (let c = 0; c < 56; c++) {
        expect(mixed.gone(row, c)).toBeCloseTo((3 * a.gone(row, c) + b.gone(row, c)) / 4, 15);
        if (a.gone(row, c) !== b.gone(row, c)) told++;
      }
    }
    expect(told).toBeGreaterThan(20);
    expect([...mixed.remaining]).toEqual([...a.remaining]);
    const plain = lawTable(rust, dull, response, at);
    const slow = lawTable(rust, dull, response, { ...at, lnFluenceFirst: plain.lnFluenceFirst });
    expect(blendLaw(plain, slow, 0.5).char()).toBeNull();
  });
});

describe("rows of a law", () => {
  /** Strength written out from the criteria, at one node and fluence; own twin of the loop with its constants taken out. */
  function strengthOf(
    sample: StackSample,
    kernel: ReturnType<typeof buildKernel>,
    row: number,
    fluence: number,
  ): [number, number] {
    const node = kernel.nodes[row]!;
    const layer = stripOf(sample).off.at(-1)!;
    const kept = (rise: number) => Math.max(rise - 0.3 * node.interfaceRise, 0.7 * rise);
    const time = kernel.reactionTime;
    const hot = 320 + response.rise(fluence * kept(node.interfaceRise), 320);
    const mean = fluence * kept(node.meanRise);
    const brittle = layer.decomposition === null;
    const length = brittle ? at.radius : ventLength(at.radius, node.remaining, 320 + mean);
    const need =
      filmFactor(node.remaining, layer.filmStrength, at.radius, layer.adhesionStrength) * ventingFactor(time, length);
    const gas = interfaceGasStrength(layer.interfaceTemperature, layer.interfaceActivationEnergy, time, hot, need);
    const stress = brittle
      ? stressStrength(
          layer.youngsModulus,
          layer.expansion - sample.metal.expansion,
          mean,
          layer.poissonRatio,
          layer.adhesionStrength,
        ) + stressHeld(time)
      : NO_STRENGTH;
    return [gas, stress];
  }

  it.each([
    ["a coat", coat, short],
    ["rust", rust, dull],
  ] as const)("hold the stronger of gas and stress at each fluence: %s", (_, sample, kernel) => {
    const law = lawTable(sample, kernel, response, at);
    for (const row of [1, kernel.nodes.length - 1]) {
      law.need(row);
      for (let c = 0; c < law.columns; c++) {
        const [gas, stress] = strengthOf(sample, kernel, row, Math.exp(law.lnFluenceFirst + c * law.lnFluenceStep));
        expect(law.strength[row * law.columns + c]).toBeCloseTo(Math.max(gas, stress, NO_STRENGTH), 6);
        expect(law.byStress[row * law.columns + c]).toBe(stress > gas ? 1 : 0);
      }
    }
  });

  it("of rust are led by stress somewhere and by gas elsewhere; of the bare face are empty", () => {
    const law = lawTable(rust, dull, response, at);
    law.need(0);
    law.need(4);
    const ways = law.byStress.subarray(4 * law.columns, 5 * law.columns);
    expect(ways.some((v) => v === 1)).toBe(true);
    expect(ways.some((v) => v === 0)).toBe(true);
    expect(law.strength.subarray(0, law.columns).every((v) => v === NO_STRENGTH)).toBe(true);
    expect(law.eaten.subarray(0, law.columns).every((v) => v === 0)).toBe(true);
  });

  it("metal rises count what is left after spreading; a layer that stays loses what its face loses", () => {
    const kept = sampleOf("steel-low-carbon", [
      ["alkyd", "dark", 40, false],
      ["epoxy-primer", "mid", 30, true],
    ]);
    const kernel = buildKernel(kept, 1e-6, "square");
    const law = lawTable(kept, kernel, response, at);
    kernel.nodes.forEach((n, i) => {
      expect(law.metalRise[i]).toBeCloseTo(0.7 * n.metalRise, 15);
      expect(law.stayRise[i]).toBeCloseTo(Math.max(n.stayRise - 0.3 * n.interfaceRise, 0.7 * n.stayRise), 15);
    });
    expect(law.stayRise[0]).toBeGreaterThan(0);
  });

  it("trimmed to a peak, read the same as full ones wherever a patch asks", () => {
    const kernels = [
      [coat, short],
      [coat, long],
      [rust, dull],
    ] as const;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 }), evenly(Math.log(10), Math.log(1e7)), (which, lnPeak) => {
        const [sample, kernel] = kernels[which]!;
        const full = lawTable(sample, kernel, response, at);
        const trimmed = lawTable(sample, kernel, response, { ...at, peakFluence: Math.exp(lnPeak) });
        const row = kernel.nodes.length - 2;
        full.need(row);
        trimmed.need(row);
        const last = full.columns - 1;
        // From e⁻⁶ of the peak, a column lower for the slope, up to the peak after incubation of two in ln fluence.
        for (let ask = lnPeak - 6 - full.lnFluenceStep; ask <= lnPeak + 2; ask += 0.04) {
          const place = Math.min(last - 1e-6, Math.max(0, (ask - full.lnFluenceFirst) / full.lnFluenceStep));
          const i = row * full.columns + Math.floor(place);
          for (const j of [i, i + 1]) {
            expect(trimmed.strength[j]).toBeCloseTo(full.strength[j]!, 9);
            expect(trimmed.byStress[j]).toBe(full.byStress[j]);
          }
        }
        for (let j = row * full.columns; j < (row + 1) * full.columns; j++)
          expect(trimmed.eaten[j]).toBe(full.eaten[j]);
      }),
      { numRuns: 60 },
    );
  });

  it("are trimmed at all", () => {
    const trimmed = lawTable(coat, short, response, { ...at, peakFluence: 3e4 });
    trimmed.need(3);
    const row = trimmed.strength.subarray(3 * trimmed.columns, 4 * trimmed.columns);
    expect(row.filter((v) => v === NO_STRENGTH).length).toBeGreaterThan(0);
    expect(row.filter((v) => v > NO_STRENGTH).length).toBeGreaterThan(20);
  });
});
