import { describe, expect, it } from "vitest";
import {
  calibrateLight,
  type CouponReferences,
  frameFor,
  gleamFlag,
  type GreySample,
  luminanceOfLightness,
  type PatchShot,
  type PatchView,
  readPatch,
  referenceOfColour,
} from "#grading";

const bare = [0.5, 0.5, 0.5] as const;
const coat = [0.05, 0.06, 0.1] as const;
const references: CouponReferences = {
  bare: referenceOfColour(bare),
  coat: referenceOfColour(coat),
  bareMelt: 0,
  absolute: true,
};

/** A bare patch of 8 mm with coating around it, on which some light lies. margin: px at 5 px/mm. */
function view(gleam: number, margin = 5): PatchView {
  const side = 40 + 2 * margin;
  const rgb = new Float32Array(3 * side * side);
  for (let i = 0; i < side * side; i += 1) {
    const [column, row] = [i % side, Math.floor(i / side)];
    const outside = Math.min(column, row, side - 1 - column, side - 1 - row) < margin;
    // A tenth either way, by chessboard: a face without any texture has no quantiles
    const texture = 1 + (((column + row) % 2) - 0.5) / 10;
    for (let c = 0; c < 3; c += 1) rgb[3 * i + c] = outside ? coat[c]! + gleam : bare[c]! * texture;
  }
  return { width: side, height: side, rgb, pixelsPerMm: 5, margin, blur: 0 };
}

const shotOf = (of: PatchView): PatchShot => ({
  photo: "photo",
  view: of,
  clippedShare: 0,
  ringResidual: 0,
  lightUncertainty: 0.01,
});
const read = (of: PatchView) => readPatch(3, [shotOf(of)], references);

describe("coating that gleams around a patch", () => {
  it("is flagged above 1 % of white, and widens the uncertainty of L* by what that light would add", () => {
    const [dark, bright] = [read(view(0)), read(view(0.03))];
    expect(dark.flags.map(({ gate }) => gate)).toEqual(["one photograph"]);
    expect(bright.flags.map(({ gate }) => gate)).toEqual(["one photograph", "gleam"]);
    expect(bright.flags[1]!.sentence).toContain("around patch 3 gleams by 3 % of white even in the photograph");
    expect(bright.refusals).toEqual([]);
    // L* of Y 0.5 and of Y 0.53, CIE 15: 116·Y^⅓ − 16
    const added = 116 * (Math.cbrt(0.53) - Math.cbrt(0.5));
    const grown = Math.sqrt(bright.lightness!.uncertainty ** 2 - dark.lightness!.uncertainty ** 2);
    expect(Math.abs(grown / added - 1)).toBeLessThan(0.03);
  });

  it("is not looked for where the view has no margin, and not below its limit", () => {
    expect(read(view(0.03, 3)).flags.map(({ gate }) => gate)).toEqual(["one photograph"]);
    expect(gleamFlag(1, 0.01)).toBeNull();
    expect(gleamFlag(1, 0.0101)).not.toBeNull();
  });
});

describe("a calibrated view", () => {
  it("keeps 1 mm of its margin, and every pixel in its place", () => {
    const { greys: steps } = frameFor({ width: 60e-3, height: 60e-3 }, { coupon: 1 });
    const greys = steps.map(({ x, y, lightness }): GreySample => {
      const light = luminanceOfLightness(lightness);
      return { x, y, lightness, rgb: [light, light, light], clippedShare: 0 };
    });
    const light = calibrateLight({ greys, layer: [], greysMeasured: true, space: "srgb" });
    const cut = view(0.02, 9);
    const out = light.calibrate(cut, 0.03, 0.03);
    expect([out.margin, out.width, out.height]).toEqual([5, 50, 50]);
    for (const [column, row] of [
      [0, 0],
      [7, 21],
      [49, 30],
    ] as const)
      for (let c = 0; c < 3; c += 1) {
        const own = 3 * ((row + 4) * cut.width + column + 4);
        const rgb = [cut.rgb[own]!, cut.rgb[own + 1]!, cut.rgb[own + 2]!] as const;
        const at = light.reflectance(rgb, 0.03, 0.03)[c]!;
        expect(Math.abs(out.rgb[3 * (row * 50 + column) + c]! / at - 1)).toBeLessThan(2e-3);
      }
    const narrow = view(0, 4);
    expect(light.calibrate(narrow, 0.03, 0.03).width).toBe(narrow.width);
  });
});
