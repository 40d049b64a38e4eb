import { beforeAll, describe, expect, it } from "vitest";
import { estimateHomography, fitPose } from "#grading";
import { openMarkerFinder } from "#markers";
import { NumericalError } from "#numerics";
import { markerLibrary } from "#photos";

/**
 * Eight pairs measured on a map, as scikit-image publishes them in its tests of geometric transforms (BSD-3-Clause,
 * skimage/transform/tests/test_geometric.py): SRC in millimetres on a photo, DST in pixels.
 */
const from: readonly (readonly [number, number])[] = [
  [-12.3705, -10.5075],
  [-10.7865, 15.4305],
  [8.6985, 10.8675],
  [11.4975, -9.5715],
  [7.8435, 7.4835],
  [-5.3325, 6.5025],
  [6.7905, -6.3765],
  [-6.1695, -0.8235],
];
const to: readonly (readonly [number, number])[] = [
  [0, 0],
  [0, 5800],
  [4900, 5800],
  [4900, 0],
  [4479, 4580],
  [1176, 3660],
  [3754, 790],
  [1024, 1931],
];

const map = (h: readonly number[], [x, y]: readonly [number, number]): [number, number] => {
  const w = h[6]! * x + h[7]! * y + h[8]!;
  return [(h[0]! * x + h[1]! * y + h[2]!) / w, (h[3]! * x + h[4]! * y + h[5]!) / w];
};

interface Foreign {
  matFromArray(rows: number, columns: number, type: number, data: readonly number[]): { delete(): void };
  findHomography(from: unknown, to: unknown, method: number): { data64F: Float64Array; delete(): void };
  CV_64FC2: number;
}

/** OpenCV's own least-squares homography: an outside value. */
let opencv: (a: typeof from, b: typeof to) => number[];
beforeAll(async () => {
  const { cv } = markerLibrary();
  const foreign = cv as Foreign;
  // The finder waits until the library is ready.
  (await openMarkerFinder({ cv })).close();
  opencv = (a, b) => {
    const mats = [a, b].map((list) => foreign.matFromArray(list.length, 1, foreign.CV_64FC2, list.flat()));
    const h = foreign.findHomography(mats[0], mats[1], 0);
    const out = [...h.data64F];
    for (const mat of [...mats, h]) mat.delete();
    return out;
  };
});

describe("homography", () => {
  it("is exact for exact pairs, with its matrix known", () => {
    const truth = [820, -130, 400, 95, -760, 1900, 0.12, -0.31, 1];
    const pairs = from.map(([x, y]): [number, number] => [x / 15, y / 15]);
    const h = estimateHomography(
      pairs,
      pairs.map((p) => map(truth, p)),
    );
    h.forEach((entry, k) => {
      expect(Math.abs(entry - truth[k]!)).toBeLessThan(1e-8 * Math.max(1, Math.abs(truth[k]!)));
    });
    // four pairs are enough
    const four = estimateHomography(
      pairs.slice(0, 4),
      pairs.slice(0, 4).map((p) => map(truth, p)),
    );
    expect(map(four, [0.1, 0.2])[0]).toBeCloseTo(map(truth, [0.1, 0.2])[0], 6);
  });

  it("is near the best by the direct transform, and the best after Levenberg-Marquardt: OpenCV's on the same pairs", () => {
    const best = opencv(from, to);
    const squares = (h: (p: readonly [number, number]) => readonly [number, number]): number =>
      from.reduce((sum, p, i) => sum + (h(p)[0] - to[i]![0]) ** 2 + (h(p)[1] - to[i]![1]) ** 2, 0);
    const theirs = squares((p) => map(best, p));
    const direct = squares((p) => map(estimateHomography(from, to), p));
    expect(direct).toBeGreaterThan(theirs);
    expect(direct).toBeLessThan(1.3 * theirs);

    const pairs = from.map(([x, y], i) => ({ plate: { x, y }, pixel: { u: to[i]![0], v: to[i]![1] } }));
    const pose = fitPose(pairs, { width: 6000, height: 6000 }, false);
    for (const p of [...from, [0, 0] as const, [5, -12] as const]) {
      const [u, v] = map(best, p);
      const at = pose.toPixel(...p);
      expect(Math.hypot(at.u - u, at.v - v)).toBeLessThan(1e-3);
    }
    expect(8 * pose.residual ** 2).toBeCloseTo(theirs, 4);
  });

  it("does not depend on the unit or the place of the points (that is what normalising is for)", () => {
    const far = from.map(([x, y]): [number, number] => [1e-3 * x + 7, 1e-3 * y - 40]);
    const near = estimateHomography(from, to);
    const moved = estimateHomography(far, to);
    from.forEach((p, i) => {
      const [a, b] = [map(near, p), map(moved, far[i]!)];
      expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeLessThan(1e-4);
    });
  });

  it("refuses points that do not settle it", () => {
    const line = from.map(([x]): [number, number] => [x, 2 * x]);
    expect(() => estimateHomography(line, to)).toThrow(NumericalError);
    expect(() => estimateHomography(from.slice(0, 3), to.slice(0, 3))).toThrow("at least four pairs");
    const one = from.map((): [number, number] => [1, 1]);
    expect(() => estimateHomography(one, to)).toThrow(NumericalError);
  });
});
