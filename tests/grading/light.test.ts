import { describe, expect, it } from "vitest";
import { createRandom } from "#numerics";
import {
  calibrateLight,
  colourDifference,
  decodeCode,
  encodeLinear,
  type GreySample,
  labFromLinear,
  labFromXyz,
  type LayerSample,
  linearFromXyz,
  toneUndoer,
  undoTone,
  xyzFromLab,
  xyzFromLinear,
} from "#grading";
import { type Camera, centres, drawCamera, greySamples, layerSamples, shoot } from "./simulated/camera.ts";

const coats = [
  [0.78, 0.75, 0.68],
  [0.03, 0.035, 0.04],
  [0.08, 0.16, 0.11],
  [0.3, 0.05, 0.03],
] as const;
type Triple = [number, number, number];

interface Shot {
  readonly camera: Camera;
  readonly greys: GreySample[];
  readonly layer: LayerSample[];
}

/** Errors in L* and ΔE00 of metal-like faces at every patch of a shot. */
function errors({ camera, greys, layer }: Shot, seed: number) {
  const random = createRandom(seed);
  const light = calibrateLight({ greys, layer, greysMeasured: true, space: camera.space });
  return centres.map(({ x, y }) => {
    const grey = 0.12 + 0.45 * random.next();
    const truth = [grey * (1 + 0.1 * random.next()), grey, grey * (1 - 0.1 * random.next())];
    const read = light.reflectance(shoot(camera, truth, x, y) as unknown as Triple, x, y);
    const [a, b] = [labFromLinear(read), labFromLinear(truth)];
    const own = light.uncertainty(shoot(camera, truth, x, y) as unknown as Triple, x, y);
    return { L: a.L - b.L, dE: colourDifference(a, b), stated: ((a.L + 16) / 3) * own };
  });
}

const shots = (count: number, make: (random: ReturnType<typeof createRandom>, i: number) => Shot) =>
  Array.from({ length: count }, (_, i) => errors(make(createRandom(500 + i), i), 900 + i)).flat();
const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;

