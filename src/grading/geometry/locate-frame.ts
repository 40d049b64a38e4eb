import { median } from "#numerics";
import type { FrameLayout, Photo } from "../frame.ts";
import type { Gate } from "../gate.ts";
import { agreeOnPose, type Consensus, markersNeeded } from "./consensus.ts";
import type { FindMarkers, FoundMarker, PlatePoint } from "./found-marker.ts";
import { noPose, otherPlan, outOfView, poseGates, tooFewMarkers, twoCoupons } from "./frame-gates.ts";
import { type Decode, lightPicture } from "./light-picture.ts";
import { type Pose, slopesAt } from "./pose.ts";
import type { RefinedMarker } from "./refine-marker.ts";
import { coarseMarkers, refineAll, searchIn, searchMissing, searchShrink } from "./search.ts";

/** The frame as a photograph shows it. */
export interface FrameView {
  readonly pose: Pose;
  readonly markers: readonly RefinedMarker[];
  /** numbers of planned markers that do not show, and of those that show in a wrong place */
  readonly missing: readonly number[];
  readonly thrownOut: readonly number[];
  /** px, root mean square over the corners used */
  readonly residual: number;
  /** least over the coupon */
  readonly pixelsPerMm: number;
  /** rad between the line of sight and the plate's normal at the middle of the picture */
  readonly tilt: number;
  /** m between 10 % and 90 % in linear light, across the more blurred direction; null where no edge was clear */
  readonly edgeWidth: number | null;
  /** m, standard error of a place, worst over the part of the coupon that shows */
  readonly spread: number;
}

/** A view where markers settled one, and every reason not to grade it. */
export interface FrameLook {
  readonly view: FrameView | null;
  readonly gates: readonly Gate[];
}

export interface LocateOptions {
  /** what the first search found (`coarseMarkers`), where it was done already */
  readonly found?: readonly FoundMarker[];
  /** light of a code, for tests only */
  readonly decode?: Decode;
}

/** share of the usual side below which something that looks like a marker is none of a second frame */
const likeOurs = 0.5;

/**
 * Finds a coupon's frame in a photograph: markers, corners refined in linear light, wrong ones thrown out, pose with one
 * radial term, scale, tilt and blur. Only planned markers enter the pose.
 * A part of the plate is judged by the part that shows. Errors: none of the photograph's making; reasons not to grade are returned.
 */
export function locateFrame(
  photo: Photo,
  layout: FrameLayout,
  findMarkers: FindMarkers,
  options: LocateOptions = {},
): FrameLook {
  const picture = lightPicture(photo, options.decode);
  const planned = new Set(layout.markers.map(({ id }) => id));
  const shrink = searchShrink(photo);
  const ours = (all: readonly FoundMarker[]): FoundMarker[] => all.filter(({ id }) => planned.has(id));
  let found = options.found ?? coarseMarkers(photo, findMarkers);
  let markers = refineAll(picture, ours(found));
  if (markers.length < markersNeeded && shrink > 1) {
    found = [...searchIn(photo, findMarkers, 1), ...found];
    markers = refineAll(picture, ours(found));
  }
  const foreign = refineAll(
    picture,
    found.filter(({ id }) => !planned.has(id)),
  );
  const absent = (): number[] => [...planned].filter((id) => !markers.some((m) => m.id === id));
  if (absent().length > planned.size - markersNeeded) return unsettled(layout, absent(), foreign);
  const doubled = secondFrame(markers, foreign);
  if (doubled.length > 0) return { view: null, gates: [twoCoupons(doubled)] };

  let agreed = agreeOnPose(markers, layout, photo);
  if (agreed !== null && absent().length > 0 && shrink > 1) {
    const more = searchMissing(photo, layout, findMarkers, agreed.pose, new Set(absent()));
    if (more.length > 0) {
      markers = refineAll(picture, [...markers, ...more]);
      agreed = agreeOnPose(markers, layout, photo);
    }
  }
  // Markers that lie on a line or nowhere that a camera could see them settle no pose at all.
  if (agreed === null) return { view: null, gates: [noPose] };
  return judge(agreed, layout, photo, absent());
}

