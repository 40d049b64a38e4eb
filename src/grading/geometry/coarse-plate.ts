import type { LightPicture } from "./light-picture.ts";
import { asDrawn, onFrame, type PlatePlace } from "./plate-place.ts";
import type { PlateMap } from "./pose.ts";

/** A rectangle on the coupon, m: lower left corner and size. */
export interface PlateRectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** m: grid of the coarse map, how far a coupon may lie off, steps of the search */
const cell = 0.4e-3;
const play = 3.6e-3;
const stride = 0.9e-3;
/** rad: how far it may be turned, and the step */
const turnMost = 0.036;
const turnStride = 0.009;
/** m: what is left out inside and outside of a planned edge, and how wide the ring around a patch is */
const edgeGuard = 0.4e-3;
const ringWidth = 1.2e-3;

/** Sums of light over rectangles of the frame's plane. */
type MeanLight = (left: number, bottom: number, right: number, top: number) => { sum: number; area: number };

/** Light of the area around the coupon on a grid, summed up so that any rectangle takes four look-ups. */
function meanLight(picture: LightPicture, map: PlateMap, area: PlateRectangle): MeanLight {
  const columns = Math.ceil(area.width / cell);
  const rows = Math.ceil(area.height / cell);
  const sums = new Float64Array((columns + 1) * (rows + 1));
  for (let row = 0; row < rows; row += 1) {
    let along = 0;
    for (let column = 0; column < columns; column += 1) {
      for (const [i, j] of [
        [0.25, 0.25],
        [0.75, 0.25],
        [0.25, 0.75],
        [0.75, 0.75],
      ] as const) {
        const at = map.toPixel(area.x + (column + i) * cell, area.y + (row + j) * cell);
        along += picture.at(at.u, at.v) / 4;
      }
      sums[(row + 1) * (columns + 1) + column + 1] = sums[row * (columns + 1) + column + 1]! + along;
    }
  }
  const below = (x: number, y: number): number => {
    const c = Math.min(columns - 1e-9, Math.max(0, (x - area.x) / cell));
    const r = Math.min(rows - 1e-9, Math.max(0, (y - area.y) / cell));
    const i = Math.floor(r) * (columns + 1) + Math.floor(c);
    const [right, up] = [c % 1, r % 1];
    const lower = (1 - right) * sums[i]! + right * sums[i + 1]!;
    const upper = (1 - right) * sums[i + columns + 1]! + right * sums[i + columns + 2]!;
    return (1 - up) * lower + up * upper;
  };
  return (left, bottom, right, top) => ({
    sum: below(right, top) - below(left, top) - below(right, bottom) + below(left, bottom),
    area: ((right - left) * (top - bottom)) / cell ** 2,
  });
}

/** Contrast of all patches with what surrounds them, if the coupon lay so. */
function contrast(light: MeanLight, patches: readonly PlateRectangle[], place: PlatePlace): number {
  let total = 0;
  for (const { x, y, width, height } of patches) {
    const middle = onFrame(place, x + width / 2, y + height / 2);
    const box = (grow: number) =>
      light(
        middle.x - width / 2 - grow,
        middle.y - height / 2 - grow,
        middle.x + width / 2 + grow,
        middle.y + height / 2 + grow,
      );
    const inside = box(-edgeGuard);
    const hole = box(edgeGuard);
    const outside = box(edgeGuard + ringWidth);
    total += Math.abs(inside.sum / inside.area - (outside.sum - hole.sum) / (outside.area - hole.area));
  }
  return total / patches.length;
}

/**
 * Where the coupon lies in its frame to about 0.6 mm: the place at which its patches stand out most from what surrounds
 * them, over ±3.6 mm and ±2°. patches, coupon: m. Source: own.
 */
export function coarsePlate(
  picture: LightPicture,
  map: PlateMap,
  coupon: { readonly width: number; readonly height: number },
  patches: readonly PlateRectangle[],
): PlatePlace {
  const rim = play + ringWidth;
  const area = { x: -rim, y: -rim, width: coupon.width + 2 * rim, height: coupon.height + 2 * rim };
  const light = meanLight(picture, map, area);
  const steps = (most: number, step: number): number[] => {
    const n = Math.round(most / step);
    return Array.from({ length: 2 * n + 1 }, (_, k) => (k - n) * step);
  };
  const drawn = asDrawn(coupon);
  let best = drawn;
  // The drawn place is looked at first and wins ties.
  let most = contrast(light, patches, best) * (1 + 1e-9);
  for (const turn of steps(turnMost, turnStride)) {
    for (const x of steps(play, stride)) {
      for (const y of steps(play, stride)) {
        const place = { ...drawn, x, y, turn };
        const found = contrast(light, patches, place);
        if (found > most) {
          most = found;
          best = place;
        }
      }
    }
  }
  return best;
}
