import { labFromLinear } from "#grading";
import { faceLength } from "./patch-face.ts";
import type { Plate } from "./plate.ts";

/** What is true of a patch where the reader looks: inside its rim of 1 mm. */
export interface InnerTruth {
  /** share of the area where coating still hides more than half of the metal */
  readonly residue: number;
  /** CIELAB L* of the mean reflectance */
  readonly lightness: number;
  /** share of the area that melted and is bare */
  readonly melted: number;
}

/** m that the reader leaves out along each side of a patch */
const rim = 1e-3;
/** places each way that the truth is looked up at */
const places = 100;

/** Truth of the patch with an index in the plate, by places on a grid. */
export function innerTruth(plate: Plate, index: number): InnerTruth {
  const { x, y, width, height } = plate.patches[index]!;
  const face = new Float64Array(faceLength);
  const sum = [0, 0, 0];
  let [covered, melted] = [0, 0];
  for (let a = 0; a < places; a += 1)
    for (let b = 0; b < places; b += 1) {
      const at = (from: number, size: number, k: number) => from + rim + ((k + 0.5) / places) * (size - 2 * rim);
      plate.paint(index, at(x, width, a), at(y, height, b), face);
      if (face[3]! > 0.5) covered += 1;
      melted += face[4]! * (1 - face[3]!);
      for (let c = 0; c < 3; c += 1) sum[c]! += face[c]!;
    }
  const all = places ** 2;
  return { residue: covered / all, lightness: labFromLinear(sum.map((v) => v / all)).L, melted: melted / all };
}
