import { captureSteps, frameSheetSvg, instructionsFitWindow } from "#drawing";
import { frameExtent, frameFor, scaled } from "#grading";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { detectMarkers, detectorReady } from "../photo/reference-markers.ts";
import { soundSvg } from "./xml-check.ts";

const words = { coupon: "A1", trial: "hatch covers", trueSize: true } as const;
const pixels = 8;

async function rendered(svg: string): Promise<{ grey: Uint8Array; width: number; height: number }> {
  // A drawing without units counts 72 of its own to the inch.
  const { data, info } = await sharp(Buffer.from(svg), { density: pixels * 72 })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { grey: new Uint8Array(data), width: info.width, height: info.height };
}

describe("frame sheet", () => {
  it("shows all markers of its coupon, and none else, to the reference detector, in their places", async () => {
    await detectorReady();
    for (const coupon of [1, 31]) {
      const frame = frameFor({ width: 80e-3, height: 60e-3 }, { coupon });
      const { grey, width, height } = await rendered(frameSheetSvg(frame, { ...words, trueSize: false }));
      const found = detectMarkers(grey, width, height);
      expect([...found.keys()].sort((a, b) => a - b)).toEqual(frame.markers.map((m) => m.id));
      const extent = frameExtent(frame);
      for (const marker of frame.markers) {
        const [x, y] = found.get(marker.id)!;
        expect(Math.abs(x! - (marker.x - extent.left) * 1e3 * pixels)).toBeLessThan(1.5);
        const down = extent.height - (marker.y + marker.size - extent.bottom);
        expect(Math.abs(y! - (down * 1e3 + 5.5) * pixels)).toBeLessThan(1.5);
      }
    }
  });

  it("prints each grey step at its own lightness and place", async () => {
    const frame = frameFor({ width: 80e-3, height: 60e-3 }, { coupon: 2 });
    const { grey, width } = await rendered(frameSheetSvg(frame, { ...words, trueSize: false }));
    const extent = frameExtent(frame);
    const codes = frame.greys.map((g) => {
      const column = Math.round((g.x + g.width / 2 - extent.left) * 1e3 * pixels);
      const row = Math.round(((extent.height - (g.y + g.height / 2 - extent.bottom)) * 1e3 + 5.5) * pixels);
      return grey[row * width + column];
    });
    const strip = [48, 76, 106, 138, 171, 205, 241];
    expect(codes).toEqual([...strip, ...strip]);
  });

  it("has no seam between neighbouring cells and is true to size", () => {
    const frame = frameFor({ width: 150e-3, height: 100e-3 }, { coupon: 1 });
    const svg = frameSheetSvg(frame, words);
    soundSvg(svg);
    expect(svg).toMatch(/viewBox="0 0 186 ([\d.]+)" width="186mm" height="\1mm"/);
    const marker = /translate\(3 \d[^>]*d="([^"]+)"/.exec(svg)![1]!;
    expect(marker.startsWith("M0 0L2 0L4 0")).toBe(true);
    expect(svg).toContain("180 mm when printed at 100 %");
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("says how to photograph, below or in the window, and whether the greys were measured", () => {
    const frame = frameFor({ width: 150e-3, height: 100e-3 }, { coupon: 1 });
    const [below, inside] = [
      frameSheetSvg(frame, words),
      frameSheetSvg(frame, { ...words, instructions: "window" }),
    ] as const;
    const heightOf = (svg: string): number => Number(/height="([\d.]+)mm"/.exec(svg)![1]);
    expect(heightOf(inside)).toBe(150);
    expect(heightOf(below)).toBeGreaterThan(190);
    for (const svg of [below, inside])
      for (const part of ["matt white paper", "quarter of a turn"]) expect(svg).toContain(part);
    expect(instructionsFitWindow(frameFor({ width: 50e-3, height: 40e-3 }, { coupon: 1 }))).toBe(false);
    expect(captureSteps(frame).at(-1)).toContain("between patches of one photograph only");
    const measured = frameFor({ width: 0.1, height: 0.1 }, { coupon: 1, measuredGreys: [20, 30, 40, 50, 60, 70, 80] });
    expect(captureSteps(measured).at(-1)).toBe("The grey steps of this sheet have been measured.");
  });

  it("prints what a person typed as text, and draws a scaled frame as it is", () => {
    const frame = frameFor({ width: 80e-3, height: 60e-3 }, { coupon: 1 });
    const svg = frameSheetSvg(frame, { ...words, coupon: "<b>&", trial: '"x"' });
    soundSvg(svg);
    expect(svg).toContain("&lt;b&gt;&amp;");
    expect(frameSheetSvg(scaled(frame, 0.98), words)).not.toBe(svg);
  });
});
