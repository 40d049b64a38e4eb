import { createLightWorkspace, depositLight, kubelkaMunk, type LightStack, type OpticalLayer } from "#light";
import { InvalidInput } from "#units";
import fc from "fast-check";
import { describe, expect, it } from "vitest";

const sum = (values: Float64Array): number => values.reduce((a, b) => a + b, 0);
const thickness = (layers: readonly OpticalLayer[]): number => layers.reduce((a, layer) => a + layer.thickness, 0);
const evenEdges = (total: number, cells: number): Float64Array =>
  Float64Array.from({ length: cells + 1 }, (_, i) => (i === cells ? total : (total * i) / cells));
const noSurface = { externalReflectance: 0, internalReflectance: 0 };
const paint = { externalReflectance: 0.04, internalReflectance: 0.55 };

function solve(stack: LightStack, cells = 40) {
  const out = new Float64Array(cells);
  const balance = depositLight(stack, evenEdges(thickness(stack.layers), cells), out);
  return { ...balance, out, layers: sum(out) };
}
const white = (d: number, metalAbsorptance = 0.1): LightStack => ({
  layers: [{ thickness: d, absorption: 2e3, scattering: 4e4 }],
  metalAbsorptance,
  ...paint,
});

describe("exact limits", () => {
  it("is Beer-Lambert without scattering and surfaces over black", () => {
    const K = 1e5;
    const d = 30e-6;
    const { out, metalAbsorbed, reflected } = solve({
      layers: [{ thickness: d, absorption: K, scattering: 0 }],
      metalAbsorptance: 1,
      ...noSurface,
    });
    for (let i = 0; i < out.length; i++) {
      const exact = Math.exp((-K * d * i) / 40) - Math.exp((-K * d * (i + 1)) / 40);
      expect(out[i]).toBeCloseTo(exact, 14);
    }
    expect(metalAbsorbed).toBeCloseTo(Math.exp(-3), 14);
    expect(reflected).toBe(0);
  });

  it("is the incoherent film formula for a clear film on metal: (1 − r)·A·T/(1 − r·R·T²)", () => {
    const clear = (K: number) =>
      solve({ layers: [{ thickness: 50e-6, absorption: K, scattering: 0 }], metalAbsorptance: 0.05, ...paint });
    const T = Math.exp(-1e3 * 50e-6);
    expect(clear(1e3).metalAbsorbed).toBeCloseTo((0.96 * 0.05 * T) / (1 - 0.04 * 0.95 * T * T), 14);
    // With the diffuse reflection left on for collimated light this would be 0.112.
    expect(clear(0).metalAbsorbed).toBeCloseTo(0.0499, 4);
  });

  it("is the metal alone without layers", () => {
    const bare = { layers: [], metalAbsorptance: 0.374, ...paint };
    expect(depositLight(bare, new Float64Array(1), new Float64Array(0))).toEqual({
      reflected: 1 - 0.374,
      metalAbsorbed: 0.374,
    });
    const gone = { ...bare, layers: [{ thickness: 0, absorption: 1e4, scattering: 1e4 }] };
    expect(depositLight(gone, new Float64Array(1), new Float64Array(0)).metalAbsorbed).toBe(0.374);
  });

  it("agrees with a direct integration of the four fluxes", () => {
    // Finite differences by relaxation in the test's own words: march both streams until nothing changes.
    const K = 3e4;
    const S = 5e4;
    const d = 40e-6;
    const n = 4000;
    const h = d / n;
    const e = K + (4 / 3) * S;
    const beamTop = (1 - 0.04) / (1 - 0.04 * 0.7 * Math.exp(-2 * e * d));
    const cDown = (z: number) => beamTop * Math.exp(-e * z);
    const cUp = (z: number) => 0.7 * cDown(d) * Math.exp(-e * (d - z));
    const down = new Float64Array(n + 1);
    const up = new Float64Array(n + 1);
    const step = (self: number, other: number, source: number) =>
      (self * (1 - ((K + S) * h) / 2) + h * (S * other + source)) / (1 + ((K + S) * h) / 2);
    for (let round = 0; round < 200; round++) {
      down[0] = 0.55 * up[0]!;
      for (let i = 0; i < n; i++)
        down[i + 1] = step(
          down[i]!,
          (up[i]! + up[i + 1]!) / 2,
          ((2 / 3) * S * (cDown(h * i) + cDown(h * (i + 1)) + cUp(h * i) + cUp(h * (i + 1)))) / 2,
        );
      up[n] = 0.7 * down[n]!;
      for (let i = n; i > 0; i--)
        up[i - 1] = step(
          up[i]!,
          (down[i]! + down[i - 1]!) / 2,
          ((2 / 3) * S * (cDown(h * i) + cDown(h * (i - 1)) + cUp(h * i) + cUp(h * (i - 1)))) / 2,
        );
    }
    const { metalAbsorbed, reflected } = solve({
      layers: [{ thickness: d, absorption: K, scattering: S }],
      metalAbsorptance: 0.3,
      ...paint,
    });
    expect(metalAbsorbed).toBeCloseTo(0.3 * (down[n]! + cDown(d)), 6);
    expect(reflected).toBeCloseTo(0.04 + 0.96 * cUp(0) + 0.45 * up[0]!, 6);
  });

  it("treats an interface as a mirror of both kinds of light: a metallic layer under a clear coat", () => {
    const { metalAbsorbed, reflected, out } = solve({
      layers: [
        { thickness: 20e-6, absorption: 0, scattering: 0 },
        { thickness: 20e-6, absorption: 1e8, scattering: 0, frontReflectance: 0.8 },
      ],
      metalAbsorptance: 0.3,
      ...paint,
    });
    expect(reflected).toBeCloseTo(0.04 + (0.96 * 0.96 * 0.8) / (1 - 0.04 * 0.8), 14);
    expect(metalAbsorbed).toBe(0);
    expect(out[20]).toBeCloseTo(1 - reflected, 14);
  });
});

