import { type FrameLayout, type FrameMarker, markerCells, type Photo } from "#grading";
import type { Camera } from "./camera.ts";

/** Reflected light of a place on the plate, 0 to 1. */
export type Scene = (x: number, y: number) => number;

export const paper = 0.82;
export const ink = 0.045;

/** Frame sheet with its markers, and whatever lies on the coupon. */
export function frameScene(markers: readonly FrameMarker[], coupon: Scene = () => 0.35, layout?: FrameLayout): Scene {
  const cells = markers.map(({ id }) => markerCells(id));
  return (x, y) => {
    for (let k = 0; k < markers.length; k += 1) {
      const m = markers[k]!;
      const column = Math.floor((6 * (x - m.x)) / m.size);
      const row = Math.floor((6 * (m.y + m.size - y)) / m.size);
      if (column >= 0 && column < 6 && row >= 0 && row < 6) return cells[k]![row]![column]! ? ink : paper;
    }
    if (layout !== undefined && x > 0 && y > 0 && x < layout.couponWidth && y < layout.couponHeight)
      return coupon(x, y);
    return paper;
  };
}

const encode = (light: number): number => {
  const l = Math.min(1, Math.max(0, light));
  return Math.round(255 * (l <= 0.0031308 ? 12.92 * l : 1.055 * l ** (1 / 2.4) - 0.055));
};

export interface RenderOptions {
  /** px, standard deviation of the blur along u and along v */
  readonly blurU?: number;
  readonly blurV?: number;
  /** standard deviation of noise in codes, seeded */
  readonly noise?: number;
}

/** Places in a pixel that lie in no rows whichever way an edge runs: Roberts's R2 sequence. */
const places = Array.from(
  { length: 144 },
  (_, k) => [(0.5 + k * 0.7548776662466927) % 1, (0.5 + k * 0.5698402909980532) % 1] as const,
);

/** Light averaged over each pixel (144 places where it changes), then coded as sRGB. */
export function render(view: Camera, scene: Scene, options: RenderOptions = {}): Photo {
  const { width, height } = view;
  const at = (u: number, v: number): number => {
    const { x, y } = view.toPlate(u, v);
    return scene(x, y);
  };
  let light = new Float64Array(width * height);
  let upper = Float64Array.from({ length: width + 1 }, (_, c) => at(c, 0));
  for (let row = 0; row < height; row += 1) {
    const lower = Float64Array.from({ length: width + 1 }, (_, c) => at(c, row + 1));
    for (let c = 0; c < width; c += 1) {
      const first = upper[c]!;
      if (upper[c + 1] === first && lower[c] === first && lower[c + 1] === first) {
        light[row * width + c] = first;
        continue;
      }
      let sum = 0;
      for (const [du, dv] of places) sum += at(c + du, row + dv);
      light[row * width + c] = sum / places.length;
    }
    upper = lower;
  }
  if (options.blurU !== undefined) light = blur(light, width, height, options.blurU, 1, 0);
  if (options.blurV !== undefined) light = blur(light, width, height, options.blurV, 0, 1);
  const rgb = new Uint8Array(3 * width * height);
  let seed = 12345;
  const random = (): number => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return seed / 2147483648;
  };
  light.forEach((value, i) => {
    // the sum of twelve even numbers is close enough to normal
    let dice = 0;
    if (options.noise !== undefined) for (let k = 0; k < 12; k += 1) dice += random();
    const code = encode(value) + (options.noise ?? 0) * (dice - (options.noise === undefined ? 0 : 6));
    rgb.fill(Math.min(255, Math.max(0, Math.round(code))), 3 * i, 3 * i + 3);
  });
  return { width, height, rgb, space: "srgb" };
}

function blur(light: Float64Array<ArrayBuffer>, width: number, height: number, sigma: number, du: number, dv: number) {
  const reach = Math.ceil(4 * sigma);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, k) => Math.exp(-0.5 * ((k - reach) / sigma) ** 2));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return Float64Array.from(light, (_, i) => {
    const u = i % width;
    const v = Math.floor(i / width);
    let sum = 0;
    for (let k = -reach; k <= reach; k += 1) {
      const c = Math.min(width - 1, Math.max(0, u + k * du));
      const r = Math.min(height - 1, Math.max(0, v + k * dv));
      sum += weights[k + reach]! * light[r * width + c]!;
    }
    return sum / total;
  });
}
