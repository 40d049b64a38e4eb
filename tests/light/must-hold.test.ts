import { describe, expect, it } from "vitest";
import { centralSample, layerKinds, metals, sampleStacks, usualColour } from "#library";
import {
  bareAbsorptance,
  depositLight,
  endlessReflectance,
  kubelkaMunk,
  lightStack,
  type LightStack,
  reflectanceOver,
  skinDepth,
} from "#light";
import { createRandom } from "#numerics";
import type { Stack } from "#terms";

const CELLS = 24;
function share(stack: LightStack) {
  const total = stack.layers.reduce((sum, l) => sum + l.thickness, 0);
  const edges = Float64Array.from({ length: CELLS + 1 }, (_, i) => (i === CELLS ? total : (total * i) / CELLS));
  const out = new Float64Array(CELLS);
  const { reflected, metalAbsorbed } = depositLight(stack, edges, out);
  return { reflected, metalAbsorbed, layers: out.reduce((a, b) => a + b, 0), out };
}

describe("R + T + A = 1", () => {
  it("over 200 seeded stacks of one to four library layers on every metal, at drawn optics", () => {
    const random = createRandom(20261125);
    for (let i = 0; i < 200; i++) {
      const stack: Stack = {
        metal: metals[i % metals.length]!,
        metalThickness: 3e-3,
        layers: Array.from({ length: 1 + random.integer(4) }, () => {
          const kind = layerKinds[random.integer(layerKinds.length)]!;
          return { kind, colour: usualColour(kind), thickness: kind.usualThickness, mustStay: false };
        }),
      };
      const [draw] = sampleStacks([{ stack, weight: 1, assumption: "" }], 1, i);
      const light = lightStack(draw!);
      const { reflected, metalAbsorbed, layers, out } = share(light);
      expect(Math.abs(reflected + metalAbsorbed + layers - 1), String(i)).toBeLessThan(1e-12);
      for (const v of [reflected, metalAbsorbed, ...out]) expect(v).toBeGreaterThanOrEqual(0);
      // a mirror takes nothing, whatever lies on it; and what it takes grows with what it may take
      expect(share({ ...light, metalAbsorptance: 0 }).metalAbsorbed).toBe(0);
      const more = share({ ...light, metalAbsorptance: Math.min(1, 1.2 * light.metalAbsorptance) });
      expect(more.metalAbsorbed).toBeGreaterThanOrEqual(metalAbsorbed);
      expect(more.reflected).toBeLessThanOrEqual(reflected + 1e-12);
    }
  });

  it("in a layer that absorbs nothing all light is reflected or taken by the metal", () => {
    const stack = centralSample({ metal: metals[0]!, metalThickness: 1e-3, layers: [] });
    const clear = lightStack({
      metal: stack.metal,
      layers: [
        { absorption: 0, scattering: 5e4, thickness: 60e-6, externalReflectance: 0.04, internalReflectance: 0.55 },
      ],
    } as never);
    const { reflected, metalAbsorbed, layers } = share(clear);
    expect(layers).toBeLessThan(1e-12);
    expect(reflected + metalAbsorbed).toBeCloseTo(1, 12);
  });
});

describe("the two exact limits", () => {
  it("Beer-Lambert at several optical depths: S = 0, no surfaces, black behind", () => {
    for (const depth of [0.01, 1, 5, 20]) {
      const K = 1e5;
      const { reflected, metalAbsorbed, out } = share({
        layers: [{ thickness: depth / K, absorption: K, scattering: 0 }],
        metalAbsorptance: 1,
        externalReflectance: 0,
        internalReflectance: 0,
      });
      expect(reflected).toBe(0);
      expect(metalAbsorbed / Math.exp(-depth)).toBeCloseTo(1, 10);
      expect(out[0]! / -Math.expm1(-depth / CELLS)).toBeCloseTo(1, 10);
    }
  });

  it("clear film on metal without interference, for every tabulated metal: 0.05 of aluminium stays near 0.05, never 0.112", () => {
    for (const A of [0.027, 0.05, 0.374, 0.86]) {
      const film = (internalReflectance: number) =>
        share({
          layers: [{ thickness: 30e-6, absorption: 0, scattering: 0 }],
          metalAbsorptance: A,
          externalReflectance: 0.04,
          internalReflectance,
        }).metalAbsorbed;
      // (1 − r)·A/(1 − r·(1 − A)); the diffuse reflection inside has no part in it
      expect(film(0.55)).toBeCloseTo((0.96 * A) / (1 - 0.04 * (1 - A)), 12);
      expect(film(0.55)).toBe(film(0));
    }
  });
});

