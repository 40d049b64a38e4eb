import { describe, expect, it } from "vitest";
import { fitPose, type GreyPicture } from "#grading";
import { openMarkerFinder } from "#markers";
import { markerLibrary } from "#photos";
import { greyOf, numbersOf } from "./sample-pictures.ts";

interface List {
  size(): number;
  get(k: number): { pt: { x: number; y: number } };
}

/** The library's features, to have pairs that nobody chose. */
interface Features {
  Mat: new (rows?: number, columns?: number, type?: number) => { data: Uint8Array };
  KeyPointVector: new () => List;
  DMatchVector: new () => { size(): number; get(k: number): { queryIdx: number; trainIdx: number } };
  AKAZE: new () => { detectAndCompute(picture: unknown, mask: unknown, points: List, what: unknown): void };
  BFMatcher: new (norm: number, cross: boolean) => { match(a: unknown, b: unknown, out: unknown): void };
  matFromArray(rows: number, columns: number, type: number, data: readonly number[]): unknown;
  findHomography(from: unknown, to: unknown, method: number, reach: number, mask: { data: Uint8Array }): unknown;
  RANSAC: number;
  CV_64FC2: number;
  NORM_HAMMING: number;
  CV_8UC1: number;
}

async function pairsOf(first: GreyPicture, second: GreyPicture) {
  const { cv: library } = markerLibrary();
  (await openMarkerFinder({ cv: library })).close();
  const cv = library as Features;
  const found = [first, second].map(({ width, height, data }) => {
    const mat = new cv.Mat(height, width, cv.CV_8UC1);
    mat.data.set(data);
    const points = new cv.KeyPointVector();
    const what = new cv.Mat();
    new cv.AKAZE().detectAndCompute(mat, new cv.Mat(), points, what);
    return { points, what };
  }) as [{ points: List; what: unknown }, { points: List; what: unknown }];
  const matches = new cv.DMatchVector();
  new cv.BFMatcher(cv.NORM_HAMMING, true).match(found[0].what, found[1].what, matches);
  const pairs = Array.from({ length: matches.size() }, (_, k) => {
    const { queryIdx, trainIdx } = matches.get(k);
    const from = found[0].points.get(queryIdx).pt;
    const to = found[1].points.get(trainIdx).pt;
    return { plate: { x: from.x, y: from.y }, pixel: { u: to.x, v: to.y } };
  });
  // Its vote tells the pairs apart that belong together; its own homography is not used.
  const [from, to] = [
    pairs.flatMap(({ plate }) => [plate.x, plate.y]),
    pairs.flatMap(({ pixel }) => [pixel.u, pixel.v]),
  ];
  const mask = new cv.Mat();
  const list = (data: readonly number[]) => cv.matFromArray(pairs.length, 1, cv.CV_64FC2, data);
  cv.findHomography(list(from), list(to), cv.RANSAC, 3, mask);
  return pairs.filter((_, k) => mask.data[k] === 1);
}

describe("homography between the graffiti pictures of opencv-doc", () => {
  it("is the one published with them", async () => {
    const [first, second] = [await greyOf("examples/data/graf1.png"), await greyOf("examples/data/graf3.png")];
    const h = numbersOf("examples/data/H1to3p.xml", "H13");
    const truth = (x: number, y: number): [number, number] => {
      const w = h[6]! * x + h[7]! * y + h[8]!;
      return [(h[0]! * x + h[1]! * y + h[2]!) / w, (h[3]! * x + h[4]! * y + h[5]!) / w];
    };
    const pairs = await pairsOf(first, second);
    expect(pairs.length).toBeGreaterThan(150);
    const pose = fitPose(pairs, second, false);
    const off = [0, 200, 400, 600, 799].flatMap((x) =>
      [0, 160, 320, 480, 639].map((y) => {
        const [u, v] = truth(x, y);
        const at = pose.toPixel(x, y);
        return Math.hypot(at.u - u, at.v - v);
      }),
    );
    expect(off.reduce((sum, d) => sum + d, 0) / off.length).toBeLessThan(0.6);
    expect(Math.max(...off)).toBeLessThan(1.7);
  });
});
