import { beforeAll, describe, expect, it } from "vitest";
import { type FindMarkers, type FrameMarker, frameIds, locateFrame } from "#grading";
import { camera } from "./camera.ts";
import { frameScene, paper, render } from "./render.ts";
import { layout, look, openFinder, worstCorner, worstPlace } from "./setup-frame.ts";

let findMarkers: FindMarkers;
beforeAll(async () => {
  findMarkers = (await openFinder()).findMarkers;
});

const without = (...ids: number[]): FrameMarker[] => layout.markers.filter(({ id }) => !ids.includes(id));
const scene = (markers: readonly FrameMarker[] = layout.markers) => frameScene(markers, () => 0.35, layout);
const gatesOf = (photo: Parameters<typeof locateFrame>[0]) => locateFrame(photo, layout, findMarkers).gates;

describe("a frame is located", () => {
  it.each([
    ["straight from above", {}],
    ["tilted 15°, turned, with a lens that bends outwards", { tilt: 15, towards: 40, turn: 7, radial: 0.01 }],
    ["tilted 28° upside down, with a lens that bends inwards", { tilt: 28, towards: 200, turn: 171, radial: -0.015 }],
  ])("%s: corners to 0.05 px, places to 0.03 mm", (_how, options) => {
    const truth = look(options);
    const { view, gates } = locateFrame(render(truth, scene()), layout, findMarkers);
    expect(gates).toEqual([]);
    expect(view!.markers.length).toBe(8);
    expect(worstCorner(view!, truth)).toBeLessThan(0.05);
    expect(worstPlace(view!, truth)).toBeLessThan(0.03e-3);
    expect(view!.residual).toBeLessThan(0.03);
    expect(Math.abs(view!.pose.radial - truth.radial)).toBeLessThan(5e-4);
    const tilt = (view!.tilt * 180) / Math.PI;
    expect(Math.abs(tilt - truth.tilt)).toBeLessThan(truth.tilt === 0 ? 2 : 0.1);
    // least √(pixels per square mm) over the corners of the coupon, from the true camera
    const scales = [0, 80e-3].flatMap((x) =>
      [0, 60e-3].map((y) => {
        const [o, a, b] = [truth.toPixel(x, y), truth.toPixel(x + 1e-5, y), truth.toPixel(x, y + 1e-5)];
        return Math.sqrt(Math.abs((a.u - o.u) * (b.v - o.v) - (a.v - o.v) * (b.u - o.u))) / 1e-2;
      }),
    );
    expect(Math.abs(view!.pixelsPerMm - Math.min(...scales))).toBeLessThan(2e-3);
  });

  it("through noise and blur, and says how wide the edges are", () => {
    const truth = look({ tilt: 12, towards: -60, radial: 0.004 });
    // Gaussian blur of 1 px along u and 1.6 px along v; a pixel adds 1/12 px²; 10 % to 90 % is 2.563 deviations.
    const photo = render(truth, scene(), { blurU: 1, blurV: 1.6, noise: 2 });
    const { view, gates } = locateFrame(photo, layout, findMarkers);
    expect(gates).toEqual([]);
    expect(worstCorner(view!, truth)).toBeLessThan(0.1);
    expect(worstPlace(view!, truth)).toBeLessThan(0.03e-3);
    const expected = (2.563 * Math.sqrt(1.6 ** 2 + 1 / 12)) / 6.5;
    expect(Math.abs(view!.edgeWidth! * 1e3 - expected)).toBeLessThan(0.04 * expected);
    // The error it states is of the size of the error it has.
    expect(view!.spread).toBeGreaterThan(worstPlace(view!, truth) / 4);
    expect(view!.spread).toBeLessThan(0.03e-3);
  });

  it("only in linear light: on codes dark markers shrink, and the test of corners would fail", () => {
    const truth = look({ tilt: 15, towards: 40 });
    const photo = render(truth, scene(), { blurU: 1, blurV: 1 });
    const linear = locateFrame(photo, layout, findMarkers).view!;
    const codes = locateFrame(photo, layout, findMarkers, { decode: (code) => code }).view!;
    expect(worstCorner(linear, truth)).toBeLessThan(0.05);
    expect(worstCorner(codes, truth)).toBeGreaterThan(0.3);
    const side = (view: typeof linear): number =>
      view.markers.reduce((sum, m) => sum + m.side, 0) / view.markers.length;
    expect(side(linear) - side(codes)).toBeGreaterThan(0.4);
  });

  it("from the three markers that show", () => {
    const truth = look({ tilt: 10, towards: 70 });
    const [a, , c, , , f] = frameIds(2) as [number, number, number, number, number, number];
    const kept = layout.markers.filter(({ id }) => [a, c, f].includes(id));
    const { view, gates } = locateFrame(render(truth, scene(kept)), layout, findMarkers);
    expect(gates).toEqual([]);
    expect(view!.missing).toEqual(frameIds(2).filter((id) => ![a, c, f].includes(id)));
    expect(worstPlace(view!, truth)).toBeLessThan(0.03e-3);
  });

  it("with a marker in a wrong place thrown out, and a second one as well", () => {
    const truth = look({ tilt: 10, towards: 70 });
    const [first, second] = [layout.markers[3]!, layout.markers[6]!];
    const moved = { ...first, x: first.x + 1.2e-3, y: first.y - 0.5e-3 };
    const one = locateFrame(render(truth, scene([...without(first.id), moved])), layout, findMarkers);
    expect(one.gates).toEqual([]);
    expect(one.view!.thrownOut).toEqual([first.id]);
    expect(worstPlace(one.view!, truth)).toBeLessThan(0.03e-3);

    const larger = { ...second, x: second.x - 0.8e-3, size: second.size * 1.1 };
    const two = locateFrame(
      render(truth, scene([...without(first.id, second.id), moved, larger])),
      layout,
      findMarkers,
    );
    expect(two.gates).toEqual([]);
    expect([...two.view!.thrownOut].sort((x, y) => x - y)).toEqual([first.id, second.id]);
    expect(worstPlace(two.view!, truth)).toBeLessThan(0.03e-3);
  });
});

