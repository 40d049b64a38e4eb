import { fitNonlinear, NumericalError } from "#numerics";
import type { PixelPoint, PlatePoint } from "./found-marker.ts";
import { applyHomography, estimateHomography, type Homography, invertHomography } from "./homography.ts";
import { bend, unbend } from "./lens.ts";

/** From plate to picture and back. */
export interface PlateMap {
  /** px of a place on the plate in m; NumericalError where the camera cannot see it */
  toPixel(x: number, y: number): PixelPoint;
  /** m on the plate of a place in the picture in px */
  toPlate(u: number, v: number): PlatePoint;
}

/** Where the plane of the frame stood before the camera. */
export interface Pose extends PlateMap {
  /** radial term of the lens about the middle of the picture, in half diagonals */
  readonly radial: number;
  /** px, root mean square distance between measured and fitted points */
  readonly residual: number;
  /** px, distance of each point that was fitted */
  readonly distances: readonly number[];
  /** m, standard error of the place that a point of the plate is given */
  spread(x: number, y: number): number;
}

export interface PosePair {
  readonly plate: PlatePoint;
  readonly pixel: PixelPoint;
}

/** standard deviation of the radial term over phones, which correct most of it themselves (own choice) */
const radialSpread = 0.02;
/** px, how well a corner is known at best; keeps three markers without misfit from looking exact */
const cornerSpread = 0.05;

/** Change of variables that keeps all numbers of the fit near 1. */
interface Frame {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly u: number;
  readonly v: number;
  readonly radius: number;
}

function frameOf(pairs: readonly PosePair[], picture: { readonly width: number; readonly height: number }): Frame {
  const x = pairs.reduce((sum, p) => sum + p.plate.x, 0) / pairs.length;
  const y = pairs.reduce((sum, p) => sum + p.plate.y, 0) / pairs.length;
  const length = Math.max(...pairs.map((p) => Math.hypot(p.plate.x - x, p.plate.y - y)));
  const { width, height } = picture;
  return { x, y, length, u: width / 2, v: height / 2, radius: Math.hypot(width, height) / 2 };
}

const homographyOf = (p: ArrayLike<number>): Homography => [p[0]!, p[1]!, p[2]!, p[3]!, p[4]!, p[5]!, p[6]!, p[7]!, 1];

/** px of a place on the plate under the nine parameters: eight of the homography, then the radial term. */
function project(frame: Frame, p: ArrayLike<number>, at: PlatePoint): [number, number] {
  const h = homographyOf(p);
  const x = (at.x - frame.x) / frame.length;
  const y = (at.y - frame.y) / frame.length;
  const [a, b] = applyHomography(h, x, y);
  const [u, v] = bend(p[8]!, a, b);
  return [frame.u + frame.radius * u, frame.v + frame.radius * v];
}

/**
 * Pose of a plane: the homography and the radial term about the middle of the picture that make the sum of squared
 * distances in the picture least. Start: normalised direct linear transform without radial term; then
 * Levenberg-Marquardt steps. The radial term is held to 0 ± 0.02 by one further residual, with the weight of a corner.
 * pairs: m and px, six or more; picture: px. Range: planes in front of the camera, |radial| below about 0.3.
 * Errors: NumericalError for points that do not settle it.
 * Source: Hartley and Zisserman, Multiple View Geometry, 2nd ed. (2003), algorithm 4.3; radial term as in `bend`.
 */
