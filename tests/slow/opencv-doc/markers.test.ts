import { describe, expect, it } from "vitest";
import { openMarkerFinder } from "#markers";
import { markerLibrary } from "#photos";
import { greyOf } from "./sample-pictures.ts";

describe("markers on the photographs of the library's own tutorials", () => {
  it.each([
    ["singlemarkersoriginal.jpg", [23, 40, 62, 98, 124, 203]],
    ["choriginal.jpg", Array.from({ length: 17 }, (_, k) => k)],
  ])("%s: every one, and no other", async (name, ids) => {
    const { findMarkers, close } = await openMarkerFinder(markerLibrary(), "DICT_6X6_250");
    const found = findMarkers(await greyOf(`opencv4/html/${name}`));
    expect(found.map(({ id }) => id).sort((a, b) => a - b)).toEqual(ids);
    close();
  });
});
