import { beforeAll, describe, expect, it } from "vitest";
import { mean, quantile } from "#numerics";
import {
  calibrateLight,
  clippedShareOf,
  couponReferences,
  cutPatch,
  frameFor,
  greySampleOf,
  labFromLinear,
  layerSamplesOf,
  lightGates,
  type PatchReading,
  type PatchShot,
  type PlateMap,
  readPatch,
} from "#grading";
import { gridPatches } from "../photo/grid-patches.ts";
import { faceLength } from "../photo/patch-face.ts";
import { photograph } from "../photo/photograph.ts";
import { makePlate, type Plate } from "../photo/plate.ts";
import type { PlateSpec } from "../photo/plate-spec.ts";

/**
 * Readings of generated photographs with the true geometry: light, tone, metal, islands, glare and JPEG are another
 * hand's forms. Truth is taken where the reader looks: the patch less its rim of 1 mm.
 */
const frame = frameFor({ width: 100e-3, height: 70e-3 }, { coupon: 3 });
const patches = gridPatches(frame, 6, 4, 7e-3, 4e-3);

function truthOf(plate: Plate, index: number) {
  const p = patches[index]!;
  const face = new Float64Array(faceLength);
  const sum = [0, 0, 0];
  const n = 100;
  let covered = 0;
  for (let a = 0; a < n; a += 1)
    for (let b = 0; b < n; b += 1) {
      const at = (from: number, size: number, k: number) => from + 1e-3 + ((k + 0.5) / n) * (size - 2e-3);
      plate.paint(index, at(p.x, p.width, a), at(p.y, p.height, b), face);
      if (face[3]! > 0.5) covered += 1;
      for (let c = 0; c < 3; c += 1) sum[c]! += face[c]! / n ** 2;
    }
  return { share: covered / n ** 2, L: labFromLinear(sum).L };
}

interface Graded {
  readonly reading: PatchReading;
  readonly share: number;
  readonly L: number;
  readonly role: string;
  readonly gates: number;
}

async function grade(seed: number, turns: readonly (0 | 1 | 2 | 3)[], glare: boolean, more: Partial<PlateSpec> = {}) {
  const plate = makePlate({ seed, frame, patches, ...more });
  const photos = await Promise.all(
    turns.map(async (turn) => {
      const { photo, truth } = await photograph(plate, { seed, turn, width: 1300, height: 975, glare });
      const map: PlateMap = { toPixel: (x, y) => truth.toPixel(x, y), toPlate: () => ({ x: 0, y: 0 }) };
      const edgeWidth = (2.5631e-3 * truth.drawn.blur) / truth.scale;
      const cut = (place: { x: number; y: number; width: number; height: number }, margin: number) =>
        cutPatch(photo, map, place, { pixelsPerMm: truth.scale, margin, edgeWidth });
      const views = patches.map((p) => cut(p, 1.8e-3));
      const light = calibrateLight({
        greys: frame.greys.map((step) => greySampleOf(step, cut(step, 0))),
        layer: patches.flatMap((p, i) => layerSamplesOf(p, views[i]!)),
        greysMeasured: true,
        space: photo.space,
      });
      return { turn, views, light };
    }),
  );
  const shots = patches.map((p, i) =>
    photos.map(({ turn, views, light }): PatchShot => {
      const [x, y] = [p.x + p.width / 2, p.y + p.height / 2];
      const view = light.calibrate(views[i]!, x, y);
      const grey = [0.2, 0.2, 0.2] as const;
      return {
        photo: `turn ${turn}`,
        view,
        clippedShare: clippedShareOf(views[i]!),
        ringResidual: light.ringResidual.get(p.patch) ?? null,
        lightUncertainty: light.uncertainty(grey, x, y),
      };
    }),
  );
  const of = (role: string) => shots.filter((_, i) => patches[i]!.role === role);
  const lights = photos.map(({ light }) => light);
  const references = couponReferences({ bare: of("cleaned-reference"), coat: of("untouched"), lights });
  return patches.map((p, i): Graded => {
    const gates = lights.flatMap(lightGates).length;
    return { reading: readPatch(p.patch, shots[i]!, references), ...truthOf(plate, i), role: p.role, gates };
  });
}

const lightness = (all: readonly Graded[]) => all.map((g) => Math.abs(g.reading.lightness!.value - g.L));

describe("readings of generated photographs", () => {
  let clear: Graded[];
  let gleaming: Graded[];
  beforeAll(async () => {
    clear = (await Promise.all([4003, 4005, 4008, 4010].map((seed) => grade(seed, [0], false)))).flat();
    gleaming = await grade(4004, [0, 1, 2, 3], true);
  }, 120_000);

  it("without glare: L* to 0.4, residue to 0.045 in the mean, intervals that hold", () => {
    expect(mean(lightness(clear))).toBeLessThan(0.4);
    const tests = clear.filter((g) => g.role === "test");
    const off = tests.map((g) => Math.abs(g.reading.residue!.value - g.share));
    expect(mean(off)).toBeLessThan(0.025);
    const held = mean(tests.map((g, i) => (off[i]! <= 1.645 * g.reading.residue!.uncertainty ? 1 : 0)));
    expect(held).toBeGreaterThanOrEqual(0.86);
    expect(held).toBeLessThanOrEqual(0.97);
  });

  it("with glare in four photographs: 95th percentile of L* below 2.1, residue as good", () => {
    expect(quantile(lightness(gleaming), 0.95)).toBeLessThan(2.1);
    const tests = gleaming.filter((g) => g.role === "test");
    expect(mean(tests.map((g) => Math.abs(g.reading.residue!.value - g.share)))).toBeLessThan(0.035);
    for (const photo of ["turn 0", "turn 1"]) expect(gleaming.some((g) => g.reading.photo === photo)).toBe(true);
  });

  it("no gate of light fires on them", () => {
    for (const { gates, reading } of [...clear, ...gleaming]) {
      expect(gates).toBe(0);
      expect(reading.refusals).toEqual([]);
    }
  });

  it("white on bright aluminium in glare is not settled", async () => {
    const white = await grade(4001, [0, 2], true, { metal: "bright aluminium", coat: "white" });
    for (const { reading } of white) {
      expect(reading.residue).toBeNull();
      expect(reading.refusals.map((r) => r.gate)).toContain("difference");
    }
  }, 60_000);
});
