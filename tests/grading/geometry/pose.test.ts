import { describe, expect, it } from "vitest";
import { fitPose } from "#grading";
import { NumericalError } from "#numerics";
import { camera } from "./camera.ts";

const truth = camera({
  width: 1600,
  height: 1200,
  scale: 9000,
  aim: { x: 0.06, y: 0.05 },
  tilt: 22,
  towards: 130,
  turn: 33,
  radial: 0.03,
});
const places = [0, 1, 2, 3].flatMap((i) => [0, 1, 2].map((j) => ({ x: 0.035 * i, y: 0.04 * j })));
const pairs = places.map((plate) => ({ plate, pixel: truth.toPixel(plate.x, plate.y) }));

describe("pose", () => {
  it("is exact for exact points, lens and all, and goes there and back", () => {
    const pose = fitPose(pairs, truth);
    // only the hold on the radial term, 0.05 px for 0.02, keeps it off
    expect(Math.abs(pose.radial - 0.03)).toBeLessThan(2e-5);
    expect(pose.residual).toBeLessThan(1e-3);
    for (const [x, y] of [
      [0.05, 0.03],
      [0.1, 0.075],
      [0.004, 0.06],
    ] as const) {
      const pixel = pose.toPixel(x, y);
      const expected = truth.toPixel(x, y);
      expect(Math.hypot(pixel.u - expected.u, pixel.v - expected.v)).toBeLessThan(2e-3);
      const back = pose.toPlate(pixel.u, pixel.v);
      expect(Math.hypot(back.x - x, back.y - y)).toBeLessThan(1e-12);
    }
  });

  it("without the radial term leaves what the lens does", () => {
    expect(fitPose(pairs, truth, false).residual).toBeGreaterThan(0.5);
  });

  it("states a standard error that scatters as it says", () => {
    // 60 fits with errors of 0.2 px, from a fixed list; the middle and a place outside of the points
    let seed = 7;
    const even = (): number => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647;
    };
    const normal = (): number => Math.sqrt(-2 * Math.log(even())) * Math.cos(2 * Math.PI * even());
    for (const [x, y] of [
      [0.05, 0.04],
      [0.13, 0.1],
    ] as const) {
      const at = truth.toPixel(x, y);
      let squares = 0;
      let stated = 0;
      for (let k = 0; k < 60; k += 1) {
        const noisy = pairs.map(({ plate, pixel }) => ({
          plate,
          pixel: { u: pixel.u + 0.2 * normal(), v: pixel.v + 0.2 * normal() },
        }));
        const pose = fitPose(noisy, truth);
        const found = pose.toPlate(at.u, at.v);
        squares += ((found.x - x) ** 2 + (found.y - y) ** 2) / 60;
        stated += pose.spread(x, y) ** 2 / 60;
      }
      // a mean of 60 squares of two nearly independent normals scatters by about 13 %
      expect(squares / stated).toBeGreaterThan(0.65);
      expect(squares / stated).toBeLessThan(1.45);
    }
  });

  it("refuses what no camera sees", () => {
    const pose = fitPose(pairs, truth);
    expect(() => pose.toPixel(-50 * Math.cos((130 * Math.PI) / 180), -50 * Math.sin((130 * Math.PI) / 180))).toThrow(
      NumericalError,
    );
    const line = pairs.map(({ pixel }, k) => ({ plate: { x: k, y: 2 * k }, pixel }));
    expect(() => fitPose(line, truth)).toThrow(NumericalError);
  });
});
