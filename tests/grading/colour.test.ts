import { describe, expect, it } from "vitest";
import { colourDifference, isDiscoloured, labFromSrgb, protectionRating, rustGradeD610 } from "#grading";

/** Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21, table 1: L, a, b of both colours and ΔE00 to four decimals. */
const pairs: readonly (readonly [number, number, number, number, number, number, number])[] = [
  [50.0, 2.6772, -79.7751, 50.0, 0.0, -82.7485, 2.0425],
  [50.0, 3.1571, -77.2803, 50.0, 0.0, -82.7485, 2.8615],
  [50.0, 2.8361, -74.02, 50.0, 0.0, -82.7485, 3.4412],
  [50.0, -1.3802, -84.2814, 50.0, 0.0, -82.7485, 1.0],
  [50.0, -1.1848, -84.8006, 50.0, 0.0, -82.7485, 1.0],
  [50.0, -0.9009, -85.5211, 50.0, 0.0, -82.7485, 1.0],
  [50.0, 0.0, 0.0, 50.0, -1.0, 2.0, 2.3669],
  [50.0, -1.0, 2.0, 50.0, 0.0, 0.0, 2.3669],
  [50.0, 2.49, -0.001, 50.0, -2.49, 0.0009, 7.1792],
  [50.0, 2.49, -0.001, 50.0, -2.49, 0.001, 7.1792],
  [50.0, 2.49, -0.001, 50.0, -2.49, 0.0011, 7.2195],
  [50.0, 2.49, -0.001, 50.0, -2.49, 0.0012, 7.2195],
  [50.0, -0.001, 2.49, 50.0, 0.0009, -2.49, 4.8045],
  [50.0, -0.001, 2.49, 50.0, 0.001, -2.49, 4.8045],
  [50.0, -0.001, 2.49, 50.0, 0.0011, -2.49, 4.7461],
  [50.0, 2.5, 0.0, 50.0, 0.0, -2.5, 4.3065],
  [50.0, 2.5, 0.0, 73.0, 25.0, -18.0, 27.1492],
  [50.0, 2.5, 0.0, 61.0, -5.0, 29.0, 22.8977],
  [50.0, 2.5, 0.0, 56.0, -27.0, -3.0, 31.903],
  [50.0, 2.5, 0.0, 58.0, 24.0, 15.0, 19.4535],
  [50.0, 2.5, 0.0, 50.0, 3.1736, 0.5854, 1.0],
  [50.0, 2.5, 0.0, 50.0, 3.2972, 0.0, 1.0],
  [50.0, 2.5, 0.0, 50.0, 1.8634, 0.5757, 1.0],
  [50.0, 2.5, 0.0, 50.0, 3.2592, 0.335, 1.0],
  [60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644],
  [63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.263],
  [61.2901, 3.7196, -5.3901, 61.4292, 2.248, -4.962, 1.8731],
  [35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645],
  [22.7233, 20.0904, -46.694, 23.0331, 14.973, -42.5619, 2.0373],
  [36.4612, 47.858, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146],
  [90.8027, -2.0831, 1.441, 91.1528, -1.6435, 0.0447, 1.4441],
  [90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381],
  [6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377],
  [2.0776, 0.0795, -1.135, 0.9033, -0.0636, -0.5514, 0.9082],
];

describe("colour difference", () => {
  it.each(pairs)("of (%f, %f, %f) and (%f, %f, %f) is %f", (L1, a1, b1, L2, a2, b2, expected) => {
    const first = { L: L1, a: a1, b: b1 };
    const second = { L: L2, a: a2, b: b2 };
    expect(Math.abs(colourDifference(first, second) - expected)).toBeLessThanOrEqual(5.001e-5);
    expect(colourDifference(second, first)).toBeCloseTo(colourDifference(first, second), 10);
    expect(colourDifference(first, first)).toBe(0);
  });

  it("calls a face discoloured from 3 on", () => {
    const bare = { L: 70, a: 0, b: 2 };
    expect(isDiscoloured({ ...bare, L: 71 }, bare)).toBe(false);
    expect(isDiscoloured({ ...bare, b: 10 }, bare)).toBe(true);
  });
});

describe("CIELAB of sRGB", () => {
  // IEC 61966-2-1 with ISO/CIE 11664-4; values of the primaries as widely tabulated to two decimals.
  it.each([
    [1, 1, 1, 100, 0, 0],
    [0, 0, 0, 0, 0, 0],
    [1, 0, 0, 53.24, 80.09, 67.2],
    [0, 1, 0, 87.73, -86.18, 83.18],
    [0, 0, 1, 32.3, 79.19, -107.86],
  ])("(%f, %f, %f)", (r, g, b, L, a, bb) => {
    const lab = labFromSrgb(r, g, b);
    expect(lab.L).toBeCloseTo(L, 1);
    expect(lab.a).toBeCloseTo(a, 1);
    expect(lab.b).toBeCloseTo(bb, 1);
  });

  it("refuses codes outside 0 to 1", () => {
    expect(() => labFromSrgb(1.2, 0, 0)).toThrow("invalid sRGB code: 1.2");
  });
});

describe("scales of inspectors", () => {
  // ASTM D610: boundaries in % of area
  it.each([
    [0.01, 10],
    [0.03, 9],
    [0.1, 8],
    [0.3, 7],
    [1, 6],
    [3, 5],
    [10, 4],
    [16, 3],
    [33, 2],
    [50, 1],
  ])("up to %f %% is rust grade %i, just above it one less", (percent, grade) => {
    expect(rustGradeD610(percent / 100)).toBe(grade);
    expect(rustGradeD610((percent * 1.01) / 100)).toBe(grade - 1);
  });

  // ISO 10289: R_p = 3(2 − log10 A)
  it.each([
    [0, 10],
    [0.1, 9],
    [1, 6],
    [10, 3],
    [100, 0],
  ])("%f %% defective is protection rating %i", (percent, rating) => {
    expect(protectionRating(percent / 100)).toBe(rating);
  });
});
