import { describe, expect, it } from "vitest";
import { type CharNode, charBurnt, charLaw, type Kernel } from "#removal";
import type { StackSample } from "#terms";
import { sampleOf } from "./samples.ts";

const sample = sampleOf("steel-low-carbon", [["alkyd", "dark", 60, false]]);
const kinetics = sample.layers[0]!.decomposition!.char!;
const radius = 100e-6;
const start = 293.15;
const STEP = 0.16;

/** Three equal cells with rises 3, 2 and 1 K·m²/J in thousandths; 150 kg/m³. */
function node(remaining: number, more: Partial<CharNode> = {}): CharNode {
  return {
    remaining,
    density: 150,
    width: Float64Array.of(remaining / 3, remaining / 3, remaining / 3),
    rise: Float64Array.of(3e-2, 2e-2, 1e-2),
    time: Float64Array.of(1e-3, 1e-3, 1e-3),
    share: 0.9,
    metalRise: 4e-3,
    ...more,
  };
}

function lawOf(nodes: CharNode[], time: number, fluence: number, lateralFactor = 1) {
  const kernel: Kernel = { duration: time, shape: "square", reactionTime: time, nodes: [], charNodes: () => nodes };
  const made = charLaw(sample, kernel, { startTemperature: start, radius, lateralFactor }, Math.log(fluence));
  expect(made).not.toBeNull();
  return made!;
}

