import { beforeAll, describe, expect, it } from "vitest";
import { fitPlate, type FrameView, frameFor, locateFrame, type Photo } from "#grading";
import type { Camera } from "./camera.ts";
import { frameScene, render } from "./render.ts";
import { look, openFinder } from "./setup-frame.ts";

const coupon = { width: 100e-3, height: 70e-3 };
const layout = frameFor(coupon, { coupon: 4 });
const patches = [0, 1, 2, 3].flatMap((i) =>
  [0, 1, 2].map((j) => ({ x: 8e-3 + i * 22e-3, y: 8e-3 + j * 20e-3, width: 15e-3, height: 15e-3 })),
);
/** light of the patches on a layer of 0.3: some hardly differ from it */
const light = [0.5, 0.1, 0.3, 0.45, 0.28, 0.7, 0.3, 0.3, 0.4, 0.12, 0.2, 0.6];
const truth = { x: 2.1e-3, y: -1.6e-3, turn: 0.012, scale: 1.004 };

/** Where a place of the coupon lies on the frame. */
function placed(x: number, y: number): [number, number] {
  const [rx, ry] = [x - 50e-3, y - 35e-3];
  const [c, s] = [truth.scale * Math.cos(truth.turn), truth.scale * Math.sin(truth.turn)];
  return [50e-3 + truth.x + c * rx - s * ry, 35e-3 + truth.y + s * rx + c * ry];
}

function coat(lights: readonly number[], wider = 0) {
  const [c, s] = [Math.cos(truth.turn) / truth.scale, Math.sin(truth.turn) / truth.scale];
  return (fx: number, fy: number): number => {
    const [rx, ry] = [fx - 50e-3 - truth.x, fy - 35e-3 - truth.y];
    const [x, y] = [50e-3 + c * rx + s * ry, 35e-3 - s * rx + c * ry];
    const k = patches.findIndex(
      (p) => x > p.x - wider && x < p.x + p.width + wider && y > p.y - wider && y < p.y + p.height + wider,
    );
    return k < 0 ? 0.3 : lights[k]!;
  };
}

let locate: (photo: Photo) => FrameView;
beforeAll(async () => {
  const { findMarkers } = await openFinder();
  locate = (photo) => locateFrame(photo, layout, findMarkers).view!;
});

const camera = look({
  width: 820,
  height: 640,
  scale: 5000,
  aim: { x: 51e-3, y: 35e-3 },
  tilt: 14,
  towards: 40,
  radial: 0.006,
});
const shot = (lights: readonly number[], wider = 0): Photo =>
  render(camera, frameScene(layout.markers, coat(lights, wider), layout), { blurU: 0.8, blurV: 0.8, noise: 2 });

/** m: how far the middles of the patches are taken from where they are at worst. */
function worstCentre(toPlate: (u: number, v: number) => { x: number; y: number }, view: Camera): number {
  return Math.max(
    ...patches.map((p) => {
      const [x, y] = [p.x + p.width / 2, p.y + p.height / 2];
      const pixel = view.toPixel(...placed(x, y));
      const found = toPlate(pixel.u, pixel.v);
      return Math.hypot(found.x - x, found.y - y);
    }),
  );
}

describe("a coupon that lies loosely in its frame", () => {
  it("is found by its patches: middles to 0.03 mm, though it lies 2.6 mm off, turned and nearer", () => {
    const photo = shot(light);
    const view = locate(photo);
    const fit = fitPlate(photo, view.pose, coupon, patches);
    expect(fit.settled).toBe(true);
    expect(worstCentre(view.pose.toPlate, camera)).toBeGreaterThan(2e-3);
    expect(worstCentre(fit.map.toPlate, camera)).toBeLessThan(0.03e-3);
    expect(Math.abs(fit.place.x - truth.x)).toBeLessThan(0.02e-3);
    expect(Math.abs(fit.place.y - truth.y)).toBeLessThan(0.02e-3);
    expect(Math.abs(fit.place.turn - truth.turn)).toBeLessThan(0.5e-3);
    expect(Math.abs(fit.place.scale - truth.scale)).toBeLessThan(0.5e-3);
    expect(Math.abs(fit.growth)).toBeLessThan(0.02e-3);
    expect(fit.residual).toBeLessThan(0.05e-3);
    // there and back
    const pixel = fit.map.toPixel(13e-3, 44e-3);
    const back = fit.map.toPlate(pixel.u, pixel.v);
    expect(Math.hypot(back.x - 13e-3, back.y - 44e-3)).toBeLessThan(1e-9);
  });

  it("is found although every patch came out 0.3 mm wider than planned, and that is said", () => {
    const photo = shot(light, 0.3e-3);
    const fit = fitPlate(photo, locate(photo).pose, coupon, patches);
    expect(worstCentre(fit.map.toPlate, camera)).toBeLessThan(0.03e-3);
    expect(fit.growth).toBeGreaterThan(0.27e-3);
    expect(fit.growth).toBeLessThan(0.33e-3);
  });

  it("is taken to lie as drawn where hardly a patch shows", () => {
    const photo = shot(light.map((value, k) => (k === 5 ? value : 0.3)));
    const view = locate(photo);
    const fit = fitPlate(photo, view.pose, coupon, patches);
    expect(fit.settled).toBe(false);
    expect(fit.place).toMatchObject({ x: 0, y: 0, turn: 0, scale: 1 });
    expect(fit.map).toBe(view.pose);
    expect(fitPlate(photo, view.pose, coupon, []).settled).toBe(false);
  });
});
