import { frameExtent, frameFor, labFromLinear, linearFromSrgb, markerCells, type Photo } from "#grading";
import { createRandom } from "#numerics";
import { beforeAll, describe, expect, it } from "vitest";
import { coats, linearOf, metals } from "./colours.ts";
import { drawPatch } from "./draw-patch.ts";
import { drawShot, type ShotDraw } from "./draw-shot.ts";
import { paperReflectance } from "./expose.ts";
import { gridPatches } from "./grid-patches.ts";
import { photograph } from "./photograph.ts";
import { makePlate } from "./plate.ts";
import type { PhotoPatch } from "./plate-spec.ts";
import { ranges, residueClasses, shares, statedDistribution } from "./ranges.ts";
import { detectMarkers, detectorReady } from "./reference-markers.ts";

const frame = frameFor({ width: 60e-3, height: 40e-3 }, { coupon: 3 });
const patches = gridPatches(frame, 3, 2, 6e-3, 4e-3);
/** nothing but the scene: what is on the plate comes straight into the codes */
const plain: Partial<ShotDraw> = {
  veil: 0,
  warmth: 0,
  tone: 0,
  sharpening: 0,
  noise: 0,
  blur: 0,
  white: 0.9,
  covered: null,
  fallOff: 0,
};
const small = { width: 800, height: 600 } as const;

/** Linear light of the codes, channel by channel, over the pixels that `take` wants. */
function meanLight(photo: Photo, take: (u: number, v: number) => boolean): { light: number[]; count: number } {
  const light = [0, 0, 0];
  let count = 0;
  for (let v = 0; v < photo.height; v++)
    for (let u = 0; u < photo.width; u++) {
      if (!take(u + 0.5, v + 0.5)) continue;
      count++;
      for (let c = 0; c < 3; c++) light[c]! += linearFromSrgb(photo.rgb[3 * (v * photo.width + u) + c]! / 255);
    }
  return { light: light.map((sum) => sum / count), count };
}

/** Whether a place of the picture lies inside a patch with this much margin, m. */
function inside(p: PhotoPatch, toPixel: (x: number, y: number) => { u: number; v: number }, margin: number) {
  const corners = [
    toPixel(p.x + margin, p.y + margin),
    toPixel(p.x + p.width - margin, p.y + margin),
    toPixel(p.x + p.width - margin, p.y + p.height - margin),
    toPixel(p.x + margin, p.y + p.height - margin),
  ];
  return (u: number, v: number): boolean => {
    const sides = corners.map((a, k) => {
      const b = corners[(k + 1) % 4]!;
      return (b.u - a.u) * (v - a.v) - (b.v - a.v) * (u - a.u) > 0;
    });
    return sides.every((side) => side === sides[0]);
  };
}