describe("what one event takes off a char", () => {
  it("is nothing without light, and all of it under very much", () => {
    for (const time of [1e-8, 1e-3]) {
      const law = lawOf([node(10e-6)], time, 1);
      expect(law.gone(0, 0)).toBeLessThan(1e-20);
      expect(lawOf([node(10e-6)], time, 1e9).gone(0, 0)).toBe(10e-6);
    }
  });

  it("burns cell by cell, each at its own temperature and time, below sublimation", () => {
    const slow = node(10e-6, { time: Float64Array.of(5e-2, 3e-2, 2e-2) });
    const fluence = 5e4; // 1500, 1000 and 500 K of rise
    const law = lawOf([slow], 5e-2, fluence);
    const cells = [1500, 1000, 500].map((rise, i) =>
      charBurnt(kinetics, start + rise, slow.time[i]!, 10e-6, 150, radius),
    );
    expect(law.gone(0, 0)).toBeCloseTo((cells.reduce((a, b) => a + b, 0) * 10e-6) / 3, 12);
    expect(law.gone(0, 0)).toBeGreaterThan(1e-7);
  });

  it("sublimates by what heat is over: the top cell of 3 at 3915 K + 3000 K loses a fifth", () => {
    // Too short for oxygen and just so slow that shattering and recession are small: 0.9·(F − F₀)/(150·37.24e6)…
    const fluence = (3915 - start + 3000) / 3e-2;
    const begin = (3915 - start) / 3e-2;
    const time = 1e-4;
    const receded = (0.9 * (fluence - begin)) / (150 * (2000 * (3915 - start) + 30e6) * (1 + 1e-6 / time));
    const thick = 1e-3; // so that a fifth of its half is more than what recedes
    const widths = Float64Array.of(thick / 2, thick / 3, thick / 6);
    const law = lawOf([node(thick, { width: widths, time: Float64Array.of(1e-9, 1e-9, 1e-9) })], time, fluence);
    // cells at rises of 6621.85, 4414.6 and 2207 K: the second is 792.75 K over 3915 K, the third below
    const second = (start + (2 / 3) * 6621.85 - 3915) * (2000 / 30e6);
    const shattered = thick / (1 + time / 1e-6);
    const sum = (thick / 2) * 0.2 + (thick / 3) * second;
    expect(Math.max(receded, shattered)).toBeLessThan(sum);
    expect(law.gone(0, 0)).toBeCloseTo(sum, 12);
  });

  it("recedes where the beam stays on: 0.9·(F − F₀)/(ρ·(c·ΔT + L)) of a thick char lit in its skin", () => {
    const skin = node(1e-3, { width: Float64Array.of(1e-9), rise: Float64Array.of(3e-2), time: Float64Array.of(1e-9) });
    const fluence = 5e5;
    const begin = 3621.85 / 3e-2;
    const heat = 150 * 37.2437e6;
    const law = lawOf([skin], 1e-2, fluence);
    expect(law.gone(0, 0)).toBeCloseTo((0.9 * (fluence - begin)) / heat / (1 + 1e-4), 10);
    expect(lawOf([skin], 1e-2, 0.99 * begin).gone(0, 0)).toBe(0);
  });

  it("shatters under a short flash that reaches sublimation, and only then", () => {
    const begin = 3621.85 / 3e-2;
    const cold = node(10e-6, { time: Float64Array.of(1e-9, 1e-9, 1e-9) });
    expect(lawOf([cold], 100e-9, 1.001 * begin).gone(0, 0)).toBeCloseTo(10e-6 / 1.1, 12);
    expect(lawOf([cold], 100e-9, 0.999 * begin).gone(0, 0)).toBe(0);
  });

  it("loses what spreads sideways in the metal, at most its share, and so begins later", () => {
    const cold = node(10e-6, { time: Float64Array.of(1e-9, 1e-9, 1e-9) });
    const flashes = (n: CharNode, rise: number, lateralFactor: number) => {
      const [above, below] = [1.001, 0.999].map((f) =>
        lawOf([n], 100e-9, (f * 3621.85) / rise, lateralFactor).gone(0, 0),
      );
      expect(above).toBeGreaterThan(9e-6);
      expect(below).toBe(0);
    };
    // rise of the top 0.03 − 0.6·0.004 = 0.0276
    flashes(cold, 0.0276, 0.4);
    // a metal hotter than the char: 0.4 of the rise is left, not 0.03 − 0.6·0.04
    const warm = { ...cold, metalRise: 4e-2 };
    flashes(warm, 0.012, 0.4);
    expect(lawOf([warm], 100e-9, 1, 0.4).metalRise[0]).toBeCloseTo(1.6e-2, 12);
    // what sublimates below the flash's skin follows the same rule, cell by cell: 3915 K + 3000 K on top, a fifth
    const thick = node(1e-3, { metalRise: 4e-2, time: Float64Array.of(1e-9, 1e-9, 1e-9) });
    const gone = lawOf([thick], 1e-4, (3621.85 + 3000) / 0.012, 0.4).gone(0, 0);
    const second = ((2 / 3) * 6621.85 - 3621.85) * (2000 / 30e6);
    expect(gone).toBeCloseTo((1e-3 / 3) * (0.2 + second), 12);
  });

  it("burns no hotter than it sublimates, and counts the larger of both, not their sum; cells by their widths", () => {
    // k(3915 K) = 1e7·exp(−400000/(8.314463·3915)) = 46.1 1/s, at 5415 K thirty times that
    const slow: StackSample = {
      ...sample,
      layers: sample.layers.map((l) => ({
        ...l,
        decomposition: {
          ...l.decomposition!,
          char: { ...l.decomposition!.char!, preExponential: 1e7, activationEnergy: 4e5 },
        },
      })),
    };
    const remaining = 1e-9;
    const kernel: Kernel = {
      duration: 1,
      shape: "square",
      reactionTime: 1,
      nodes: [],
      charNodes: () => [
        node(remaining, {
          share: 0,
          width: Float64Array.of(0.1e-9, 0.9e-9),
          rise: Float64Array.of(3e-2, 1e-2),
          time: Float64Array.of(5e-3, 5e-3),
        }),
      ],
    };
    const fluence = (5415 - start) / 3e-2;
    const law = charLaw(slow, kernel, { startTemperature: start, radius, lateralFactor: 1 }, Math.log(fluence))!;
    // 1 − exp(−46.1·5 ms) = 0.206 of the tenth on top, against 0.1 that sublimates; the rest is too cold
    expect(law.gone(0, 0) / remaining).toBeCloseTo(0.1 * 0.206, 4);
  });

  it("never falls with fluence nor passes what is there; columns are 0.16 apart; nodes keep their place; a question twice is answered alike", () => {
    for (const time of [30e-9, 1e-6, 1e-3]) {
      const law = lawOf([node(2e-6), node(10e-6)], time, 1e3);
      expect([...law.remaining]).toEqual([2e-6, 10e-6]);
      for (const row of [0, 1]) {
        let before = 0;
        for (let c = 0; c < 56; c++) {
          const gone = law.gone(row, c);
          expect(gone).toBeGreaterThanOrEqual(before);
          expect(gone).toBeLessThanOrEqual(law.remaining[row]!);
          before = gone;
        }
        expect(before).toBe(law.remaining[row]);
      }
      const shifted = lawOf([node(2e-6), node(10e-6)], time, 1e3 * Math.exp(7 * STEP));
      for (const c of [0, 20, 30]) expect(shifted.gone(1, c)).toBeCloseTo(law.gone(1, c + 7), 14);
      expect(law.gone(1, 30)).toBe(law.gone(1, 30));
    }
  });

  it("is not there where no layer chars, or where the layer that would has to stay", () => {
    const bare: Kernel = { duration: 1e-3, shape: "square", reactionTime: 1e-3, nodes: [], charNodes: () => [] };
    const conditions = { startTemperature: start, radius, lateralFactor: 1 };
    expect(charLaw(sample, bare, conditions, 0)).toBeNull();
    const kept = sampleOf("steel-low-carbon", [["alkyd", "dark", 60, true]]);
    const asked: Kernel = { ...bare, charNodes: () => [node(1e-6)] };
    expect(charLaw(kept, asked, conditions, 0)).toBeNull();
  });
});
