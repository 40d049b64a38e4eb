import { beforeAll, describe, expect, it } from "vitest";
import { type FindMarkers, type GreyPicture, locateFrame, type Photo } from "#grading";
import { frameScene, render } from "./render.ts";
import { layout, look, openFinder, worstCorner, worstPlace } from "./setup-frame.ts";

let real: FindMarkers;
beforeAll(async () => {
  real = (await openFinder()).findMarkers;
});

/** As wide as a photograph of 8 MP, of which it shows a strip: the search works on half of its pixels first. */
const truth = look({ width: 3000, height: 600, scale: 5500, tilt: 12, towards: 20 });
const others = [
  // a second print of a planned marker, and markers of other frames, lying about
  { ...layout.markers[1]!, x: 30e-3, y: 20e-3 },
  { id: 100, x: 120e-3, y: 10e-3, size: 12e-3 },
  { id: 131, x: 150e-3, y: 30e-3, size: 12e-3 },
];
let photo: Photo;
beforeAll(() => {
  photo = render(
    truth,
    frameScene([...layout.markers, ...others], () => 0.35),
  );
});

/** The finder, blind in the shrunk picture for these markers; notes the sizes of what it is given. */
function blindTo(ids: readonly number[], seen: string[]): FindMarkers {
  return (picture: GreyPicture) => {
    seen.push(`${picture.width} × ${picture.height}`);
    const found = real(picture);
    return picture.width === 1500 ? found.filter(({ id }) => !ids.includes(id)) : found;
  };
}

describe("the search for markers", () => {
  it("works on a shrunk picture, and stray markers do no harm", () => {
    const seen: string[] = [];
    const { view, gates } = locateFrame(photo, layout, blindTo([], seen));
    expect(seen).toEqual(["1500 × 300"]);
    expect(gates).toEqual([]);
    expect(view!.markers.length).toBe(8);
    expect(view!.thrownOut).toEqual([9]);
    expect(worstCorner(view!, truth)).toBeLessThan(0.05);
    expect(worstPlace(view!, truth)).toBeLessThan(0.03e-3);
  });

  it("looks once more where a marker should be that was not found, in a small part of the picture", () => {
    const seen: string[] = [];
    const { view } = locateFrame(photo, layout, blindTo([11, 14], seen));
    expect(view!.markers.map(({ id }) => id).sort((a, b) => a - b)).toEqual([8, 9, 10, 11, 12, 13, 14, 15]);
    expect(view!.missing).toEqual([]);
    expect(seen.length).toBe(3);
    for (const size of seen.slice(1)) expect(Math.max(...size.split(" × ").map(Number))).toBeLessThan(240);
    expect(worstCorner(view!, truth)).toBeLessThan(0.05);
  });

  it("looks at every pixel where fewer than three were found", () => {
    const seen: string[] = [];
    const { view } = locateFrame(photo, layout, blindTo([9, 10, 11, 12, 13, 14], seen));
    expect(seen.slice(0, 2)).toEqual(["1500 × 300", "3000 × 600"]);
    expect(view!.markers.length).toBe(8);
    expect(view!.missing).toEqual([]);
  });
});
