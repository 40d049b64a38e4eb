import { describe, expect, it } from "vitest";
import { type Edge, refineEdge } from "../../../src/grading/geometry/marker-edge.ts";
import type { LightPicture } from "../../../src/grading/geometry/light-picture.ts";

/** A picture whose light depends on the row alone. */
const rows = (light: (v: number) => number): LightPicture => ({
  width: 100,
  height: 100,
  pixel: (_column, row) => light(row + 0.5),
  at: (_u, v) => light(v),
});
const edge: Edge = { start: { u: 20, v: 50 }, du: 1, dv: 0, nu: 0, nv: 1, length: 60, dark: 0, light: 1 };

describe("an edge of a marker", () => {
  it("is moved to where light and dark meet", () => {
    const found = refineEdge(
      rows((v) => Math.max(0, Math.min(1, v - 51.3))),
      edge,
      6,
    )!;
    expect(found.start.v).toBeCloseTo(51.8, 1);
    expect([found.dark, found.light]).toEqual([expect.closeTo(0, 3), expect.closeTo(1, 3)]);
  });

  it("is not found where a picture has no contrast at all, as behind glare", () => {
    expect(
      refineEdge(
        rows(() => 0.7),
        edge,
        6,
      ),
    ).toBeNull();
  });
});
