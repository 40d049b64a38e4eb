import { bareAbsorptance, endlessReflectance, kubelkaMunk, lightStack, reflectanceOver, skinDepth } from "#light";
import type { StackSample } from "#terms";
import { InvalidInput } from "#units";
import { describe, expect, it } from "vitest";

/**
 * Tabulated n and k at 1.064 µm, absorptance and 1/e depth as printed with that many digits. Sources: Fe, Ti, Ni
 * Johnson & Christy, Phys. Rev. B 9 (1974) 5056; Al Rakic, Appl. Opt. 34 (1995) 4755; Cu Johnson & Christy, Phys. Rev. B 6
 * (1972) 4370; Zn Werner et al., J. Phys. Chem. Ref. Data 38 (2009) 1013; Mg Hagemann et al., J. Opt. Soc. Am. 65 (1975)
 * 742; hematite, magnetite Querry, CRDC-CR-85034 (1985).
 */
const table: [string, number, number, number, number, number, number][] = [
  ["Fe", 2.958, 3.998, 0.374, 3, 21, 0],
  ["Al", 1.376, 10.25, 0.05, 3, 8.3, 1],
  ["Cu", 0.351, 7.033, 0.027, 3, 12, 0],
  ["Ti", 3.465, 4.008, 0.385, 3, 21, 0],
  ["Ni", 2.611, 5.842, 0.221, 3, 14.5, 1],
  ["Zn", 2.8, 9.08, 0.116, 3, 9.3, 1],
  ["Mg", 2.06, 10.7, 0.067, 3, 8, 0],
  ["hematite", 2.754, 0.011, 0.78, 2, 7700, -2],
  ["magnetite", 2.111, 0.37, 0.86, 3, 229, 0],
];

describe("bare surfaces", () => {
  it.each(table)("%s", (_name, n, k, absorptance, digits, depth_nm, depthDigits) => {
    expect(Math.abs(bareAbsorptance(n, k) - absorptance)).toBeLessThanOrEqual(0.5 * 10 ** -digits);
    expect(Math.abs(skinDepth(1.064e-6, k) * 1e9 - depth_nm)).toBeLessThanOrEqual(0.5 * 10 ** -depthDigits);
  });

  it("refuses a negative index", () => {
    expect(() => bareAbsorptance(-1, 2)).toThrow(InvalidInput);
    expect(() => skinDepth(1e-6, 0)).toThrow("invalid extinction coefficient: 0");
  });
});

describe("Kubelka-Munk", () => {
  it("has the endless limit 1 + K/S − √((K/S)² + 2K/S)", () => {
    for (const ratio of [0.05, 0.5, 5]) {
      expect(endlessReflectance(ratio * 4e4, 4e4)).toBeCloseTo(1 + ratio - Math.sqrt(ratio * ratio + 2 * ratio), 12);
    }
    expect(endlessReflectance(0, 1e4)).toBe(1);
    expect(kubelkaMunk(2e4, 4e4, 1).reflectance).toBeCloseTo(endlessReflectance(2e4, 4e4), 12);
  });

  it("has the hyperbolic solution of a finite layer (Kubelka 1948)", () => {
    const [K, S, d, backing] = [2e4, 4e4, 30e-6, 0.6];
    const a = 1 + K / S;
    const b = Math.sqrt(a * a - 1);
    const coth = 1 / Math.tanh(b * S * d);
    expect(reflectanceOver(K, S, d, backing)).toBeCloseTo(
      (1 - backing * (a - b * coth)) / (a - backing + b * coth),
      12,
    );
    expect(kubelkaMunk(K, S, d).transmittance).toBeCloseTo(
      b / (a * Math.sinh(b * S * d) + b * Math.cosh(b * S * d)),
      12,
    );
  });

  it("has Sd/(1 + Sd) without absorption and e^(−Kd) without scattering", () => {
    expect(kubelkaMunk(0, 4e4, 50e-6).reflectance).toBeCloseTo(2 / 3, 12);
    expect(kubelkaMunk(0, 4e4, 50e-6).transmittance).toBeCloseTo(1 / 3, 12);
    expect(kubelkaMunk(1e4, 0, 50e-6).transmittance).toBeCloseTo(Math.exp(-0.5), 12);
    expect(kubelkaMunk(5e5, 0, 1).transmittance).toBe(0);
  });
});

it("reads a drawn stack: the top layer gives the surface, a buried metallic layer its own mirror", () => {
  const layer = {
    thickness: 1e-5,
    absorption: 1e4,
    scattering: 2e4,
    externalReflectance: 0.04,
    internalReflectance: 0.55,
  };
  const sample = {
    layers: [layer, { ...layer, externalReflectance: 0.88 }],
    metal: { absorptance: 0.3 },
  } as unknown as StackSample;
  const stack = lightStack(sample);
  expect(stack).toMatchObject({ metalAbsorptance: 0.3, externalReflectance: 0.04, internalReflectance: 0.55 });
  expect(stack.layers.map((l) => l.frontReflectance)).toEqual([0, 0.88]);
});
