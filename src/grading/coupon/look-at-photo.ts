import { fromSI, InvalidInput } from "#units";
import type { Photo } from "../frame.ts";
import type { Gate } from "../gate.ts";
import { cutPatch } from "../geometry/cut-patch.ts";
import { fitPlate } from "../geometry/fit-plate.ts";
import type { FindMarkers } from "../geometry/found-marker.ts";
import { type FrameView, locateFrame } from "../geometry/locate-frame.ts";
import { coarseMarkers } from "../geometry/search.ts";
import type { PlateMap } from "../geometry/pose.ts";
import { calibrateLight } from "../reading/calibrate-light.ts";
import type { PatchShot } from "../reading/choose-shot.ts";
import type { LightCalibration } from "../reading/light-calibration.ts";
import { clippedShareOf, greySampleOf, layerSamplesOf } from "../reading/light-samples.ts";
import { lightGates } from "../reading/reading-gates.ts";
import { type GreySample, type LayerSample, type PatchView, readable } from "../reading/view.ts";
import { chooseCoupon } from "./choose-coupon.ts";
import type { CouponPatch, CouponPlan } from "./coupon-plan.ts";
import { inPicture, marginOf, scaleAt } from "./patch-in-picture.ts";

/** What one photograph gives. */
export interface PhotoLook {
  readonly photo: string;
  /** coupon that its markers belong to; null where none of the trial's is in it */
  readonly coupon: number | null;
  /** why nothing is read from it, one sentence each; empty when it is read */
  readonly gates: readonly Gate[];
  /** geometry; null where the markers settle none */
  readonly frame: FrameView | null;
  /** how the coupon lies, refined on its patches where they show; null without geometry */
  readonly map: PlateMap | null;
  /** light; null where a gate stands before it */
  readonly light: LightCalibration | null;
  /** by patch number: patches that it shows whole, in reflectance */
  readonly shots: ReadonlyMap<number, PatchShot>;
}

/** A look without the patches cut out of it, which take much memory. */
export interface PhotoSummary extends Pick<PhotoLook, "photo" | "coupon" | "gates" | "frame" | "map"> {
  /** number of patches that it shows whole */
  readonly patches: number;
}

export function summaryOf({ photo, coupon, gates, frame, map, shots }: PhotoLook): PhotoSummary {
  return { photo, coupon, gates, frame, map, patches: shots.size };
}

/**
 * Which of the trial's coupons a photograph shows, from its markers alone; null where none of theirs is found. Photographs
 * of many coupons are sorted by it, so that only those of one are in memory at a time.
 */
export function couponInPhoto(photo: Photo, plans: readonly CouponPlan[], findMarkers: FindMarkers): number | null {
  const found = coarseMarkers(photo, findMarkers);
  const plan = chooseCoupon(plans, found);
  return plan.frame.markers.some(({ id }) => found.some((m) => m.id === id)) ? plan.coupon : null;
}

/** A grey of middle lightness, for which the doubt of the light is worked out. */
const MIDDLE: readonly [number, number, number] = [0.2, 0.2, 0.2];
/** px each way that a patch is cut out with at most: more tells nothing more and takes memory. */
const CUT_MOST = 640;
/** px/mm that residue and colour are read at: twice of what the finest islands need. */
const USUAL_SCALE = 14;
/** Pixels from line to line that streaks need at least, and with which they are read where the photograph has them. */
const PIXELS_A_LINE = { least: 4, good: 6 } as const;

/** px/mm that a patch is cut out at: as usual, or finer where its lines are fine and the photograph shows them. */
function cutScale(photographed: number, { lineSpacing }: CouponPatch): number {
  const spacing = lineSpacing === null ? 0 : fromSI(lineSpacing, "mm");
  const shown = spacing * photographed >= PIXELS_A_LINE.least;
  return Math.min(photographed, shown ? Math.max(USUAL_SCALE, PIXELS_A_LINE.good / spacing) : USUAL_SCALE);
}

/**
 * Looks at one photograph of a coupon: which coupon, geometry, place of the plate, light, and every patch that it shows
 * whole. A part of the plate from near (a close-up) is read for the patches in it.
 * photo: upright; plans: coupons of the trial. Errors: none of the photograph's making; reasons are returned as gates.
 */