describe("truth of a generated photograph", () => {
  it("is the colour of the coat where all is covered, and the stated mean where it is not", async () => {
    const plate = makePlate({
      seed: 4,
      frame,
      patches,
      metal: "stainless",
      coat: "red primer",
      sayPatch: { 3: { residue: 1, film: 1 } },
    });
    const { photo, truth } = await photograph(plate, { seed: 4, ...small, glare: false, say: plain, jpeg: false });
    for (const [k, p] of patches.entries()) {
      const { light } = meanLight(photo, inside(p, truth.toPixel, 0.4e-3));
      const lab = labFromLinear(light.map((v) => v / truth.exposure));
      const stated = plate.truth[k]!;
      expect(Math.abs(lab.L - stated.lab.L)).toBeLessThan(stated.residue > 0.02 && stated.residue < 0.98 ? 1.5 : 0.5);
      if (p.patch === 1 || p.patch === 3) {
        expect(Math.abs(lab.L - coats["red primer"].L)).toBeLessThan(0.5);
        expect(Math.hypot(lab.a - coats["red primer"].a, lab.b - coats["red primer"].b)).toBeLessThan(1);
        expect(stated.residue).toBe(1);
      }
      if (p.patch === 2) expect(stated.residue).toBe(0);
    }
  });

  it("is the share of the picture that coat covers", async () => {
    const say = { film: 1, haze: 0, melt: 0, stripes: null, mottle: 0, tint: [1, 1, 1] as const, island: 1.5e-3 };
    const residues = [0.05, 0.3, 0.6, 0.9];
    const sayPatch = Object.fromEntries(residues.map((residue, k) => [k + 3, { residue }]));
    const plate = makePlate({ seed: 9, frame, patches, metal: "stainless", coat: "black", say, sayPatch });
    const { photo, truth } = await photograph(plate, {
      seed: 9,
      width: 1200,
      height: 900,
      glare: false,
      say: { ...plain, tilt: 0.2 },
      jpeg: false,
    });
    residues.forEach((residue, k) => {
      const p = patches[k + 2]!;
      expect(Math.abs(plate.truth[k + 2]!.residue - residue)).toBeLessThan(0.01);
      const { light } = meanLight(photo, inside(p, truth.toPixel, 0));
      // u of the mean is the mean of u: no threshold is needed where all hides wholly or not at all.
      const [bare, coat] = [metals.stainless, coats.black].map((lab) => linearOf(lab)[1]) as [number, number];
      const u = (bare - light[1]! / truth.exposure) / (bare - coat);
      expect(Math.abs(u - plate.truth[k + 2]!.hiding)).toBeLessThan(0.02);
    });
  });

  it("puts the middle of a patch where it is in the picture, tilted, bent, raised and turned", async () => {
    const dots: PhotoPatch[] = [
      [8, 8],
      [50, 30],
      [10, 31],
      [30, 20],
    ].map(([x, y], k) => ({
      patch: k + 1,
      x: x! * 1e-3,
      y: y! * 1e-3,
      width: 1.5e-3,
      height: 1.5e-3,
      role: "cleaned-reference",
    }));
    const plate = makePlate({
      seed: 2,
      frame,
      patches: dots,
      metal: "bright aluminium",
      coat: "black",
      wobble: 0,
      sayPatch: Object.fromEntries(dots.map((d) => [d.patch, { mottle: 0 }])),
    });
    for (const turn of [0, 1] as const) {
      const say = { ...plain, tilt: 0.45, radial: 0.02, rise: 1e-3, roll: 0.15 };
      const { photo, truth } = await photograph(plate, {
        seed: 2,
        turn,
        width: 1200,
        height: 900,
        glare: false,
        say,
        jpeg: false,
      });
      for (const { centre } of truth.patches) {
        let [sum, su, sv] = [0, 0, 0];
        const dark = 0.06 * truth.exposure;
        for (let v = Math.floor(centre.v) - 14; v < centre.v + 14; v++)
          for (let u = Math.floor(centre.u) - 14; u < centre.u + 14; u++) {
            const w = Math.max(0, linearFromSrgb(photo.rgb[3 * (v * photo.width + u) + 1]! / 255) - dark);
            sum += w;
            su += w * (u + 0.5);
            sv += w * (v + 0.5);
          }
        expect(Math.hypot(su / sum - centre.u, sv / sum - centre.v)).toBeLessThan(0.12);
      }
    }
  });

  it("averages edges over the area of a pixel in linear light", async () => {
    const plate = makePlate({ seed: 5, frame, patches, greyError: 0 });
    const say = { ...plain, tilt: 0, radial: 0, roll: 0 };
    const { photo, truth } = await photograph(plate, {
      seed: 5,
      width: 900,
      height: 700,
      glare: false,
      say,
      jpeg: false,
    });
    frame.markers.forEach((marker, k) => {
      const box = {
        patch: 0,
        x: marker.x,
        y: marker.y,
        width: marker.size,
        height: marker.size,
        role: "test",
      } as const;
      const { light, count } = meanLight(photo, inside(box, truth.toPixel, -1e-3));
      const white = paperReflectance * truth.exposure;
      const ink = (0.04 / paperReflectance) * white;
      const black = ((white - light[1]!) / (white - ink)) * count;
      const cells = markerCells(frame.markers[k]!.id)
        .flat()
        .filter((black) => black).length;
      expect(Math.abs(black / ((cells / 36) * (marker.size * 1e3 * truth.scale) ** 2) - 1)).toBeLessThan(0.01);
    });
    // Grey steps as printed, dark to light, in both strips.
    frame.greys.forEach((g, k) => {
      const box = { patch: 0, x: g.x, y: g.y, width: g.width, height: g.height, role: "test" } as const;
      const { light } = meanLight(photo, inside(box, truth.toPixel, 1e-3));
      expect(Math.abs(labFromLinear(light.map((v) => v / truth.exposure)).L - frame.greys[k]!.lightness)).toBeLessThan(
        0.35,
      );
    });
  });

  it("has light that departs from the middle as far as said, and no further, at the corners of the frame", async () => {
    const plate = makePlate({ seed: 6, frame, patches });
    for (const fallOff of [0.1, 0.4]) {
      const { truth } = await photograph(plate, {
        seed: 6,
        width: 200,
        height: 150,
        glare: false,
        say: { fallOff },
        jpeg: false,
      });
      const { left, bottom, width, height } = frameExtent(frame);
      const corners = [left, left + width].flatMap((x) => [bottom, bottom + height].map((y) => truth.light(x, y)));
      expect(Math.max(...corners.map((l) => Math.abs(l - 1)))).toBeCloseTo(fallOff, 6);
      expect(truth.light(30e-3, 20e-3)).toBeCloseTo(1, 12);
    }
  });
});

