import { describe, expect, it } from "vitest";
import {
  centralSample,
  conversionEnergy,
  conversionRate,
  layerKind,
  layerKinds,
  metal,
  plumeFactor,
  sampleStacks,
} from "#library";
import { quantile } from "#numerics";
import type { LayerKind, Stack } from "#terms";

const R = 8.314462618;
const organic = layerKinds.filter((l) => l.decomposition !== null);
const stackOf = (...kinds: LayerKind[]): Stack => ({
  layers: kinds.map((kind) => ({
    kind,
    colour: "white" as const,
    thickness: kind.usualThickness,
    mustStay: false,
  })),
  metal: metal("steel-low-carbon"),
  metalThickness: 3e-3,
});
const draws = (stack: Stack) => sampleStacks([{ stack, weight: 1, assumption: "" }], 400, 3);

/** K at which the burn-off rate peaks at heating rate b: b·E/(R·T²) = A·exp(−E/(R·T)) (Kissinger 1957), by bisection. */
function peakTemperature(a: number, e: number, heatingRate: number): number {
  let low = 300;
  let high = 3000;
  for (let i = 0; i < 60; i++) {
    const t = (low + high) / 2;
    if (a * Math.exp(-e / (R * t)) < (heatingRate * e) / (R * t * t)) low = t;
    else high = t;
  }
  return low;
}

describe("char", () => {
  it("is known for every layer that decomposes", () => {
    expect(organic.length).toBeGreaterThanOrEqual(9);
    for (const l of organic) expect(l.decomposition!.char, l.id).toBeDefined();
  });

  it("absorbs more than any paint around it and less than dense soot", () => {
    // dense soot, m = 1.6 − 0.6i (common value of soot optics, from memory): 4π·0.6/1.064 µm = 7.1e6 1/m
    const soot = (4 * Math.PI * 0.6) / 1.064e-6;
    for (const l of organic) {
      const { value, high } = l.decomposition!.char!.absorption;
      expect(high, l.id).toBeLessThan(soot);
      for (const optics of Object.values(l.optics)) expect(value, l.id).toBeGreaterThan(optics!.absorption.value);
    }
  });

  it("burns off in air where chars and soot do on a balance at 10 K/min: 750 to 950 K, 140 to 180 kJ/mol", () => {
    const steel = draws(stackOf(layerKind("epoxy-primer")));
    const peaks = steel.map((d) => {
      const char = d.layers[0]!.decomposition!.char!;
      expect(char.activationEnergy).toBeGreaterThan(140e3);
      expect(char.activationEnergy).toBeLessThan(180e3);
      return peakTemperature(char.preExponential, char.activationEnergy, 10 / 60);
    });
    expect(quantile(peaks, 0.05)).toBeGreaterThan(750);
    expect(quantile(peaks, 0.95)).toBeLessThan(950);
    expect(quantile(peaks, 0.95) - quantile(peaks, 0.05)).toBeGreaterThan(80);
  });

  it("outlasts the binder: at any temperature of a slow pass the char burns later than it forms", () => {
    for (const l of organic.filter((k) => k.group === "coating")) {
      const { preExponential: a, activationEnergy: e, char } = l.decomposition!;
      for (const t of [800, 1000, 1500]) {
        const forms = a.value * Math.exp(-e.value / (R * t));
        const burns = char!.preExponential.value * Math.exp(-char!.activationEnergy.value / (R * t));
        expect(burns, `${l.id} ${t}`).toBeLessThan(forms);
      }
    }
  });

  it("is drawn beside plume and conversion, each with its own spread", () => {
    const steel = draws(stackOf(layerKind("alkyd")));
    for (const [p, read] of [
      [plumeFactor, (d: (typeof steel)[number]) => d.plumeFactor!],
      [conversionRate, (d: (typeof steel)[number]) => d.conversionRate!],
      [conversionEnergy, (d: (typeof steel)[number]) => d.conversionEnergy!],
    ] as const) {
      expect(quantile(steel.map(read), 0.05) / p.low).toBeCloseTo(1, 1);
      expect(quantile(steel.map(read), 0.95) / p.high).toBeCloseTo(1, 1);
    }
  });

  it("moves no other draw, in no layer of the stack", () => {
    const paint = layerKind("alkyd");
    const { char: _char, ...rest } = paint.decomposition!;
    const without = draws(stackOf({ ...paint, decomposition: rest }, layerKind("epoxy-primer")));
    const withChar = draws(stackOf(paint, layerKind("epoxy-primer")));
    expect(without[0]!.layers[0]!.decomposition).not.toHaveProperty("char");
    withChar.forEach((d, i) => {
      const { char, ...same } = d.layers[0]!.decomposition!;
      expect(char!.absorption).toBeGreaterThan(0);
      expect({ ...d.layers[0]!, decomposition: same }).toEqual(without[i]!.layers[0]);
      expect(d.layers[1]).toEqual(without[i]!.layers[1]);
    });
    expect(new Set(withChar.map((d) => d.layers[0]!.decomposition!.char!.absorption)).size).toBe(400);
    expect(centralSample(stackOf(paint)).layers[0]!.decomposition!.char!.absorption).toBe(
      paint.decomposition!.char!.absorption.value,
    );
  });
});
