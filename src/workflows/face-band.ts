import { defocusBand, lensOf, rimAngle } from "#beam";
import { type BandPlace, type FaceBand, patchBand } from "#patch";
import type { Face, LaserSetup, Metre, Ratio, Setting } from "#terms";
import type { PartModel } from "./part-model.ts";
import { planOf } from "./predict.ts";
import { isClean, isUndamaged } from "./scores.ts";

/** What a setting does over a band of defocus and angle. */
export interface BandAnswer {
  readonly band: FaceBand;
  /** extremes in the central version of the physics */
  readonly cleanest: BandPlace;
  readonly dirtiest: BandPlace;
  readonly gentlest: BandPlace;
  readonly harshest: BandPlace;
  /** share of the versions of the physics that hold at every place of the band, counted as in `predict` */
  readonly cleanEverywhere: Ratio;
  readonly undamagedEverywhere: Ratio;
}

/**
 * Best and worst of a setting over a band.
 * Units: band m and rad. Range: that of `patchBand`. Errors: InvalidInput of `patchBand`. Source: own.
 */
export function answerOnBand(model: PartModel, setup: LaserSetup, setting: Setting, band: FaceBand): BandAnswer {
  const plan = planOf(model, setup, setting);
  const { acceptance } = model.part;
  const { cleanest, dirtiest, gentlest, harshest } = patchBand(model.central, plan, acceptance, band);
  let clean = 0;
  let undamaged = 0;
  for (const draw of model.draws) {
    const { places } = patchBand(draw, plan, acceptance, band);
    if (places.every((p) => isClean(p.result, acceptance))) clean++;
    if (places.every((p) => isUndamaged(p.result, acceptance))) undamaged++;
  }
  const n = model.draws.length;
  return {
    band,
    cleanest,
    dirtiest,
    gentlest,
    harshest,
    cleanEverywhere: (clean + 0.5) / (n + 1),
    undamagedEverywhere: (undamaged + 0.5) / (n + 1),
  };
}

/** A curved face with its band, and the width that is cleaned without turning the head. */
export interface CurvedFace {
  readonly face: Face;
  readonly width: Metre;
  /** true where the face falls away so fast that the field cannot be used whole */
  readonly narrowed: boolean;
  readonly band: FaceBand;
}

/** sin of the steepest angle that is asked, 60°: beyond it the head has to be turned (own choice). */
const STEEPEST = Math.sqrt(3) / 2;

/**
 * Curved faces of a part with their bands over the field of the lens.
 *
 * Equation: width = min(field, side of the part, 2R·sin 60°); band by `defocusBand` and `rimAngle`.
 * Units: m, rad. Range: convex and concave faces with a radius. Errors: InvalidInput for an unknown lens.
 * Source: geometry; the 60° are own.
 */
export function curvedFaces(model: PartModel, setup: LaserSetup, setting: Setting, standOffError: Metre): CurvedFace[] {
  const { fieldSide } = lensOf(setup, setting.lens);
  return model.part.faces.flatMap((face) => {
    const { kind, radius } = face;
    if ((kind !== "convex" && kind !== "concave") || radius === null) return [];
    const whole = Math.min(fieldSide, Math.sqrt(model.part.area));
    const width = Math.min(whole, 2 * radius * STEEPEST);
    const defocus = defocusBand({ kind, radius, field: width, middle: setting.defocus, standOffError });
    const angle = { low: 0, high: rimAngle(radius, width) };
    return [{ face, width, narrowed: width < whole, band: { defocus, angle } }];
  });
}