describe("gleam", () => {
  const plate = makePlate({ seed: 12, frame, patches, metal: "bright aluminium", coat: "black" });
  const say = { ...plain, tilt: 0.4, towards: 2, side: 2 + Math.PI, elevation: 1.05 };

  it("only ever adds light, and moves over the plate when it is turned", async () => {
    const at = { seed: 12, width: 480, height: 360, say, jpeg: false } as const;
    const [without, with0, with1] = [
      await photograph(plate, { ...at, glare: false }),
      await photograph(plate, { ...at, glare: true }),
      await photograph(plate, { ...at, glare: true, turn: 1 }),
    ];
    let added = 0;
    without.photo.rgb.forEach((code, k) => {
      const more = with0.photo.rgb[k]! - code;
      if (more < 0) throw new Error(`pixel ${k} has lost light`);
      added += more;
    });
    expect(added).toBeGreaterThan(1e5);
    expect(without.truth.patches.every((p) => p.gleam === 0)).toBe(true);
    const [first, second] = [with0, with1].map((shot) => shot.truth.patches.map((p) => p.gleam)) as [
      number[],
      number[],
    ];
    expect(Math.max(...first)).toBeGreaterThan(0.1);
    expect(Math.max(...first.map((g, k) => Math.abs(g - second[k]!)))).toBeGreaterThan(0.05);
    expect(with1.photo.width).toBe(360);
  });

  it("is told in L* as it shows in the picture", async () => {
    const { photo, truth } = await photograph(plate, {
      seed: 12,
      ...small,
      glare: true,
      say: { ...say, white: 0.5 },
      jpeg: false,
    });
    const k = 0;
    const { light } = meanLight(photo, inside(patches[k]!, truth.toPixel, 0.4e-3));
    const seen = labFromLinear(light.map((v) => v / truth.exposure)).L - plate.truth[k]!.lab.L;
    expect(Math.abs(seen - truth.patches[k]!.gleamLightness)).toBeLessThan(0.5);
  });
});

describe("markers in generated photographs", () => {
  beforeAll(detectorReady);
  it("are where the truth says, all but the one under a finger", async () => {
    const usual = frameFor({ width: 150e-3, height: 100e-3 }, { coupon: 2 });
    const plate = makePlate({ seed: 3, frame: usual, patches: gridPatches(usual, 5, 3) });
    const { photo, jpeg, truth } = await photograph(plate, {
      seed: 3,
      width: 1280,
      height: 960,
      glare: true,
      say: { covered: 4 },
    });
    expect(Buffer.from(jpeg!.subarray(0, 3)).toString("hex")).toBe("ffd8ff");
    const grey = Uint8Array.from({ length: photo.width * photo.height }, (_, k) => photo.rgb[3 * k + 1]!);
    const found = detectMarkers(grey, photo.width, photo.height);
    // Residue may look like a marker of another frame; those of this one are what counts.
    const own = [...found.keys()].filter((id) => usual.markers.some((m) => m.id === id));
    expect(own.sort((a, b) => a - b)).toEqual([8, 9, 10, 11, 13, 14, 15]);
    // The detector's own corners are good to two pixels each; their mean would show a picture that is shifted.
    const off: [number, number][] = [];
    for (const { id, corners, covered } of truth.markers) {
      expect(covered).toBe(id === 12);
      const at = found.get(id);
      if (at === undefined) continue;
      for (const [k, { u, v }] of corners.entries()) off.push([at[2 * k]! + 0.5 - u, at[2 * k + 1]! + 0.5 - v]);
    }
    expect(off).toHaveLength(28);
    for (const [u, v] of off) expect(Math.hypot(u, v)).toBeLessThan(2.5);
    for (const axis of [0, 1] as const) {
      const mean = off.reduce((sum, o) => sum + o[axis], 0) / off.length;
      expect(Math.abs(mean)).toBeLessThan(0.4);
    }
  });
});