export function lookAtPhoto(
  name: string,
  photo: Photo,
  plans: readonly CouponPlan[],
  findMarkers: FindMarkers,
): PhotoLook {
  const found = coarseMarkers(photo, findMarkers);
  const plan = chooseCoupon(plans, found);
  const { view, gates } = locateFrame(photo, plan.frame, findMarkers, { found });
  const nothing = { photo: name, map: null, light: null, shots: new Map<number, PatchShot>() };
  if (view === null) return { ...nothing, coupon: null, frame: null, gates };
  const { couponWidth: width, couponHeight: height } = plan.frame;
  const shown = plan.patches.filter((p) => inPicture(view.pose, p, 0, photo));
  const { map } = fitPlate(photo, view.pose, { width, height }, shown);
  const located = { ...nothing, coupon: plan.coupon, frame: view, map };
  if (gates.length > 0) return { ...located, gates };
  if (shown.length === 0) return { ...located, gates: [noPatch] };

  const cuts = shown.map((patch) => cutOut(photo, map, patch, plan, view)).filter((cut) => cut !== null);
  const light = lightOf(photo, view, plan, cuts);
  if (!("calibrate" in light)) return { ...located, gates: [light] };
  const lit = { ...located, light };
  const dim = lightGates(light);
  if (dim.length > 0) return { ...lit, gates: dim };
  const shots = new Map(cuts.map(({ patch, view: cut }) => [patch.patch, shotOf(name, patch, cut, light)]));
  return { ...lit, gates: [], shots };
}

const noPatch: Gate = {
  gate: "no patch",
  sentence: "The frame is in the photograph and no patch is whole in it: move the camera until the patches show.",
};

interface Cut {
  readonly patch: CouponPatch;
  readonly view: PatchView;
}

function cutOut(photo: Photo, map: PlateMap, patch: CouponPatch, plan: CouponPlan, view: FrameView): Cut | null {
  const margin = marginOf(patch, plan);
  if (!inPicture(map, patch, margin, photo)) return null;
  const largest = (CUT_MOST * 1e-3) / (Math.max(patch.width, patch.height) + 2 * margin);
  const pixelsPerMm = Math.min(largest, cutScale(scaleAt(map, patch), patch));
  if (!readable(patch, pixelsPerMm)) return null;
  return { patch, view: cutPatch(photo, map, patch, { pixelsPerMm, margin, edgeWidth: view.edgeWidth ?? 0 }) };
}

/** The light of a photograph, or the gate where its greys do not show. */
function lightOf(photo: Photo, view: FrameView, plan: CouponPlan, cuts: readonly Cut[]): LightCalibration | Gate {
  const greys: GreySample[] = plan.frame.greys
    .filter((step) => inPicture(view.pose, step, 0, photo))
    .map((step) => greySampleOf(step, cutPatch(photo, view.pose, step, { pixelsPerMm: view.pixelsPerMm })));
  const layer: LayerSample[] = cuts.flatMap(({ patch, view: cut }) =>
    cut.margin > 0 ? layerSamplesOf(patch, cut) : [],
  );
  try {
    return calibrateLight({ greys, layer, greysMeasured: plan.frame.greysMeasured, space: photo.space });
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error;
    const clipped = greys.filter((g) => g.clippedShare >= 0.05).length;
    return {
      gate: "greys",
      sentence:
        `${greys.length - clipped} grey steps can be read and 5 are needed (${greys.length} show, ${clipped} are clipped): ` +
        "keep one whole strip in the picture, lock the exposure on it and take the photograph again.",
    };
  }
}

function shotOf(photo: string, patch: CouponPatch, cut: PatchView, light: LightCalibration): PatchShot {
  const [x, y] = [patch.x + patch.width / 2, patch.y + patch.height / 2];
  return {
    photo,
    view: light.calibrate(cut, x, y),
    clippedShare: clippedShareOf(cut),
    ringResidual: light.ringResidual.get(patch.patch) ?? null,
    lightUncertainty: light.uncertainty(MIDDLE, x, y),
  };
}
