import { mean, median, qrSolve } from "#numerics";
import type { Photo } from "../frame.ts";
import { coarsePlate, type PlateRectangle } from "./coarse-plate.ts";
import { lightPicture } from "./light-picture.ts";
import { type PatchEdge, patchEdges } from "./patch-edge.ts";
import { mapOfPlate, type PlatePlace } from "./plate-place.ts";
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
}

/** m on either side of a planned edge, in turn: first what the coarse search may be off, then what gives least noise */
const looks = [1.6e-3, 1.2e-3, 1e-3] as const;
/** standard deviations: how much a plate's picture is larger than planned, how far it is turned (rad) */
const scaleSpread = 0.01;
const turnSpread = 0.03;
/** sides that must be clear in each direction, and the residual in m above which they do not fit together */
const sidesNeeded = 4;
const residualMost = 0.3e-3;

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
  const about = { x: coupon.width / 2, y: coupon.height / 2 };
  const drawn: PlatePlace = { x: 0, y: 0, turn: 0, scale: 1, about };
  const kept: PlateFit = { map, place: drawn, settled: false, sides: 0, residual: 0, growth: 0 };
  if (patches.length === 0) return kept;
  const picture = lightPicture(photo);
  let place = coarsePlate(picture, map, coupon, patches);
  let last: Step | null = null;
  let growth = 0;
  for (const half of looks) {
    const now = mapOfPlate(map, place);
    const edges = patches.flatMap((patch) => patchEdges(picture, now, grown(patch, growth), half));
    last = step(edges, about);
    if (last === null) return kept;
    place = moved(place, last);
    growth += last.growth;
  }
  if (last === null || !(last.residual < residualMost)) return kept;
  const { sides, residual } = last;
  return { map: mapOfPlate(map, place), place, settled: true, sides, residual, growth };
}

const grown = (p: PlateRectangle, by: number): PlateRectangle => ({
  x: p.x - by,
  y: p.y - by,
  width: Math.max(1e-4, p.width + 2 * by),
  height: Math.max(1e-4, p.height + 2 * by),
});

interface Step {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
  readonly scale: number;
  readonly growth: number;
  readonly sides: number;
  readonly residual: number;
}

/** Small motion that explains the sides: off = n·(t + turn × r + scale·r) + growth. */
function step(all: readonly PatchEdge[], about: { readonly x: number; readonly y: number }): Step | null {
  let edges = all;
  let result: Step | null = null;
  for (let turn = 0; turn < 4; turn += 1) {
    const along = edges.filter(({ nx }) => nx !== 0).length;
    if (along < sidesNeeded || edges.length - along < sidesNeeded) return null;
    const rows = edges.map(({ at, nx, ny, error }) => {
      const rx = at.x - about.x;
      const ry = at.y - about.y;
      return [nx, ny, ny * rx - nx * ry, nx * rx + ny * ry, 1].map((entry) => entry / error);
    });
    const held = [
      [0, 0, 1 / turnSpread, 0, 0],
      [0, 0, 0, 1 / scaleSpread, 0],
    ];
    const design = Float64Array.from([...rows, ...held].flat());
    const right = [...edges.map(({ off, error }) => off / error), 0, 0];
    const { coefficients, residuals } = qrSolve(design, right.length, 5, right);
    const misses = edges.map(({ error }, i) => Math.abs(residuals[i]! * error));
    const [x, y, angle, scale, growth] = coefficients as unknown as [number, number, number, number, number];
    const residual = Math.sqrt(mean(misses.map((m) => m * m)));
    result = { x, y, turn: angle, scale, growth, sides: edges.length, residual };
    const limit = Math.max(0.05e-3, 3 * 1.4826 * median(misses));
    const next = edges.filter((_, i) => misses[i]! <= limit);
    if (next.length === edges.length) break;
    edges = next;
  }
  return result;
}

/** The step was seen from the coupon as placed; its shift is turned and scaled along with it. */
function moved(place: PlatePlace, by: Step): PlatePlace {
  const c = place.scale * Math.cos(place.turn);
  const s = place.scale * Math.sin(place.turn);
  return {
    ...place,
    x: place.x + c * by.x - s * by.y,
    y: place.y + s * by.x + c * by.y,
    turn: place.turn + by.turn,
    scale: place.scale * (1 + by.scale),
  };
}