describe("light of a photograph", () => {
  it("gives L* to 0.4 and ΔE00 to 0.6 over cameras of another tone, lamps of another form and coats of all kinds", () => {
    const found = shots(40, (random, i) => {
      const camera = drawCamera(random);
      return { camera, greys: greySamples(camera, random), layer: layerSamples(camera, coats[i % 4]!, random) };
    });
    expect(mean(found.map((e) => Math.abs(e.L)))).toBeLessThan(0.4);
    expect(mean(found.map((e) => e.dE))).toBeLessThan(0.6);
    const covered = mean(found.map((e) => (Math.abs(e.L) <= 1.645 * e.stated ? 1 : 0)));
    expect(covered).toBeGreaterThan(0.86);
    expect(mean(found.map((e) => e.stated))).toBeLessThan(0.6);
  });

  it("is nearly exact when greys are exact, so that the rest above is the card's", () => {
    const found = shots(8, (random, i) => {
      const camera = drawCamera(random);
      return { camera, greys: greySamples(camera, random, 0), layer: layerSamples(camera, coats[i % 4]!, random) };
    });
    expect(mean(found.map((e) => Math.abs(e.L)))).toBeLessThan(0.2);
  });

  it("needs the layer: greys alone leave the light across the plate open", () => {
    const make = (withLayer: boolean) =>
      shots(8, (random, i) => {
        const camera = drawCamera(random);
        const layer = layerSamples(camera, coats[i % 4]!, random);
        return { camera, greys: greySamples(camera, random), layer: withLayer ? layer : [] };
      });
    const [both, alone] = [make(true), make(false)].map((found) => mean(found.map((e) => Math.abs(e.L))));
    expect(alone!).toBeGreaterThan(1.5 * both!);
  });

  it("is not led astray by glare on a third of the layer, dark or white", () => {
    const found = shots(16, (random, i) => {
      const camera = drawCamera(random);
      const glare = (x: number, y: number) => 0.15 * Math.exp(-((x - 0.16) ** 2 + (y - 0.04) ** 2) / 0.03 ** 2);
      return { camera, greys: greySamples(camera, random), layer: layerSamples(camera, coats[i % 4]!, random, glare) };
    });
    expect(mean(found.map((e) => Math.abs(e.L)))).toBeLessThan(0.6);
  });

  it("is not bent by glare that lies on nearly all of a dark layer", () => {
    const found = shots(12, (random) => {
      const camera = drawCamera(random);
      // widest in the middle, as bright as the layer half way to its edges
      const glare = (x: number, y: number) => 0.12 * (1 + ((x - 0.1) ** 2 + (y - 0.07) ** 2) / 0.05 ** 2) ** -2;
      return { camera, greys: greySamples(camera, random), layer: layerSamples(camera, coats[1]!, random, glare) };
    });
    expect(mean(found.map((e) => Math.abs(e.L)))).toBeLessThan(1);
  });

  it("says where the layer is darker or brighter than elsewhere, and how badly the card fits", () => {
    const random = createRandom(5);
    const camera = drawCamera(random, 0.2);
    const shade = (x: number, y: number) => (x > 0.15 && y > 0.1 ? 0.8 : 1);
    const glare = (x: number, y: number) => (x < 0.03 && y < 0.03 ? 0.05 : 0);
    const greys = greySamples(camera, random);
    const layer = layerSamples(camera, coats[2], random, glare, shade);
    const light = calibrateLight({ greys, layer, greysMeasured: true, space: camera.space });
    expect(light.ringResidual.get(48)).toBeLessThan(-0.1);
    expect(light.ringResidual.get(1)).toBeGreaterThan(0.1);
    expect(Math.abs(light.ringResidual.get(20)!)).toBeLessThan(0.05);
    expect(light.cardResidual).toBeLessThan(0.06);
    const lying = greys.map((g, i) => ({ ...g, lightness: i % 2 ? g.lightness + 6 : g.lightness - 6 }));
    const bad = calibrateLight({ greys: lying, layer, greysMeasured: true, space: camera.space });
    expect(bad.cardResidual).toBeGreaterThan(0.12);
  });

  it("gives a whole view the same light as a single sample, within a thousandth", () => {
    const random = createRandom(8);
    for (const space of ["srgb", "display-p3"] as const) {
      const camera = { ...drawCamera(random, 0.3), space };
      const light = calibrateLight({
        greys: greySamples(camera, random),
        layer: layerSamples(camera, coats[1], random),
        greysMeasured: false,
        space,
      });
      expect(light.absolute).toBe(false);
      const rgb = [0.3, 0.2, 0.1] as const;
      const view = { width: 1, height: 1, rgb: Float32Array.from(rgb), pixelsPerMm: 5, margin: 0, blur: 0.1 };
      const [whole, single] = [light.calibrate(view, 0.05, 0.06).rgb, light.reflectance(rgb, 0.05, 0.06)];
      for (let c = 0; c < 3; c += 1) expect(Math.abs(whole[c]! / single[c]! - 1)).toBeLessThan(1e-3);
    }
  });

  it("refuses too few greys and light that is no number", () => {
    const random = createRandom(5);
    const camera = drawCamera(random);
    const samples = { layer: [], greysMeasured: true, space: camera.space };
    const greys = greySamples(camera, random);
    expect(() => calibrateLight({ ...samples, greys: greys.slice(0, 4) })).toThrow("invalid grey steps: 4 (at least 5");
    const broken = greys.map((g) => ({ ...g, rgb: [Number.NaN, 0.1, 0.1] as Triple }));
    expect(() => calibrateLight({ ...samples, greys: broken })).toThrow("invalid light sample");
  });
});

