import { createRandom } from "#numerics";
import { type FrameLayout, type Lab, labFromLinear, luminanceOfLightness } from "#grading";
import { type CoatKind, coats, linearOf, type MetalKind, metals, pairs, type Rgb } from "./colours.ts";
import { draw, drawPatch } from "./draw-patch.ts";
import { type Field, latticeField } from "./noise.ts";
import { type Face, faceLength, type PaintFace, patchFace } from "./patch-face.ts";
import type { PatchDraw, PhotoPatch, PlateSpec } from "./plate-spec.ts";
import { greyError } from "./ranges.ts";

/** What is true of a patch whoever photographs it. */
export interface PatchTruth {
  readonly patch: number;
  readonly role: PhotoPatch["role"];
  /** share of the area where coating still hides more than half of the metal; even haze is not counted */
  readonly residue: number;
  /** mean hiding, haze counted where no residue lies */
  readonly hiding: number;
  /** of the mean reflectance, without gleam */
  readonly lab: Lab;
  /** mean over the area of the lightness at each place */
  readonly meanLightness: number;
  /** share of the area that melted and is bare */
  readonly melted: number;
  readonly drawn: PatchDraw;
}

/** A coupon with its frame, as it lies there before any light falls on it. */
export interface Plate {
  readonly frame: FrameLayout;
  readonly patches: readonly PhotoPatch[];
  readonly metal: MetalKind;
  readonly coat: CoatKind;
  readonly coatLab: Lab;
  readonly truth: readonly PatchTruth[];
  /** reflectance of each printed step, in the order of the frame */
  readonly greys: readonly number[];
  /** direction of the brushing, rad; bow of the plate, slope per m */
  readonly brushing: number;
  readonly bow: readonly [number, number];
  readonly noise: Field;
  /** index of the patch at a place of the coupon, −1 for the coat between them */
  patchAt(x: number, y: number): number;
  /** reflectance in patch `index`, or of the coat for −1 */
  paint(index: number, x: number, y: number, out: Face): void;
}

export function makePlate(spec: PlateSpec): Plate {
  const random = createRandom(spec.seed);
  const pair = pairs[random.integer(pairs.length)]!;
  const [metal, coat] = [spec.metal ?? pair.metal, spec.coat ?? pair.coat];
  const [bare, layer] = [linearOf(metals[metal]), linearOf(coats[coat])];
  const noise = latticeField(random.substream(1));
  const mottle = draw(random, "mottle");
  const [brushing, bow] = [Math.PI * random.next(), [0.3 * random.normal(), 0.3 * random.normal()] as const];
  const wobble = spec.wobble ?? 1e-3 * draw(random, "wobble");
  const errors = random.substream(2);
  const greys = spec.frame.greys.map((g) =>
    luminanceOfLightness(g.lightness + (spec.greyError ?? greyError) * errors.normal()),
  );
  const drawn = spec.patches.map((patch): PatchDraw => {
    const own = drawPatch(random.substream(100 + patch.patch), patch, mottle);
    const test = patch.role === "test" || patch.role === "replicate";
    return test
      ? { ...own, ...spec.say, ...spec.sayPatch?.[patch.patch] }
      : { ...own, ...spec.sayPatch?.[patch.patch] };
  });
  const faces = spec.patches.map((p, k) => patchFace(p, drawn[k]!, bare, layer, noise, 3.7 * p.patch));
  const between = coatFace(layer, noise);
  const lookUp = patchLookUp(spec.frame, spec.patches);
  return {
    frame: spec.frame,
    patches: spec.patches,
    metal,
    coat,
    coatLab: coats[coat],
    truth: spec.patches.map((p, k) => patchTruth(p, drawn[k]!, faces[k]!)),
    greys,
    brushing,
    bow,
    noise,
    patchAt: (x, y) => lookUp(x + wobble * noise(3000 * y, 41), y + wobble * noise(3000 * x, 87)),
    paint: (index, x, y, out) => (index < 0 ? between(x, y, out) : faces[index]!(x, y, out)),
  };
}

function coatFace(coat: Rgb, noise: Field): PaintFace {
  return (x, y, out) => {
    const film = 1 + 0.015 * noise(1500 * x, 1500 * y);
    for (let c = 0; c < 3; c++) out[c] = coat[c]! * film;
    out[3] = 1;
    out[4] = 0;
  };
}

/** Patches by cells of 2 mm, so that each place asks only the few that are near. */
function patchLookUp(frame: FrameLayout, patches: readonly PhotoPatch[]): (x: number, y: number) => number {
  const cell = 2e-3;
  const columns = Math.ceil(frame.couponWidth / cell) + 1;
  const rows = Math.ceil(frame.couponHeight / cell) + 1;
  const near: number[][] = Array.from({ length: columns * rows }, () => []);
  patches.forEach((p, k) => {
    for (let j = Math.floor(p.y / cell); j <= Math.floor((p.y + p.height) / cell); j++)
      for (let i = Math.floor(p.x / cell); i <= Math.floor((p.x + p.width) / cell); i++) near[j * columns + i]?.push(k);
  });
  return (x, y) => {
    const i = Math.floor(x / cell);
    const j = Math.floor(y / cell);
    if (i < 0 || j < 0 || i >= columns || j >= rows) return -1;
    for (const k of near[j * columns + i]!) {
      const p = patches[k]!;
      if (x >= p.x && x < p.x + p.width && y >= p.y && y < p.y + p.height) return k;
    }
    return -1;
  };
}

/** Means over 160 x 160 places of the patch. */
function patchTruth(patch: PhotoPatch, drawn: PatchDraw, paint: PaintFace): PatchTruth {
  const n = 160;
  const face = new Float64Array(faceLength);
  const sum = [0, 0, 0];
  let [covered, hiding, melted, lightness] = [0, 0, 0, 0];
  for (let j = 0; j < n; j++)
    for (let i = 0; i < n; i++) {
      paint(patch.x + ((i + 0.5) / n) * patch.width, patch.y + ((j + 0.5) / n) * patch.height, face);
      for (let c = 0; c < 3; c++) sum[c]! += face[c]!;
      if (face[3]! > 0.5) covered++;
      hiding += face[3]! + (1 - face[3]!) * drawn.haze;
      melted += face[4]! * (1 - face[3]!);
      lightness += labFromLinear(face).L;
    }
  const all = n * n;
  return {
    patch: patch.patch,
    role: patch.role,
    residue: covered / all,
    hiding: hiding / all,
    lab: labFromLinear(sum.map((v) => v / all)),
    meanLightness: lightness / all,
    melted: melted / all,
    drawn,
  };
}