describe("a photograph is refused in one sentence", () => {
  it("with fewer than three markers: which are missing, and where they are", () => {
    const kept = layout.markers.slice(0, 2);
    const { view, gates } = locateFrame(render(look(), scene(kept)), layout, findMarkers);
    expect(view).toBeNull();
    expect(gates.map(({ gate }) => gate)).toEqual(["markers"]);
    expect(gates[0]!.sentence).toContain("Only 2 of 8 markers can be read and 3 are needed");
    expect(gates[0]!.sentence).toContain("10 (lower right corner), 11 (middle of the right side)");
    expect(gates[0]!.sentence).not.toContain("9 (middle");
    expect(gatesOf(render(look(), () => paper))[0]!.sentence).toContain("Only 0 of 8");
  });

  it("whose markers do not lie as planned", () => {
    // The sheet rolls up: the upper row of markers and the right one stand 0.8 to 1.5 mm off.
    const rolled = layout.markers.map((m, k) => ({ ...m, y: m.y + [0, 1.2, 0, -0.9, 1, -1.5, 0.8, 1.1][k]! * 1e-3 }));
    const gates = gatesOf(render(look(), scene(rolled)));
    expect(gates.map(({ gate }) => gate)).toEqual(["residual"]);
    expect(gates[0]!.sentence).toMatch(/^The markers lie [\d.]+ px off their planned places and 1\.5 px is the most/);
  });

  it("from too far away", () => {
    const far = look({ width: 720, height: 560, scale: 3900 });
    const gates = gatesOf(render(far, scene()));
    expect(gates.map(({ gate }) => gate)).toEqual(["scale"]);
    expect(gates[0]!.sentence).toContain("at 3.9 px/mm and 4 px/mm is the least");
    expect(gatesOf(render(look({ width: 720, height: 560, scale: 4200 }), scene()))).toEqual([]);
  });

  it("out of focus or shaken in one direction", () => {
    // 0.8 mm from 10 % to 90 % are 5.2 px here, or a deviation of 2.03 px.
    expect(gatesOf(render(look(), scene(), { blurU: 1.75, blurV: 1.75 }))).toEqual([]);
    for (const blur of [{ blurU: 2.5, blurV: 2.5 }, { blurU: 0.5, blurV: 2.5 }, { blurU: 2.5 }]) {
      const gates = gatesOf(render(look(), scene(), blur));
      expect(gates.map(({ gate }) => gate)).toEqual(["blur"]);
      expect(gates[0]!.sentence).toMatch(
        /^Edges of the markers are (0\.9\d*|1(\.\d)?) mm wide and 0\.8 mm is the most/,
      );
    }
  });

  it("of a frame that was planned for another coupon", () => {
    const others = layout.markers.map((m, k) => ({ ...m, id: frameIds(5)[k]! }));
    const gates = gatesOf(render(look(), scene(others)));
    expect(gates.map(({ gate }) => gate)).toEqual(["other plan"]);
    expect(gates[0]!.sentence).toContain("(32, 33, 34, 35, 36, 37, 38, 39)");
    expect(gates[0]!.sentence).toContain("(8, 9, 10, 11, 12, 13, 14, 15)");
  });

  it("with two frames in it, of another coupon or of the same", () => {
    const wide = camera({ width: 1240, height: 560, scale: 5000, aim: { x: 105e-3, y: 30e-3 } });
    for (const coupon of [5, 2]) {
      const second = layout.markers.map((m, k) => ({ ...m, id: frameIds(coupon)[k]!, x: m.x + 125e-3 }));
      const gates = gatesOf(render(wide, scene([...layout.markers, ...second])));
      expect(gates.map(({ gate }) => gate)).toEqual(["two coupons"]);
      expect(gates[0]!.sentence).toContain("photograph each coupon alone");
    }
  });

  it("whose markers all stand on one side and leave the rest of the coupon to guessing", () => {
    const left = layout.markers.filter(({ x }) => x < 0);
    expect(left.length).toBe(3);
    const photo = render(look({ tilt: 20, towards: 10 }), scene(left), { noise: 3, blurU: 1.2, blurV: 1.2 });
    expect(gatesOf(photo).map(({ gate }) => gate)).toEqual(["spread"]);
  });
});