describe("tone curve", () => {
  it("undoes its own S and power, and rises everywhere", () => {
    for (const strength of [-0.8, -0.2, 0, 0.3, 0.98])
      for (const shape of [0, 0.3, 0.8]) {
        const curve = { strength, shape, power: 1.1, veil: 0 };
        const undo = toneUndoer(curve);
        let last = -1;
        for (let t = 0.01; t <= 1; t += 0.01) {
          const q = t * (1 - t);
          const cubic = (1 - strength) * t + strength * t * t * (3 - 2 * t);
          const written = decodeCode(cubic - strength * shape * (1 - 2 * t) * q * (q / 0.1875 - 1));
          expect(undoTone(written, curve)).toBeCloseTo(decodeCode(t) ** 1.1, 8);
          if (written > 1e-3) expect(Math.abs(undo(written) / decodeCode(t) ** 1.1 - 1)).toBeLessThan(1e-3);
          expect(undo(written)).toBeGreaterThan(last);
          last = undo(written);
        }
      }
    const veiled = { strength: 0, shape: 0.25, power: 1, veil: 0.02 };
    expect(undoTone(0.32, veiled)).toBeCloseTo(0.3, 9);
    expect(undoTone(0.01, veiled)).toBe(1e-5);
    expect(() => undoTone(0.5, { ...veiled, strength: 1.2 })).toThrow("invalid tone strength: 1.2");
    expect(() => undoTone(0.5, { ...veiled, shape: 0.9 })).toThrow("invalid tone shape: 0.9");
  });

  it.each([
    ["sine", 0.41, (t: number) => t - (0.5 * Math.sin(2 * Math.PI * t)) / (2 * Math.PI)],
    ["logistic curve", 0.26, (t: number) => 0.5 + Math.tanh(4 * (t - 0.5) * 0.5) / Math.tanh(1) / 2],
  ] as const)("its shape takes the place of a %s to 0.003 of a code", (_, shape, other) => {
    // one strength by the light at a quarter of the codes, where all shapes of one strength meet
    const strength = (0.25 - other(0.25)) / (0.5 * 0.1875);
    const off = (by: number) =>
      Math.max(
        ...Array.from({ length: 99 }, (_, i) => {
          const written = decodeCode(other((i + 1) / 100));
          const light = undoTone(written, { strength, shape: by, power: 1, veil: 0 });
          return Math.abs(encodeLinear(light) - (i + 1) / 100);
        }),
      );
    expect(off(shape)).toBeLessThan(0.003);
    expect(off(0)).toBeGreaterThan(0.004);
  });
});

describe("colour spaces", () => {
  it("go there and back", () => {
    const random = createRandom(3);
    for (let i = 0; i < 200; i += 1) {
      const rgb = [random.next(), random.next(), random.next()] as const;
      for (const space of ["srgb", "display-p3"] as const) {
        const back = linearFromXyz(xyzFromLab(labFromXyz(xyzFromLinear(...rgb, space))), space);
        for (let c = 0; c < 3; c += 1) expect(back[c]).toBeCloseTo(rgb[c]!, 10);
      }
      expect(decodeCode(encodeLinear(rgb[0]))).toBeCloseTo(rgb[0], 12);
    }
  });

  // Published primaries: P3 red is x 0.680, y 0.320; green x 0.265, y 0.690; blue as sRGB x 0.150, y 0.060.
  it.each([
    [1, 0, 0, 0.68, 0.32],
    [0, 1, 0, 0.265, 0.69],
    [0, 0, 1, 0.15, 0.06],
    [1, 1, 1, 0.3127, 0.329],
  ])("Display P3 (%f, %f, %f) lies at x %f, y %f", (r, g, b, x, y) => {
    const c = xyzFromLinear(r, g, b, "display-p3");
    const sum = c.x + c.y + c.z;
    expect(c.x / sum).toBeCloseTo(x, 3);
    expect(c.y / sum).toBeCloseTo(y, 3);
  });

  it("Display P3 red is outside sRGB: above 1 in red, below 0 in green and blue", () => {
    const [r, g, b] = linearFromXyz(xyzFromLinear(1, 0, 0, "display-p3"), "srgb");
    expect(r).toBeCloseTo(1.2249, 3);
    expect(g).toBeCloseTo(-0.042, 3);
    expect(b).toBeCloseTo(-0.0196, 3);
  });
});
