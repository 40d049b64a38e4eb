import { describe, expect, it } from "vitest";
import { cutPatch } from "#grading";
import { camera } from "./camera.ts";
import { render } from "./render.ts";

const view = camera({
  width: 400,
  height: 300,
  scale: 10_000,
  aim: { x: 0, y: 0 },
  tilt: 10,
  towards: 30,
  radial: 0.01,
});

describe("a patch cut out and rectified", () => {
  it("has its rows from the top, its margin, and the light of each place", () => {
    // light rises to the right and, twice as fast, upwards
    const light = (x: number, y: number): number => 0.4 + 15 * x + 30 * y;
    const photo = render(view, light);
    const patch = { x: -5e-3, y: -3e-3, width: 8e-3, height: 5e-3 };
    const cut = cutPatch(photo, view, patch, { pixelsPerMm: 4, margin: 0.5e-3, edgeWidth: 0.3e-3 });
    expect([cut.width, cut.height, cut.margin, cut.pixelsPerMm]).toEqual([36, 24, 2, 4]);
    expect(cut.rgb.length).toBe(3 * 36 * 24);
    expect(cut.blur).toBeCloseTo(0.3 / 2.563, 3);
    for (const [column, row] of [
      [0, 0],
      [35, 0],
      [0, 23],
      [20, 7],
    ] as const) {
      const x = patch.x + ((column - 2 + 0.5) / 4) * 1e-3;
      const y = patch.y + patch.height - ((row - 2 + 0.5) / 4) * 1e-3;
      for (const channel of [0, 1, 2]) {
        expect(Math.abs(cut.rgb[3 * (row * 36 + column) + channel]! - light(x, y))).toBeLessThan(0.004);
      }
    }
  });

  it("is averaged in light, not in codes: stripes finer than its pixels keep their mean", () => {
    // black and white stripes of 0.2 mm, 2 px of the photo each; the mean light is 0.5, the mean code would be 0.21
    const photo = render(view, (x) => (Math.floor(x / 0.2e-3) % 2 === 0 ? 1 : 0));
    const cut = cutPatch(photo, view, { x: -6e-3, y: -4e-3, width: 12e-3, height: 8e-3 }, { pixelsPerMm: 1.25 });
    for (const value of cut.rgb) expect(Math.abs(value - 0.5)).toBeLessThan(0.03);
  });

  it("keeps channels apart", () => {
    const rgb = Uint8Array.from({ length: 3 * 100 * 100 }, (_, i) => [255, 188, 0][i % 3]!);
    const flat = camera({ width: 100, height: 100, scale: 10_000, aim: { x: 0, y: 0 } });
    const photo = { width: 100, height: 100, rgb, space: "srgb" } as const;
    const cut = cutPatch(photo, flat, { x: -2e-3, y: -2e-3, width: 4e-3, height: 4e-3 }, { pixelsPerMm: 5 });
    // IEC 61966-2-1: code 188 is light 0.5029
    expect([...cut.rgb.subarray(0, 3)].map((value) => Number(value.toFixed(4)))).toEqual([1, 0.5029, 0]);
  });

  it("refuses a rectangle or a scale without extent", () => {
    const photo = { width: 1, height: 1, rgb: new Uint8Array(3), space: "srgb" } as const;
    const patch = { x: 0, y: 0, width: 1e-3, height: 1e-3 };
    expect(() => cutPatch(photo, view, { ...patch, width: 0 }, { pixelsPerMm: 4 })).toThrow(
      "invalid patch width: 0 mm",
    );
    expect(() => cutPatch(photo, view, patch, { pixelsPerMm: Number.NaN })).toThrow(
      "invalid pixels per mm: not a number",
    );
    expect(() => cutPatch(photo, view, { ...patch, width: 9 }, { pixelsPerMm: 4000 })).toThrow("invalid cut");
  });
});