describe("published Kubelka-Munk limits (Kubelka and Munk 1931; Kubelka 1948)", () => {
  const cases = [
    [1e3, 5e4],
    [2e4, 4e4],
    [1e5, 1e4],
  ] as const;

  it.each(cases)("K %d, S %d: K/S = (1 − R∞)²/(2R∞)", (K, S) => {
    const r = endlessReflectance(K, S);
    expect((1 - r) ** 2 / (2 * r) / (K / S)).toBeCloseTo(1, 12);
    for (const backing of [0, 0.5, 1]) expect(reflectanceOver(K, S, 1, backing)).toBeCloseTo(r, 12);
    // over a backing of R∞ no thickness can be told
    for (const d of [1e-6, 1e-5, 1e-4]) expect(reflectanceOver(K, S, d, r)).toBeCloseTo(r, 12);
  });

  it.each(cases)("K %d, S %d: dR/dd over a backing is S(1 + R²) − 2(K + S)R", (K, S) => {
    const d = 20e-6;
    const h = 1e-9;
    for (const backing of [0, 0.6]) {
      const R = reflectanceOver(K, S, d, backing);
      const slope = (reflectanceOver(K, S, d + h, backing) - reflectanceOver(K, S, d - h, backing)) / (2 * h);
      expect(Math.abs(slope - (S * (1 + R * R) - 2 * (K + S) * R))).toBeLessThan(1e-5 * S);
    }
  });

  it.each(cases)("K %d, S %d: two layers add up: T = T₁T₂/(1 − R₁R₂)", (K, S) => {
    const [a, b, both] = [kubelkaMunk(K, S, 8e-6), kubelkaMunk(K, S, 21e-6), kubelkaMunk(K, S, 29e-6)];
    expect(both.transmittance).toBeCloseTo(
      (a.transmittance * b.transmittance) / (1 - a.reflectance * b.reflectance),
      12,
    );
    expect(both.reflectance).toBeCloseTo(reflectanceOver(K, S, 8e-6, b.reflectance), 12);
  });
});

describe("optical constants at 1.064 µm", () => {
  // n, k, absorptance and 1/e depth as printed; Johnson and Christy 1974 and 1972, Rakić 1995, Werner et al. 2009,
  // Hagemann et al. 1975, Querry 1985. Half a unit of the last printed digit.
  it.each([
    ["Fe", 2.958, 3.998, "0.374", "21"],
    ["Al", 1.376, 10.25, "0.050", "8.3"],
    ["Cu", 0.351, 7.033, "0.027", "12"],
    ["Ti", 3.465, 4.008, "0.385", "21"],
    ["Ni", 2.611, 5.842, "0.221", "14.5"],
    ["Zn", 2.8, 9.08, "0.116", "9.3"],
    ["Mg", 2.06, 10.7, "0.067", "8"],
    ["magnetite", 2.111, 0.37, "0.860", "229"],
  ])("%s prints as tabulated", (_name, n, k, absorptance, depth) => {
    const digits = (text: string) => (text.split(".")[1] ?? "").length;
    expect(bareAbsorptance(n, k).toFixed(digits(absorptance))).toBe(absorptance);
    expect((skinDepth(1.064e-6, k) * 1e9).toFixed(digits(depth))).toBe(depth);
  });
});
