import { describe, expect, it } from "vitest";
import { centralSample, layerKind, layerKinds, metal, metals, sampleStacks, usualColour } from "#library";
import { quantile } from "#numerics";
import type { Property, Stack, StackLayer } from "#terms";

const layer = (id: string): StackLayer => {
  const kind = layerKind(id);
  return { kind, colour: usualColour(kind), thickness: kind.usualThickness, mustStay: false };
};
const hatch: Stack = {
  layers: [layer("polyurethane-topcoat"), layer("epoxy-primer")],
  metal: metal("aluminium-5083"),
  metalThickness: 4e-3,
};
const bracket: Stack = { layers: [layer("red-rust")], metal: metal("steel-low-carbon"), metalThickness: 6e-3 };
const alone = (stack: Stack) => [{ stack, weight: 1, assumption: "" }];

describe("sampleStacks", () => {
  const draws = sampleStacks(alone(hatch), 2000, 11);

  it("meets the 5 %, 50 % and 95 % points of the library", () => {
    const top = hatch.layers[0]!.kind;
    const cases: [Property, (d: (typeof draws)[number]) => number][] = [
      [top.usualThickness, (d) => d.layers[0]!.thickness],
      [top.optics.mid!.absorption, (d) => d.layers[0]!.absorption],
      [top.optics.mid!.scattering, (d) => d.layers[0]!.scattering],
      [top.interfaceTemperature, (d) => d.layers[0]!.interfaceTemperature],
      [top.interfaceActivationEnergy, (d) => d.layers[0]!.interfaceActivationEnergy],
      [top.adhesionStrength, (d) => d.layers[0]!.adhesionStrength],
      [top.decomposition!.charFraction, (d) => d.layers[0]!.decomposition!.charFraction],
      [hatch.layers[1]!.kind.adhesionStrength, (d) => d.layers[1]!.adhesionStrength],
      [hatch.metal.absorptance, (d) => d.metal.absorptance],
      [hatch.metal.meltingTemperature, (d) => d.metal.meltingTemperature],
    ];
    for (const [p, read] of cases) {
      const values = draws.map(read);
      const halfWidth = (p.high - p.low) / 2;
      // 2000 scrambled points: a quantile sits within a few thousandths of its share
      expect(Math.abs(quantile(values, 0.05) - p.low)).toBeLessThan(0.03 * halfWidth);
      expect(Math.abs(quantile(values, 0.5) - p.value)).toBeLessThan(0.02 * halfWidth);
      expect(Math.abs(quantile(values, 0.95) - p.high)).toBeLessThan(0.05 * halfWidth);
    }
  });

  it("draws properties independently of each other", () => {
    const rank = (read: (d: (typeof draws)[number]) => number) => {
      const values = draws.map((d) => Math.log(read(d)));
      const mean = values.reduce((a, b) => a + b, 0) / values.length;
      return values.map((v) => v - mean);
    };
    const columns = [
      rank((d) => d.layers[0]!.absorption),
      rank((d) => d.layers[0]!.scattering),
      rank((d) => d.layers[0]!.adhesionStrength),
      rank((d) => d.layers[1]!.absorption),
      rank((d) => d.metal.absorptance),
      rank((d) => d.spotFactor),
    ];
    const dot = (a: number[], b: number[]) => a.reduce((s, x, i) => s + x * b[i]!, 0);
    for (let i = 0; i < columns.length; i += 1) {
      for (let j = 0; j < i; j += 1) {
        const a = columns[i]!;
        const b = columns[j]!;
        expect(Math.abs(dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b)))).toBeLessThan(0.08);
      }
    }
  });

  it("scales a temperature table by one factor per draw", () => {
    const central = centralSample(hatch).metal;
    const factors = draws.slice(0, 50).map((d) => {
      const ratios = Array.from(d.metal.conductivity, (k, i) => k / central.conductivity[i]!);
      for (const r of ratios) expect(r).toBeCloseTo(ratios[0]!, 12);
      return ratios[0]!;
    });
    expect(new Set(factors).size).toBe(50);
    const spread = draws.map((d) => d.metal.conductivity[0]! / central.conductivity[0]!);
    expect(quantile(spread, 0.95)).toBeCloseTo(1 + hatch.metal.conductivity.relativeSpread, 2);
  });

  it("gives the same draws for one seed, others for another, and keeps them when more are asked for", () => {
    expect(sampleStacks(alone(hatch), 64, 11)).toEqual(sampleStacks(alone(hatch), 64, 11));
    expect(sampleStacks(alone(hatch), 257, 11).slice(0, 64)).toEqual(sampleStacks(alone(hatch), 64, 11));
    expect(sampleStacks(alone(hatch), 4, 12)[0]!.metal.absorptance).not.toBe(draws[0]!.metal.absorptance);
  });

  it("spreads spot by 5 % and power by 3 %", () => {
    const spot = draws.map((d) => d.spotFactor);
    const power = draws.map((d) => d.powerFactor);
    expect(quantile(spot, 0.95)).toBeCloseTo(1.05, 2);
    expect(quantile(spot, 0.05)).toBeCloseTo(1 / 1.05, 2);
    expect(quantile(power, 0.95)).toBeCloseTo(1.03, 2);
  });

  it("shares draws among the stacks of a mixture, at least one each", () => {
    const mixture = [
      { stack: hatch, weight: 0.7, assumption: "a" },
      { stack: bracket, weight: 0.29, assumption: "b" },
      { stack: { ...bracket, layers: [] }, weight: 0.01, assumption: "c" },
    ];
    const count = (n: number) => {
      const drawn = sampleStacks(mixture, n, 1);
      expect(drawn.length).toBe(n);
      return [0, 1, 2].map((i) => drawn.filter((d) => d.stackIndex === i).length);
    };
    expect(count(100)).toEqual([70, 29, 1]);
    expect(count(10)).toEqual([6, 3, 1]);
    expect(count(3)).toEqual([1, 1, 1]);
    expect(count(2)).toEqual([1, 1, 0]);
    expect(count(1000)).toEqual([700, 290, 10]);
  });

  it("keeps every draw of every kind on every metal physical", () => {
    for (const kind of layerKinds) {
      const stack: Stack = {
        layers: [layer(kind.id)],
        metal: metals[layerKinds.indexOf(kind) % metals.length]!,
        metalThickness: 2e-3,
      };
      for (const d of sampleStacks(alone(stack), 200, 5)) {
        const { metal: m } = d;
        const l = d.layers[0]!;
        expect(m.meltingTemperature).toBeLessThan(m.boilingTemperature);
        if (m.serviceTemperature !== null) expect(m.serviceTemperature).toBeLessThanOrEqual(m.meltingTemperature);
        for (const share of [m.absorptance, l.externalReflectance, l.internalReflectance]) {
          expect(share).toBeGreaterThan(0);
          expect(share).toBeLessThan(1);
        }
        expect(l.incubation).toBeLessThanOrEqual(1);
        expect(l.poissonRatio).toBeLessThan(0.5);
        const numbers = [...Object.values(m), ...Object.values(l), ...Object.values(l.decomposition ?? {})].filter(
          (x) => typeof x === "number",
        );
        expect(numbers.every((x) => Number.isFinite(x) && x >= 0)).toBe(true);
      }
    }
  });

  it("reaches beyond the dimensions of the even sequence", () => {
    const deep: Stack = { ...hatch, layers: Array.from({ length: 8 }, () => layer("alkyd")) };
    const drawn = sampleStacks(alone(deep), 50, 3);
    expect(new Set(drawn.map((d) => d.layers[7]!.adhesionStrength)).size).toBe(50);
    expect(sampleStacks(alone(deep), 80, 3).slice(0, 50)).toEqual(drawn);
  });

  it("refuses in one line", () => {
    expect(() => sampleStacks([], 8, 1)).toThrow("invalid mixture: empty (must hold at least one stack)");
    expect(() => sampleStacks(alone(hatch), 0, 1)).toThrow(
      "invalid drawCount: 0 (must be a whole number, 1 to 1000000)",
    );
    expect(() => sampleStacks(alone(hatch), 8, 0.5)).toThrow("invalid seed: 0.5 (must be a whole number)");
    const clear = { ...hatch, layers: [{ ...layer("red-rust"), colour: "white" as const }] };
    expect(() => sampleStacks(alone(clear), 8, 1)).toThrow("invalid colour of red-rust: white (one of: natural)");
  });
});

describe("centralSample", () => {
  it("is the stack at its medians", () => {
    const central = centralSample(bracket);
    const kind = layerKind("red-rust");
    expect(central.layers[0]!.adhesionStrength).toBe(kind.adhesionStrength.value);
    expect(central.layers[0]!.absorption).toBe(kind.optics.natural!.absorption.value);
    expect(central.layers[0]!.pitDepthRatio).toBe(kind.pits!.depthRatio.value);
    expect(central.metal.meltingTemperature).toBe(bracket.metal.meltingTemperature.value);
    expect(central.metal.thickness).toBe(6e-3);
    expect([central.spotFactor, central.powerFactor]).toEqual([1, 1]);
    const at = Array.from(central.metal.temperature).indexOf(1073);
    expect(central.metal.heatCapacity[at]).toBeCloseTo(803, 9);
  });
});