export function fitPose(
  pairs: readonly PosePair[],
  picture: { readonly width: number; readonly height: number },
  withRadial = true,
): Pose {
  const frame = frameOf(pairs, picture);
  const start = estimateHomography(
    pairs.map(({ plate }) => [(plate.x - frame.x) / frame.length, (plate.y - frame.y) / frame.length]),
    pairs.map(({ pixel }) => [(pixel.u - frame.u) / frame.radius, (pixel.v - frame.v) / frame.radius]),
  ).slice(0, 8);
  const points = 2 * pairs.length + (withRadial ? 1 : 0);
  const fit = fitNonlinear({
    points,
    start: withRadial ? [...start, 0] : start,
    sizes: Array.from({ length: withRadial ? 9 : 8 }, () => 1),
    residuals(p, out) {
      const all = withRadial ? p : [...p, 0];
      pairs.forEach(({ plate, pixel }, i) => {
        const [u, v] = project(frame, all, plate);
        out[2 * i] = u - pixel.u;
        out[2 * i + 1] = v - pixel.v;
      });
      if (withRadial) out[points - 1] = (p[8]! / radialSpread) * cornerSpread;
    },
  });
  const parameters = withRadial ? Array.from(fit.parameters) : [...fit.parameters, 0];
  const distances = pairs.map((_, i) => Math.hypot(fit.residuals[2 * i]!, fit.residuals[2 * i + 1]!));
  const residual = Math.sqrt(distances.reduce((sum, d) => sum + d * d, 0) / pairs.length);
  const map = mapOf(frame, parameters);
  const factor = Math.max(1, cornerSpread / Math.max(fit.residualDeviation, 1e-12));
  return {
    ...map,
    radial: parameters[8]!,
    residual,
    distances,
    spread: (x, y) => factor * plateSpread(frame, parameters, fit.covariance, fit.parameters.length, map, { x, y }),
  };
}

/** The map of nine parameters; its numbers are taken out once, since it is asked some million times a photograph. */
function mapOf(frame: Frame, p: readonly number[]): PlateMap {
  const [h0, h1, h2, h3, h4, h5, h6, h7, k] = p as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const inverse = invertHomography(homographyOf(p));
  return {
    toPixel(x, y) {
      const px = (x - frame.x) / frame.length;
      const py = (y - frame.y) / frame.length;
      const depth = h6 * px + h7 * py + 1;
      if (!(depth > 0)) throw new NumericalError("pose: that place lies behind the camera");
      const a = (h0 * px + h1 * py + h2) / depth;
      const b = (h3 * px + h4 * py + h5) / depth;
      const bent = frame.radius * (1 + k * (a * a + b * b));
      return { u: frame.u + bent * a, v: frame.v + bent * b };
    },
    toPlate(u, v) {
      const [a, b] = unbend(k, (u - frame.u) / frame.radius, (v - frame.v) / frame.radius);
      const [x, y] = applyHomography(inverse, a, b);
      return { x: frame.x + frame.length * x, y: frame.y + frame.length * y };
    },
  };
}

/** px per m at a place of the plate: the four slopes ∂u/∂x, ∂u/∂y, ∂v/∂x, ∂v/∂y. */
export function slopesAt(map: PlateMap, { x, y }: PlatePoint, step = 1e-4): [number, number, number, number] {
  const [left, right] = [map.toPixel(x - step, y), map.toPixel(x + step, y)];
  const [below, above] = [map.toPixel(x, y - step), map.toPixel(x, y + step)];
  return [
    (right.u - left.u) / (2 * step),
    (above.u - below.u) / (2 * step),
    (right.v - left.v) / (2 * step),
    (above.v - below.v) / (2 * step),
  ];
}

/** m: √(trace of the plate covariance), the pixel covariance g·C·gᵀ carried back through the slopes of the map. */
function plateSpread(
  frame: Frame,
  p: readonly number[],
  covariance: Float64Array,
  n: number,
  map: PlateMap,
  at: PlatePoint,
): number {
  const step = 1e-6;
  const slopes = Array.from({ length: n }, (_, k) => {
    const moved = (sign: number) =>
      project(
        frame,
        p.map((value, j) => (j === k ? value + sign * step : value)),
        at,
      );
    const [up, down] = [moved(1), moved(-1)];
    return [(up[0] - down[0]) / (2 * step), (up[1] - down[1]) / (2 * step)] as const;
  });
  const [a, b, c, d] = slopesAt(map, at);
  const determinant = a * d - b * c;
  const onPlate = slopes.map(([u, v]) => [(d * u - b * v) / determinant, (a * v - c * u) / determinant] as const);
  let trace = 0;
  for (let j = 0; j < n; j += 1) {
    for (let k = 0; k < n; k += 1) {
      trace += covariance[j * n + k]! * (onPlate[j]![0] * onPlate[k]![0] + onPlate[j]![1] * onPlate[k]![1]);
    }
  }
  return Math.sqrt(Math.max(0, trace));
}
