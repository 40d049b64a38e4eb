import { NumericalError } from "#numerics";
import type { FrameLayout, FrameMarker, Photo } from "../frame.ts";
import type { PlatePoint } from "./found-marker.ts";
import { fitPose, type Pose } from "./pose.ts";
import type { RefinedMarker } from "./refine-marker.ts";

/** markers needed for a pose with one to spare */
export const markersNeeded = 3;
/** px of residual below which nobody is thrown out */
const quiet = 0.25;
/** share of the sum of squares that must go with a marker which is thrown out */
const tellingShare = 0.8;

export interface Consensus {
  readonly pose: Pose;
  readonly used: readonly RefinedMarker[];
  readonly thrownOut: readonly RefinedMarker[];
}

/** Corners of a planned marker in the order of those found. */
export function plannedCorners({ x, y, size }: FrameMarker): readonly PlatePoint[] {
  return [
    { x, y: y + size },
    { x: x + size, y: y + size },
    { x: x + size, y },
    { x, y },
  ];
}

function poseOf(markers: readonly RefinedMarker[], layout: FrameLayout, photo: Photo): Pose | null {
  const pairs = markers.flatMap((marker) => {
    const planned = layout.markers.find(({ id }) => id === marker.id)!;
    return plannedCorners(planned).map((plate, k) => ({ plate, pixel: marker.corners[k]! }));
  });
  try {
    return fitPose(pairs, photo);
  } catch (error) {
    if (error instanceof NumericalError) return null;
    throw error;
  }
}

/** The best pose without `drop` of the markers. */
function bestWithout(
  markers: readonly RefinedMarker[],
  drop: number,
  layout: FrameLayout,
  photo: Photo,
): Consensus | null {
  let best: Consensus | null = null;
  for (const thrownOut of choices(markers, drop)) {
    const used = markers.filter((m) => !thrownOut.includes(m));
    const pose = poseOf(used, layout, photo);
    if (pose !== null && !(best !== null && best.pose.residual <= pose.residual)) best = { pose, used, thrownOut };
  }
  return best;
}

function choices<T>(list: readonly T[], count: number): T[][] {
  if (count === 0) return [[]];
  return list.flatMap((first, k) => choices(list.slice(k + 1), count - 1).map((rest) => [first, ...rest]));
}

const squares = ({ pose, used }: Consensus): number => used.length * pose.residual ** 2;

/**
 * Pose of the markers that agree. Where the markers do not fit together, one or two are thrown out that, left out, take
 * four fifths of the sum of squares with them; at most a quarter of the markers (one of four to seven, two from eight),
 * and never so that fewer than three stay: a bent sheet must not be made flat by throwing out whatever does not fit.
 * Null when the markers settle no pose. markers: planned ones, each corner in px. Source: own.
 */
export function agreeOnPose(markers: readonly RefinedMarker[], layout: FrameLayout, photo: Photo): Consensus | null {
  let chosen = bestWithout(markers, 0, layout, photo);
  const most = Math.min(2, Math.max(1, Math.floor(markers.length / 4)), markers.length - markersNeeded);
  for (let drop = 1; drop <= most && !(chosen !== null && chosen.pose.residual < quiet); drop += 1) {
    const next = bestWithout(markers, drop, layout, photo);
    if (next === null) continue;
    if (chosen === null || squares(next) < (1 - tellingShare) * squares(chosen)) chosen = next;
  }
  return chosen;
}
