import type { ShotDraw } from "./draw-shot.ts";
import type { Camera } from "./camera.ts";
import { gleamOf, type Lamp } from "./lamp.ts";
import type { Plate } from "./plate.ts";

/** Light that a place of the coupon throws into the eye without having gone under its surface, share of white. */
export interface GleamField {
  /** to be called first, for the place (m from the coupon's corner) that the next samples lie around */
  aim(x: number, y: number): void;
  at(x: number, y: number, hiding: number, melt: number): number;
}

/** Mirror geometry of a near lamp and a near eye on brushed metal that is bowed, wavy and rippled where it melted. */
export function gleamField(plate: Plate, shot: ShotDraw, camera: Camera, lamp: Lamp): GleamField {
  const { frame, noise, bow } = plate;
  const [midX, midY] = [frame.couponWidth / 2, frame.couponHeight / 2];
  const [c, s] = [Math.cos(plate.brushing), Math.sin(plate.brushing)];
  const melted = { along: 0.22, across: 0.22, peak: 0.7 * shot.metalGleam.peak };
  // In an array, because numbers that closures share are made anew each time they change.
  const slope = new Float64Array(2);
  return {
    aim(x, y) {
      const px = x - midX;
      const py = y - midY;
      const lx = lamp.at[0] - px;
      const ly = lamp.at[1] - py;
      const lz = lamp.at[2];
      const ex = camera.eye[0] - px;
      const ey = camera.eye[1] - py;
      const ez = camera.eye[2];
      const l = 1 / Math.sqrt(lx * lx + ly * ly + lz * lz);
      const e = 1 / Math.sqrt(ex * ex + ey * ey + ez * ez);
      const up = lz * l + ez * e;
      slope[0] = (lx * l + ex * e) / up + bow[0] * px;
      slope[1] = (ly * l + ey * e) / up + bow[1] * py;
    },
    at(x, y, hiding, melt) {
      const slopeX = slope[0]!;
      const slopeY = slope[1]!;
      let gleam = 0;
      if (hiding > 0)
        gleam += hiding * gleamOf(shot.coatGleam, slopeX + 0.004 * noise(700 * x + 300 * y, 700 * y - 300 * x), slopeY);
      if (hiding < 1) {
        const a = c * x + s * y;
        const b = c * y - s * x;
        let along = c * slopeX + s * slopeY;
        let across = c * slopeY - s * slopeX;
        if (melt > 0) {
          along += 0.25 * noise(2600 * x, 2600 * y);
          across += 0.25 * noise(2600 * y, 2600 * x + 9);
          gleam += (1 - hiding) * gleamOf(melted, along, across);
        } else {
          across += 0.05 * noise(60 * a, 4500 * b);
          along += 0.015 * noise(90 * x, 90 * y);
          gleam += (1 - hiding) * gleamOf(shot.metalGleam, along, across) * (1 + 0.25 * noise(80 * a, 6000 * b));
        }
      }
      return gleam > 0 ? gleam : 0;
    },
  };
}
