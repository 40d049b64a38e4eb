import type { Photo } from "../frame.ts";
import { coarsePlate, type PlateRectangle } from "./coarse-plate.ts";
import { type LightPicture, lightPicture } from "./light-picture.ts";
import { patchEdges } from "./patch-edge.ts";
import { asDrawn, mapOfPlate, type PlatePlace } from "./plate-place.ts";
import { moved, type PlateStep, plateStep } from "./plate-step.ts";
import type { PlateMap } from "./pose.ts";

export interface PlateFit {
  readonly map: PlateMap;
  readonly place: PlatePlace;
  /** false where too few sides of patches are clear: the coupon is then taken to lie where it is drawn */
  readonly settled: boolean;
  /** sides of patches that settled it */
  readonly sides: number;
  /** m, root mean square distance of these sides from their fitted places; 0 when not settled */
  readonly residual: number;
  /** m that patches reach further out than planned on each side */
  readonly growth: number;
  /** m, standard error of a place, worst over the corners of the coupon; 0 when not settled */
  readonly spread: number;
}

/** what is looked at in turn until it settles the place: luminance, then blue and red (yellow paint on bright metal) */
const views = [undefined, [0, 0, 1], [1, 0, 0]] as const;
/** m on either side of a planned edge, in turn: first what the coarse search may be off, then what gives least noise */
const looks = [1.6e-3, 1.2e-3, 1e-3] as const;
/** m: residual above which sides do not fit together */
const residualMost = 0.3e-3;
/** m: a standard error that is good enough to look no further, and one above which nothing is settled */
const spreadGood = 0.03e-3;
const spreadMost = 0.1e-3;

/**
 * How the coupon lies in its frame, from the edges of its patches in linear light: moved, turned, scaled, and patches
 * wider than planned by the same length all round. Sides count by their own error; those more than three usual
 * deviations off are left out. The place is kept as drawn where fewer than four sides in each direction are clear.
 * patches, coupon: m on the coupon as planned; map: of the frame. Errors: none. Source: own; weighted least squares.
 */
export function fitPlate(
  photo: Photo,
  map: PlateMap,
  coupon: { readonly width: number; readonly height: number },
  patches: readonly PlateRectangle[],
): PlateFit {
  let best: PlateFit | null = null;
  for (const weights of patches.length > 0 ? views : []) {
    const fit = fitIn(lightPicture(photo, undefined, weights), map, coupon, patches);
    if (fit !== null && !(best !== null && best.spread <= fit.spread)) best = fit;
    if (best !== null && best.spread < spreadGood) break;
  }
  return best ?? { map, place: asDrawn(coupon), settled: false, sides: 0, residual: 0, growth: 0, spread: 0 };
}

function fitIn(
  picture: LightPicture,
  map: PlateMap,
  coupon: { readonly width: number; readonly height: number },
  patches: readonly PlateRectangle[],
): PlateFit | null {
  let place = coarsePlate(picture, map, coupon, patches);
  let last: PlateStep | null = null;
  let growth = 0;
  for (const half of looks) {
    const now = mapOfPlate(map, place);
    const edges = patches.flatMap((patch) => patchEdges(picture, now, grown(patch, growth), half));
    last = plateStep(edges, coupon);
    if (last === null) return null;
    place = moved(place, last);
    growth += last.growth;
  }
  if (last === null || !(last.residual < residualMost && last.spread < spreadMost)) return null;
  const { sides, residual, spread } = last;
  return { map: mapOfPlate(map, place), place, settled: true, sides, residual, growth, spread };
}

const grown = (p: PlateRectangle, by: number): PlateRectangle => ({
  x: p.x - by,
  y: p.y - by,
  width: Math.max(1e-4, p.width + 2 * by),
  height: Math.max(1e-4, p.height + 2 * by),
});