function unsettled(layout: FrameLayout, missing: readonly number[], foreign: readonly RefinedMarker[]): FrameLook {
  const gate =
    foreign.length >= markersNeeded
      ? otherPlan(
          layout,
          foreign.map(({ id }) => id),
        )
      : tooFewMarkers(layout, missing);
  return { view: null, gates: [gate] };
}

/** Numbers that say that a second frame is in the picture: three of another plan, or two of this one's twice. */
function secondFrame(markers: readonly RefinedMarker[], foreign: readonly RefinedMarker[]): number[] {
  const usual = median(markers.map(({ side }) => side));
  const large = ({ side }: RefinedMarker): boolean => side > likeOurs * usual;
  const others = foreign.filter(large).map(({ id }) => id);
  if (new Set(others).size >= markersNeeded) return others;
  const ids = markers.filter(large).map(({ id }) => id);
  const twice = [...new Set(ids.filter((id, k) => ids.indexOf(id) !== k))];
  return twice.length >= 2 ? twice : [];
}

function judge({ pose, used, thrownOut }: Consensus, layout: FrameLayout, photo: Photo, missing: number[]): FrameLook {
  const corners = shownPlaces(pose, layout, photo);
  if (corners.length === 0) return { view: null, gates: [outOfView] };
  const scales = corners.map((at) => {
    const [a, b, c, d] = slopesAt(pose, at);
    return Math.sqrt(Math.abs(a * d - b * c)) / 1000;
  });
  const figures = {
    residual: pose.residual,
    pixelsPerMm: Math.min(...scales),
    edgeWidth: edgeWidthOf(used, layout),
    spread: Math.max(...corners.map(({ x, y }) => pose.spread(x, y))),
  };
  const view = {
    pose,
    markers: used,
    missing,
    thrownOut: thrownOut.map(({ id }) => id),
    tilt: tiltOf(pose, photo),
    ...figures,
  };
  return { view, gates: poseGates(figures) };
}

/** parts each way that the coupon is looked for in */
const parts = 8;

/** Places of a grid over the coupon, its corners included, that the picture shows: all of them unless it is a close-up. */
function shownPlaces(pose: Pose, { couponWidth, couponHeight }: FrameLayout, photo: Photo): PlatePoint[] {
  const steps = Array.from({ length: parts + 1 }, (_, k) => k / parts);
  return steps
    .flatMap((i) => steps.map((j) => ({ x: i * couponWidth, y: j * couponHeight })))
    .filter(({ x, y }) => {
      const { u, v } = pose.toPixel(x, y);
      return u >= 0 && v >= 0 && u <= photo.width && v <= photo.height;
    });
}

/** Upper and lower sides tell blur along y, left and right ones along x; the middle of each, the larger of the two. */
function edgeWidthOf(markers: readonly RefinedMarker[], layout: FrameLayout): number | null {
  const size = (id: number): number => layout.markers.find((m) => m.id === id)!.size;
  const widths = [0, 1].map((side) =>
    markers.flatMap(({ id, edgeShares }) =>
      [edgeShares[side], edgeShares[side + 2]].filter((w) => typeof w === "number").map((share) => share * size(id)),
    ),
  );
  return widths.some((list) => list.length === 0) ? null : Math.max(...widths.map((list) => median(list)));
}

/**
 * Tilt of the plate against the line of sight at the middle of the picture, rad: cos(tilt) is the ratio of the least to
 * the largest magnification there, whatever the lens. Uncertain by some degrees below 5°, where the ratio hardly moves.
 * Source: geometry of a pinhole camera with square pixels.
 */
export function tiltOf(pose: Pose, photo: { readonly width: number; readonly height: number }): number {
  const [a, b, c, d] = slopesAt(pose, pose.toPlate(photo.width / 2, photo.height / 2));
  const sum = a * a + b * b + c * c + d * d;
  const twice = 2 * Math.abs(a * d - b * c);
  const root = Math.sqrt(Math.max(0, sum * sum - twice * twice));
  return Math.acos(Math.min(1, Math.sqrt((sum - root) / (sum + root))));
}