describe("seeds and the stated distribution", () => {
  it("give the same bytes again, and others for another seed or turn", async () => {
    const shoot = async (seed: number, turn: 0 | 1 | 2) => {
      const plate = makePlate({ seed, frame, patches });
      return (await photograph(plate, { seed, turn, width: 320, height: 240, glare: true })).jpeg!;
    };
    const first = await shoot(1, 0);
    expect(Buffer.compare(first, await shoot(1, 0))).toBe(0);
    expect(Buffer.compare(first, await shoot(2, 0))).not.toBe(0);
    expect(Buffer.compare(first, await shoot(1, 2))).not.toBe(0);
  });

  it("leave everything else as it was where one thing is said", () => {
    const drawn = makePlate({ seed: 1, frame, patches }).truth[4]!.drawn;
    const said = makePlate({ seed: 1, frame, patches, sayPatch: { 5: { residue: 0.5 } } });
    expect(said.truth[4]!.drawn).toEqual({ ...drawn, residue: 0.5 });
    const quarter = drawShot(3, 1);
    expect(quarter.tilt).toBe(drawShot(3, 0).tilt);
    expect(quarter.elevation).toBe(drawShot(3, 0).elevation);
    expect(quarter.roll).not.toBe(drawShot(3, 0).roll);
  });

  it("stay within the stated ranges and reach through them", () => {
    const shots = Array.from({ length: 400 }, (_, seed) => drawShot(seed, 0));
    const degrees = 180 / Math.PI;
    const values: [keyof typeof ranges, number[]][] = [
      ["tilt", shots.map((s) => s.tilt * degrees)],
      ["fallOff", shots.map((s) => s.fallOff)],
      ["tone", shots.map((s) => s.tone)],
      ["sharpening", shots.map((s) => s.sharpening)],
      ["quality", shots.map((s) => s.quality)],
      ["blur", shots.map((s) => s.blur)],
    ];
    for (const [name, list] of values) {
      const { low, high } = ranges[name];
      expect(Math.min(...list)).toBeGreaterThanOrEqual(low);
      expect(Math.max(...list)).toBeLessThanOrEqual(high);
      expect(Math.max(...list) - Math.min(...list)).toBeGreaterThan(0.95 * (high - low));
      expect(Math.abs(list.reduce((a, b) => a + b, 0) / 400 - (low + high) / 2)).toBeLessThan(0.06 * (high - low));
    }
    const drawn = Array.from({ length: 2000 }, (_, k) =>
      drawPatch(createRandom(k), { ...patches[3]!, role: "test" }, 0.1),
    );
    // Four standard errors of a share over 2000 draws.
    const near = (share: number, stated: number): void => {
      expect(Math.abs(share - stated)).toBeLessThan(4 * Math.sqrt((stated * (1 - stated)) / 2000));
    };
    near(drawn.filter((d) => d.haze > 0).length / 2000, shares.haze.share);
    near(drawn.filter((d) => d.melt > 0).length / 2000, shares.melt.share);
    near(drawn.filter((d) => d.stripes !== null).length / 2000, shares.stripes.share);
    for (const { share, low, high } of residueClasses)
      near(drawn.filter((d) => d.residue >= low && d.residue < high).length / 2000, share);
    for (const { stripes } of drawn) {
      if (stripes === null) continue;
      expect(stripes.spacing).toBeGreaterThanOrEqual(0.45e-3);
      expect(stripes.spacing).toBeLessThanOrEqual(1.6e-3);
    }
  });

  it("are printed line by line", () => {
    const lines = statedDistribution();
    expect(lines).toContain("camera off the normal of the plate: 0 to 28 °, even");
    expect(lines).toContain("test patches with even haze: 15 %");
    expect(lines).toContain("test patches with melt: 30 %");
    expect(lines.join("\n")).not.toMatch(/NaN|undefined/);
  });
});
