import { describe, expect, it } from "vitest";
import { frameFor, markerCells } from "#grading";
import { openMarkerFinder } from "#markers";
import { markerLibrary } from "#photos";
import { camera } from "../grading/geometry/camera.ts";
import { frameScene, render } from "../grading/geometry/render.ts";

const open = () => openMarkerFinder(markerLibrary());

/** A marker of `cell` px a cell drawn upright at a place. */
function draw(picture: { width: number; data: Uint8Array }, id: number, left: number, top: number, cell: number): void {
  markerCells(id).forEach((line, r) => {
    line.forEach((black, c) => {
      if (!black) return;
      for (let i = 0; i < cell; i += 1) {
        picture.data.fill(
          20,
          (top + r * cell + i) * picture.width + left + c * cell,
          (top + r * cell + i) * picture.width + left + (c + 1) * cell,
        );
      }
    });
  });
}

describe("markers", () => {
  it("are found, all 250 of the frame sheets, each with its number and its corners in order", async () => {
    const { findMarkers, close } = await open();
    for (let page = 0; page < 5; page += 1) {
      const picture = { width: 1000, height: 500, data: new Uint8Array(500_000).fill(230) };
      const place = (k: number) => ({ left: 20 + (k % 10) * 98, top: 20 + Math.floor(k / 10) * 95 });
      for (let k = 0; k < 50; k += 1) draw(picture, 50 * page + k, place(k).left, place(k).top, 10);
      const found = [...findMarkers(picture)].sort((a, b) => a.id - b.id);
      expect(found.map(({ id }) => id)).toEqual(Array.from({ length: 50 }, (_, k) => 50 * page + k));
      found.forEach(({ corners }, k) => {
        const { left, top } = place(k);
        const expected = [
          [left, top],
          [left + 60, top],
          [left + 60, top + 60],
          [left, top + 60],
        ];
        // within a pixel, measured from the edge of the picture: the finder names pixels, half a pixel inside
        corners.forEach(({ u, v }, i) => {
          expect(Math.max(Math.abs(u - expected[i]![0]!), Math.abs(v - expected[i]![1]!))).toBeLessThanOrEqual(0.5);
        });
      });
    }
    close();
  });

  it("are found on a tilted sheet, and corners stay those of the print when the sheet lies upside down", async () => {
    const { findMarkers, close } = await open();
    const layout = frameFor({ width: 60e-3, height: 40e-3 }, { coupon: 7 });
    for (const turn of [0, 180]) {
      const view = camera({
        width: 700,
        height: 560,
        scale: 5500,
        aim: { x: 30e-3, y: 20e-3 },
        tilt: 30,
        towards: 80,
        turn,
      });
      const photo = render(view, frameScene(layout.markers));
      const found = findMarkers({ width: 700, height: 560, data: photo.rgb.filter((_, i) => i % 3 === 1) });
      expect(found.map(({ id }) => id).sort((a, b) => a - b)).toEqual(layout.markers.map(({ id }) => id));
      for (const { id, corners } of found) {
        const { x, y, size } = layout.markers.find((m) => m.id === id)!;
        const first = view.toPixel(x, y + size);
        expect(Math.hypot(corners[0].u - first.u, corners[0].v - first.v)).toBeLessThan(2.5);
      }
    }
    close();
  });

  it("leave no memory behind", async () => {
    const library = markerLibrary();
    const { findMarkers } = await openMarkerFinder(library);
    const heap = () => (library.cv as { HEAPU8: Uint8Array }).HEAPU8.length;
    const picture = { width: 1000, height: 1000, data: new Uint8Array(1e6).fill(200) };
    draw(picture, 17, 300, 300, 20);
    findMarkers(picture);
    const before = heap();
    for (let k = 0; k < 60; k += 1) expect(findMarkers(picture).length).toBe(1);
    // 60 MB of pictures went through
    expect(heap() - before).toBeLessThan(8e6);
  });

  it("are asked for with a picture of its size and a dictionary that there is", async () => {
    const { findMarkers, close } = await open();
    expect(() => findMarkers({ width: 10, height: 10, data: new Uint8Array(99) })).toThrow(
      "invalid grey picture: 99 B (must have 10 × 10 pixels)",
    );
    close();
    await expect(openMarkerFinder(markerLibrary(), "DICT_9X9")).rejects.toThrow("invalid marker dictionary: DICT_9X9");
    await expect(openMarkerFinder(markerLibrary(), "Mat")).rejects.toThrow("invalid marker dictionary: Mat");
  });
});
