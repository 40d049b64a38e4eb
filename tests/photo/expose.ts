import { frameExtent } from "#grading";
import type { Camera } from "./camera.ts";
import type { GleamField } from "./gleam-field.ts";
import type { Lamp } from "./lamp.ts";
import { faceLength } from "./patch-face.ts";
import type { Plate } from "./plate.ts";
import { surface } from "./sheet-face.ts";

/** Places of the samples within a pixel: no two in one row or column, so that no edge is met by half of them at once. */
const few = [-0.125, -0.375, 0.375, -0.125, 0.125, 0.375, -0.375, 0.125];
const many = Array.from({ length: 16 }, (_, i) => [(i + 0.5) / 16 - 0.5, (((5 * i + 3) % 16) + 0.5) / 16 - 0.5]).flat();

export const paperReflectance = 0.9;
const inkReflectance = 0.04;

export interface Exposed {
  /** linear light, three a pixel; white paper in the middle of the sheet is `paperReflectance` */
  readonly linear: Float32Array;
  /** mean gleam over the pixels of each patch, share of white */
  readonly gleam: Float64Array;
}

export interface Scene {
  readonly plate: Plate;
  readonly camera: Camera;
  readonly lamp: Lamp;
  readonly gleam: GleamField | null;
  readonly rise: number;
  readonly labels: (x: number, y: number) => number;
}

/** Linear light on every pixel, averaged over its area: 4 places within one surface, 16 across an edge. */
export function expose(scene: Scene, width: number, height: number): Exposed {
  const { plate, camera, lamp, gleam, rise, labels } = scene;
  const { couponWidth, couponHeight } = plate.frame;
  const [midX, midY] = [couponWidth / 2, couponHeight / 2];
  const count = width * height;
  const [px, py, label] = [new Float32Array(count), new Float32Array(count), new Int16Array(count)];
  const place = new Float64Array(2);

  const shadeX = (rise * lamp.at[0]) / lamp.at[2];
  const shadeY = (rise * lamp.at[1]) / lamp.at[2];
  const inCoupon = (x: number, y: number): boolean => x >= 0 && y >= 0 && x < couponWidth && y < couponHeight;
  const onCoupon = (x: number, y: number): number => (inCoupon(x, y) ? surface.coat + 1 + plate.patchAt(x, y) : -1);
  for (let v = 0, k = 0; v < height; v++)
    for (let u = 0; u < width; u++, k++) {
      camera.toPlane(u + 0.5, v + 0.5, rise, place);
      let on = onCoupon(place[0]! + midX, place[1]! + midY);
      if (on < 0) {
        if (rise !== 0) camera.toPlane(u + 0.5, v + 0.5, 0, place);
        on = labels(place[0]! + midX, place[1]! + midY);
      }
      px[k] = place[0]! + midX;
      py[k] = place[1]! + midY;
      label[k] = on;
    }

  const linear = new Float32Array(3 * count);
  const sums = new Float64Array(plate.patches.length);
  const seen = new Float64Array(plate.patches.length);
  const face = new Float64Array(faceLength);
  const rgb = new Float64Array(3);
  const paint = (on: number, x: number, y: number): void => {
    if (on >= surface.coat) {
      plate.paint(on - surface.coat - 1, x, y, face);
      let shine = 0;
      if (gleam !== null) {
        shine = gleam.at(x, y, face[3]!, face[4]!);
        if (on > surface.coat) {
          sums[on - surface.coat - 1]! += shine;
          seen[on - surface.coat - 1]! += 1;
        }
      }
      rgb[0]! += face[0]! + shine;
      rgb[1]! += face[1]! + shine;
      rgb[2]! += face[2]! + shine;
    } else {
      // A face above the sheet throws a shadow away from the lamp, half filled by the light of the room.
      const shaded = rise > 0 && inCoupon(x + shadeX, y + shadeY);
      sheetColour(plate, on, x, y, shaded ? 0.5 : 1, rgb);
    }
  };
  for (let v = 0, k = 0; v < height; v++)
    for (let u = 0; u < width; u++, k++) {
      const on = label[k]!;
      const next = u + 1 < width ? k + 1 : k - 1;
      const under = v + 1 < height ? k + width : k - width;
      const edge =
        label[next] !== on ||
        label[under] !== on ||
        (u > 0 && label[k - 1] !== on) ||
        (v > 0 && label[k - width] !== on);
      const x = px[k]!;
      const y = py[k]!;
      const xu = (px[next]! - x) * (next - k);
      const yu = (py[next]! - y) * (next - k);
      const down = under > k ? 1 : -1;
      const xv = (px[under]! - x) * down;
      const yv = (py[under]! - y) * down;
      rgb.fill(0);
      if (gleam !== null && (on >= surface.coat || edge)) gleam.aim(x, y);
      const samples = edge ? many : few;
      for (let i = 0; i < samples.length; i += 2) {
        const sx = x + samples[i]! * xu + samples[i + 1]! * xv;
        const sy = y + samples[i]! * yu + samples[i + 1]! * yv;
        let what = on;
        if (edge) {
          what = onCoupon(sx, sy);
          if (what < 0) what = labels(sx, sy);
        }
        paint(what, sx, sy);
      }
      const light = (2 / samples.length) * lamp.light(x - midX, y - midY);
      linear[3 * k] = rgb[0]! * light;
      linear[3 * k + 1] = rgb[1]! * light;
      linear[3 * k + 2] = rgb[2]! * light;
    }
  for (let k = 0; k < sums.length; k++) sums[k] = seen[k]! > 0 ? sums[k]! / seen[k]! : 0;
  return { linear, gleam: sums };
}

function sheetColour(plate: Plate, on: number, x: number, y: number, light: number, rgb: Float64Array): void {
  const grain = light * (1 + 0.006 * plate.noise(2500 * x, 2500 * y));
  if (on === surface.table) {
    const wood = 1 + 0.12 * plate.noise(25 * x, 350 * y) + 0.06 * plate.noise(900 * x, 3000 * y);
    rgb[0]! += 0.23 * wood;
    rgb[1]! += 0.15 * wood;
    rgb[2]! += 0.09 * wood;
    return;
  }
  if (on === surface.finger) {
    rgb[0]! += 0.45 * grain;
    rgb[1]! += 0.28 * grain;
    rgb[2]! += 0.2 * grain;
    return;
  }
  const grey =
    on === surface.paper
      ? paperReflectance
      : on === surface.ink
        ? inkReflectance
        : plate.greys[on - surface.firstGrey]!;
  for (let c = 0; c < 3; c++) rgb[c]! += grey * grain;
}

/** Points that light and camera are set by: corners of the frame, m from its middle. */
export function outlineOf(plate: Plate): readonly (readonly [number, number])[] {
  const { width, height } = frameExtent(plate.frame);
  return [-0.5, 0.5].flatMap((a) => [-0.5, 0.5].map((b) => [a * width, b * height] as const));
}
