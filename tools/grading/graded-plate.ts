import { type FindMarkers, gradeCoupon, lookAtPhoto, type PatchReading, type PhotoLook } from "#grading";
import { decodePhoto } from "#photos";
import { photograph, shotScene } from "../../tests/photo/photograph.ts";
import { type InnerTruth, innerTruth } from "../../tests/photo/inner-truth.ts";
import type { PlateCase } from "./plate-cases.ts";

/** What came of one photograph. */
export interface GradedPhoto {
  /** planned markers that are not covered, and those of them that were found and used */
  readonly open: number;
  readonly used: number;
  /** mm, error of the place of a patch's centre at worst; null where the photograph was refused before */
  readonly worstCentre: number | null;
  /** gates that refused it, and whether its white step is clipped indeed */
  readonly gates: readonly string[];
  readonly clipped: boolean;
}

/** What came of one patch. */
export interface GradedPatch {
  readonly role: string;
  readonly truth: InnerTruth;
  readonly reading: PatchReading;
  /** L* that glare adds in the photograph where it adds least */
  readonly leastGlare: number;
}

export interface GradedPlate {
  readonly seed: number;
  readonly glare: boolean;
  readonly pair: string;
  readonly photos: readonly GradedPhoto[];
  readonly patches: readonly GradedPatch[];
}

/** The files of a plate's photographs, and for each patch the L* that glare adds where it adds least. */
export interface Shots {
  readonly files: readonly Uint8Array[];
  readonly leastGlare: readonly number[];
}

export async function shoot({ plate, shots }: PlateCase): Promise<Shots> {
  const taken = await Promise.all(shots.map((shot) => photograph(plate, shot)));
  return {
    files: taken.map(({ jpeg }) => jpeg!),
    leastGlare: plate.patches.map((_, k) => Math.min(...taken.map(({ truth }) => truth.patches[k]!.gleamLightness))),
  };
}

const mm = 1e3;
/** px that a corner of a marker may lie off: what is further off was not found, whatever its number */
const cornerMost = 2;
/** linear light from which a code is clipped: 253 of 255 */
const fullScale = 0.984;

/** Grades a plate as a user would: files in, readings out; then lays the truth beside them. */
export async function gradePlate(one: PlateCase, shots: Shots, findMarkers: FindMarkers): Promise<GradedPlate> {
  const looks: PhotoLook[] = [];
  for (const [k, file] of shots.files.entries()) {
    const { photo } = await decodePhoto(file);
    looks.push(lookAtPhoto(`turn ${one.shots[k]!.turn ?? 0}`, photo, [one.plan], findMarkers));
  }
  const grading = gradeCoupon(one.plan, looks);
  return {
    seed: one.seed,
    glare: one.glare,
    pair: `${one.plate.coat} on ${one.plate.metal}`,
    photos: looks.map((look, k) => gradedPhoto(one, k, look)),
    patches: one.plan.patches.map(({ role }, k) => ({
      role,
      truth: innerTruth(one.plate, k),
      reading: grading.readings[k]!,
      leastGlare: shots.leastGlare[k]!,
    })),
  };
}

function gradedPhoto({ plate, plan, shots }: PlateCase, k: number, look: PhotoLook): GradedPhoto {
  const { drawn, exposure, light, toPixel } = shotScene(plate, shots[k]!);
  const open = plan.frame.markers.filter((_, index) => index !== drawn.covered);
  const used = open.filter(({ id, x, y, size }) => {
    const found = look.frame?.markers.find((marker) => marker.id === id);
    if (found === undefined) return false;
    const corners = [
      toPixel(x, y + size, 0),
      toPixel(x + size, y + size, 0),
      toPixel(x + size, y, 0),
      toPixel(x, y, 0),
    ];
    return corners.every(({ u, v }, i) => {
      const { u: fu, v: fv } = found.corners[i]!;
      return Math.hypot(u - fu, v - fv) <= cornerMost;
    });
  });
  const offs = plan.patches.map(({ x, y, width, height }) => {
    const [cx, cy] = [x + width / 2, y + height / 2];
    const { u, v } = toPixel(cx, cy);
    const at = look.map?.toPlate(u, v);
    return at === undefined ? Number.NaN : mm * Math.hypot(at.x - cx, at.y - cy);
  });
  return {
    open: open.length,
    used: used.length,
    worstCentre: look.map === null ? null : Math.max(...offs),
    gates: look.gates.map(({ gate }) => gate),
    clipped: plan.frame.greys.some(
      (g, i) =>
        exposure * (1 + Math.abs(drawn.warmth)) * plate.greys[i]! * light(g.x + g.width / 2, g.y + g.height / 2) +
          drawn.veil >
        fullScale,
    ),
  };
}
