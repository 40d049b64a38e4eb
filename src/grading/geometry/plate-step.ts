import { mean, median, qrSolve } from "#numerics";
import type { PatchEdge } from "./patch-edge.ts";
import { asDrawn, type PlatePlace } from "./plate-place.ts";

/** standard deviations: how much a plate's picture is larger than planned, how far it is turned (rad) */
const scaleSpread = 0.01;
const turnSpread = 0.03;
/** sides that must be clear in each direction */
const sidesNeeded = 4;

/** How far the coupon lies from where it was taken to lie. */
export interface PlateStep {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
  readonly scale: number;
  readonly growth: number;
  readonly sides: number;
  readonly residual: number;
  readonly spread: number;
}

/** Small motion that explains the sides: off = n·(t + turn × r + scale·r) + growth. */
export function plateStep(
  all: readonly PatchEdge[],
  coupon: { readonly width: number; readonly height: number },
): PlateStep | null {
  const { about } = asDrawn(coupon);
  let edges = all;
  let result: PlateStep | null = null;
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
    const { coefficients, residuals, residualDeviation, unscaledCovariance } = qrSolve(design, right.length, 5, right);
    const misses = edges.map(({ error }, i) => Math.abs(residuals[i]! * error));
    const [x, y, angle, scale, growth] = coefficients as unknown as [number, number, number, number, number];
    const residual = Math.sqrt(mean(misses.map((m) => m * m)));
    const spread = Math.max(1, residualDeviation) * cornerSpread(unscaledCovariance, about);
    result = { x, y, turn: angle, scale, growth, sides: edges.length, residual, spread };
    const limit = Math.max(0.05e-3, 3 * 1.4826 * median(misses));
    const next = edges.filter((_, i) => misses[i]! <= limit);
    if (next.length === edges.length) break;
    edges = next;
  }
  return result;
}

/** m at a corner of the coupon, from the covariance of shift, turn and scale: (x − turn·ry + scale·rx, y + …). */
function cornerSpread(covariance: Float64Array, { x: rx, y: ry }: { readonly x: number; readonly y: number }): number {
  const rows = [1, -1].flatMap((sign) => [{ across: [1, 0, -sign * ry, rx], up: [0, 1, rx, sign * ry] }]);
  const variance = (g: readonly number[]): number =>
    g.reduce((sum, a, j) => sum + g.reduce((part, b, k) => part + a * b * covariance[5 * j + k]!, 0), 0);
  return Math.max(...rows.map(({ across, up }) => Math.sqrt(variance(across) + variance(up))));
}

/** The step was seen from the coupon as placed; its shift is turned and scaled along with it. */
export function moved(place: PlatePlace, by: PlateStep): PlatePlace {
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