describe("energy", () => {
  const layer = fc.record({
    thickness: fc.double({ min: 1e-7, max: 2e-4, noNaN: true }),
    absorption: fc.double({ min: 0, max: 2.5e5, noNaN: true }),
    scattering: fc.double({ min: 0, max: 5e5, noNaN: true }),
    frontReflectance: fc.double({ min: 0, max: 0.95, noNaN: true }),
  });
  const share = fc.double({ min: 0.01, max: 0.9, noNaN: true });

  it("adds up to 1 on any stack, whatever the cells", () => {
    fc.assert(
      fc.property(
        fc.array(layer, { minLength: 1, maxLength: 4 }),
        share,
        share,
        share,
        fc.integer({ min: 1, max: 60 }),
        (layers, metalAbsorptance, externalReflectance, internalReflectance, cells) => {
          const stack = { layers, metalAbsorptance, externalReflectance, internalReflectance };
          const { reflected, metalAbsorbed, out } = solve(stack, cells);
          expect(Math.abs(reflected + metalAbsorbed + sum(out) - 1)).toBeLessThan(1e-12);
          for (const value of [reflected, metalAbsorbed, ...out]) expect(value).toBeGreaterThanOrEqual(0);
          const coarse = solve(stack, 1);
          expect(coarse.reflected).toBeCloseTo(reflected, 10);
          expect(coarse.metalAbsorbed).toBeCloseTo(metalAbsorbed, 10);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("leaves no less than nothing for the metal behind a black layer", () => {
    const layers = [
      { thickness: 0.00014971979100094837, absorption: 249999.99999999968, scattering: 5e-324 },
      { thickness: 1e-7, absorption: 0, scattering: 0 },
    ];
    const stack = { layers, metalAbsorptance: 0.01, externalReflectance: 0.01, internalReflectance: 0.01 };
    expect(solve(stack, 1).metalAbsorbed).toBeGreaterThanOrEqual(0);
  });

  it("does not overflow in thick dark or thick white layers", () => {
    for (const [K, S] of [
      [5e5, 0],
      [5e5, 1e6],
      [0, 1e6],
      [1e9, 1e3],
    ] as const) {
      const { reflected, metalAbsorbed, layers } = solve(
        { layers: [{ thickness: 1e-4, absorption: K, scattering: S }], metalAbsorptance: 0.3, ...paint },
        100,
      );
      expect(reflected + metalAbsorbed + layers).toBeCloseTo(1, 12);
    }
  });
});

describe("what it says of paint", () => {
  it("lets less light to the metal the thicker the white layer, at any thickness where no light is trapped", () => {
    const thicknesses = [1, 5, 10, 25, 50, 100, 200, 400].map((um) => um * 1e-6);
    const open = thicknesses.map((d) => solve({ ...white(d), internalReflectance: 0 }).metalAbsorbed);
    const trapped = thicknesses.map((d) => solve(white(d)).metalAbsorbed);
    for (let i = 1; i < thicknesses.length; i++) expect(open[i]).toBeLessThan(open[i - 1]!);
    for (let i = 4; i < thicknesses.length; i++) expect(trapped[i]).toBeLessThan(trapped[i - 1]!);
    // A very thin white film holds light that has been to the metal already: more than the bare metal would take.
    expect(trapped[2]).toBeGreaterThan(0.1);
  });

  it("gives metal under a thin white layer 0.15 to 0.4 of the light, and under a dark one a few per cent (physics note §2)", () => {
    for (const { metalAbsorbed } of [solve(white(25e-6, 0.1)), solve(white(50e-6, 0.374))]) {
      expect(metalAbsorbed).toBeGreaterThan(0.15);
      expect(metalAbsorbed).toBeLessThan(0.4);
    }
    const dark = solve({
      layers: [{ thickness: 50e-6, absorption: 8e4, scattering: 5e3 }],
      metalAbsorptance: 0.374,
      ...paint,
    });
    expect(dark.metalAbsorbed).toBeLessThan(0.05);
    expect(dark.layers).toBeGreaterThan(0.85);
  });

  it("ends at the reflectance of an endless layer without surfaces, near that of diffuse light", () => {
    const { reflected } = solve({
      layers: [{ thickness: 1e-2, absorption: 2e3, scattering: 4e4 }],
      metalAbsorptance: 0.1,
      ...noSurface,
    });
    const diffuse = kubelkaMunk(2e3, 4e4, 1e-2).reflectance;
    // Exact for these coefficients: p·R∞ − q.
    expect(reflected).toBeCloseTo(((6 * 2 + 10 * 40) / (3 * 2 + 8 * 40)) * diffuse - (2 * 40) / (3 * 2 + 8 * 40), 12);
    expect(Math.abs(reflected - diffuse)).toBeLessThan(0.07);
  });
});

describe("cells and refusals", () => {
  it("cuts cells at layer boundaries and reuses a workspace", () => {
    const layers = [
      { thickness: 10e-6, absorption: 5e4, scattering: 1e4 },
      { thickness: 20e-6, absorption: 1e3, scattering: 6e4 },
    ];
    const stack = { layers, metalAbsorptance: 0.3, ...paint };
    const workspace = createLightWorkspace(64, 4);
    const crossing = new Float64Array(2);
    depositLight(stack, Float64Array.of(0, 13e-6, 30e-6), crossing, workspace);
    const fine = new Float64Array(4);
    depositLight(stack, Float64Array.of(0, 4e-6, 10e-6, 13e-6, 30e-6), fine, workspace);
    expect(crossing[0]).toBeCloseTo(fine[0]! + fine[1]! + fine[2]!, 14);
    expect(crossing[1]).toBeCloseTo(fine[3]!, 14);
  });

  it("refuses what has no meaning", () => {
    const stack = white(10e-6);
    const out = new Float64Array(4);
    expect(() => depositLight(stack, evenEdges(11e-6, 4), out)).toThrow(InvalidInput);
    expect(() => depositLight(stack, Float64Array.of(0, 6e-6, 5e-6, 10e-6), out)).toThrow("not above the one before");
    expect(() => depositLight({ ...stack, metalAbsorptance: Number.NaN }, evenEdges(10e-6, 4), out)).toThrow(
      InvalidInput,
    );
    expect(() => depositLight({ ...stack, internalReflectance: 1 }, evenEdges(10e-6, 4), out)).toThrow(InvalidInput);
    expect(() =>
      depositLight(
        { ...stack, layers: [{ thickness: 10e-6, absorption: -1, scattering: 0 }] },
        evenEdges(10e-6, 4),
        out,
      ),
    ).toThrow("invalid layer absorption: -1 1/m");
  });
});
