import { beamState, type DefocusBand, obliqueSpot } from "#beam";
import type { Acceptance, LaserSetup, Metre, PatchResult, Radian, Setting } from "#terms";
import { invalid, requireInRange } from "#units";
import type { Draw } from "./draw.ts";
import { type PatchPlan, patchPlan } from "./patch-plan.ts";
import { predictPatch } from "./predict-patch.ts";

/** Where the face may stand while it is cleaned: curved faces, a hand that is not steady. */
export interface FaceBand {
  /** m, defocus over the face, see `defocusBand` of #beam */
  readonly defocus: DefocusBand;
  /** rad from the normal, smallest and largest */
  readonly angle: { readonly low: Radian; readonly high: Radian };
}

/** One place of the band and what the setting does there. */
export interface BandPlace {
  readonly defocus: Metre;
  readonly angle: Radian;
  readonly result: PatchResult;
}

/** Best and worst over a band. */
export interface BandResult {
  readonly places: readonly BandPlace[];
  /** least and most left behind */
  readonly cleanest: BandPlace;
  readonly dirtiest: BandPlace;
  /** farthest from the metal's limit and nearest to it (or farthest beyond) */
  readonly gentlest: BandPlace;
  readonly harshest: BandPlace;
}

/** Places along each side of the band: its ends, its middle, and focus where the band goes through it. */
function ladder(low: number, high: number, through: number): number[] {
  const steps = new Set([low, (low + high) / 2, high]);
  if (low < through && through < high) steps.add(through);
  return [...steps].sort((a, b) => a - b);
}

/**
 * The plan on a face at a defocus and an angle: the oblique spot as a round one of the same area.
 *
 * Equation: d_eq = √(d·d/cos θ), so that the fluence is the upright one times cos θ.
 * Units: defocus m, angle rad. Range: angle below a right angle. Errors: InvalidInput. Source: `obliqueSpot`; the round
 * spot of equal area is own, for the repeating cell; `patchMap` takes the tilt itself.
 */
export function planOnFace(
  setup: LaserSetup,
  setting: Setting,
  warming: PatchPlan["warming"],
  defocus: Metre,
  angle: Radian,
): PatchPlan {
  const beam = beamState(setup, { ...setting, defocus: Math.abs(defocus) });
  const spot = obliqueSpot(beam.spotDiameter, angle);
  const spotDiameter = Math.sqrt(spot.along * spot.across);
  return patchPlan(setup, setting, { ...beam, spotDiameter }, warming);
}

/**
 * Residue and damage over a band of defocus and angle: `predictPatch` at the ends, the middle and the focus.
 *
 * Units: as in the types; the plan gives set-up, setting and warming. Range: bands whose low end is not above the high
 * one, angles from 0 to 1.4 rad. The share of light absorbed is that of normal incidence; warming is the plan's.
 * Errors: InvalidInput. Source: own.
 */
export function patchBand(
  draw: Draw,
  plan: PatchPlan,
  acceptance: Pick<Acceptance, "metalConditionMax" | "metalTemperatureMax">,
  band: FaceBand,
): BandResult {
  const { defocus, angle } = band;
  requireInRange("smallest angle", angle.low, "rad", 0, 1.4);
  requireInRange("largest angle", angle.high, "rad", angle.low, 1.4);
  if (!(defocus.low <= defocus.high)) invalid("defocus band", defocus.low, "m", "low end not above the high one");
  const places: BandPlace[] = [];
  for (const z of ladder(defocus.low, defocus.high, 0))
    for (const a of ladder(angle.low, angle.high, 0)) {
      const there = planOnFace(plan.setup, plan.setting, plan.warming, z, a);
      places.push({ defocus: z, angle: a, result: predictPatch(draw, there, acceptance) });
    }
  const most = (of: (p: BandPlace) => number) => places.reduce((a, b) => (of(b) > of(a) ? b : a));
  return {
    places,
    cleanest: most((p) => -p.result.residueFraction),
    dirtiest: most((p) => p.result.residueFraction),
    gentlest: most((p) => p.result.damageMargin),
    harshest: most((p) => -p.result.damageMargin),
  };
}
