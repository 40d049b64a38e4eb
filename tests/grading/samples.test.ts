import { describe, expect, it } from "vitest";
import { clippedShareOf, greySampleOf, layerSamplesOf, type PatchView } from "#grading";

/** A view painted by pixel. */
const painted = (width: number, height: number, margin: number, at: (i: number, j: number) => number): PatchView => {
  const rgb = new Float32Array(3 * width * height);
  for (let k = 0; k < width * height; k += 1)
    for (let c = 0; c < 3; c += 1) rgb[3 * k + c] = at(k % width, Math.floor(k / width)) * (1 - 0.1 * c);
  return { width, height, rgb, pixelsPerMm: 5, margin, blur: 0.1 };
};

describe("light samples from rectified patches", () => {
  it("take the middle of a grey step, without its edges and a speck, and say what is clipped", () => {
    const step = { x: -0.02, y: 0.01, width: 0.006, height: 0.004, lightness: 70 };
    const view = painted(30, 20, 0, (i, j) =>
      i < 6 || i >= 24 || j < 4 || j >= 16 ? 0.9 : i === 15 && j === 9 ? 0.01 : 0.4,
    );
    const grey = greySampleOf(step, view);
    expect(grey.x).toBeCloseTo(-0.017, 12);
    expect(grey.y).toBeCloseTo(0.012, 12);
    [0.4, 0.36, 0.32].forEach((v, c) => void expect(grey.rgb[c]).toBeCloseTo(v, 6));
    expect(grey.clippedShare).toBe(0);
    expect(
      greySampleOf(
        step,
        painted(30, 20, 0, (i) => (i < 15 ? 0.4 : 1)),
      ).clippedShare,
    ).toBeCloseTo(0.5, 12);
    expect(() =>
      greySampleOf(
        step,
        painted(3, 3, 0, () => 0.5),
      ),
    ).toThrow("invalid grey step: 3 × 3 px");
  });

  it("take the layer on each side of a patch, beyond its ragged outline, at its place on the coupon", () => {
    const place = { patch: 4, x: 0.02, y: 0.03, width: 0.01, height: 0.01 };
    // patch of 50 px in a margin of 8; two pixels around it are ragged; left side darker than the others
    const view = painted(66, 66, 8, (i, j) => {
      const out = Math.max(8 - i, i - 57, 8 - j, j - 57);
      return out <= 2 ? 0.9 : i < 8 && j >= 8 && j < 58 ? 0.2 : 0.3;
    });
    const samples = layerSamplesOf(place, view);
    const reds = samples.map(({ rgb }) => rgb[0]);
    [0.2, 0.3, 0.3, 0.3].forEach((v, k) => void expect(reds[k]).toBeCloseTo(v, 6));
    // the band is 6 px wide, its middle 5 px or 1 mm outside
    expect(samples.map(({ x, y }) => [x, y].map((v) => Math.round(1e5 * v) / 1e5))).toEqual([
      [0.019, 0.035],
      [0.031, 0.035],
      [0.025, 0.041],
      [0.025, 0.029],
    ]);
    expect(() =>
      layerSamplesOf(
        place,
        painted(60, 60, 2, () => 0.3),
      ),
    ).toThrow("invalid margin: 0.4 mm");
  });

  it("count clipped pixels of the patch, not of its margin", () => {
    expect(clippedShareOf(painted(20, 20, 5, (i, j) => (i < 5 || j < 5 ? 1 : i < 10 ? 0.99 : 0.5)))).toBeCloseTo(
      0.5,
      12,
    );
  });
});
