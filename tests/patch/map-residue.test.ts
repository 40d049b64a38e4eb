import { describe, expect, it } from "vitest";
import { craterDiameter } from "#heat";
import { createRandom } from "#numerics";
import {
  type DepthProfile,
  hingesOf,
  logarithmicProfile,
  type MapGrid,
  placesOf,
  profileDepth,
  type RegularRaster,
  residueMap,
} from "#patch";

const grid: MapGrid = { columns: 90, rows: 70, step: 10e-6, x0: 5e-6, y0: 5e-6 };
const crater = logarithmicProfile(4e-6, 3.6e4, 1e4, 100e-6);

/** Direct stamping in doubles: every event on every cell, profile read from its table. */
function direct(thickness: number, profile: DepthProfile, places: Float64Array, g = grid): Float64Array {
  const left = new Float64Array(g.columns * g.rows).fill(thickness);
  for (let n = 0; n < places.length; n += 2)
    for (let j = 0; j < g.rows; j++)
      for (let i = 0; i < g.columns; i++) {
        const dx = g.x0 + i * g.step - places[n]!;
        const dy = g.y0 + j * g.step - places[n + 1]!;
        left[j * g.columns + i] -= profileDepth(profile, dx * dx + dy * dy);
      }
  return left.map((v) => Math.max(0, v));
}

const worst = (a: Float32Array, b: Float64Array) => a.reduce((m, v, i) => Math.max(m, Math.abs(v - b[i]!)), 0);

describe("residue under additive craters", () => {
  const base: RegularRaster = {
    pitch: 40e-6,
    spacing: 40e-6,
    pulsesPerLine: 12,
    lines: 8,
    x0: 140e-6,
    y0: 160e-6,
  };
  it.each<[string, RegularRaster, string]>([
    ["a pitch that fits the cells", base, "rows that repeat"],
    ["a phase from line to line", { ...base, phases: [0, 0.5] }, "rows that repeat"],
    ["lines that run out of the map", { ...base, x0: -200e-6, pulsesPerLine: 32 }, "rows that repeat"],
    ["a spacing that does not fit", { ...base, spacing: 14e-6 * Math.sqrt(9.9) }, ""],
    ["a pitch that does not fit", { ...base, pitch: 14e-6 * Math.sqrt(10) }, ""],
  ])("%s: direct stamping within 1e-6 of a crater per pulse in reach", (_, raster, how) => {
    const made = residueMap(grid, 40e-6, crater, raster);
    if (how) expect(made.how).toBe(how);
    const inReach = (Math.PI * 80e-6 ** 2) / (raster.pitch * raster.spacing);
    expect(worst(made.left, direct(40e-6, crater, placesOf(raster)))).toBeLessThan(
      1e-6 * crater.depth[0]! * 2 * inReach,
    );
  });

  it("any places under a long table: within the stated thinning for each event in reach", () => {
    const random = createRandom(3);
    const places = Float64Array.from({ length: 300 }, (_, i) => random.next() * (i % 2 ? 0.7e-3 : 0.9e-3));
    const r2 = Float64Array.from({ length: 60 }, (_, i) => (i / 59) ** 2 * 90e-6 ** 2);
    const depth = r2.map((s) => 3e-6 * (1 - s / r2[59]!) ** 1.5);
    const tabled = { r2, depth };
    const made = residueMap(grid, 60e-6, tabled, { places });
    expect(made.errorPerEvent).toBeGreaterThan(0);
    expect(made.errorPerEvent).toBeLessThanOrEqual(3e-9);
    const inReach = (150 * Math.PI * 90e-6 ** 2) / (0.9e-3 * 0.7e-3);
    expect(worst(made.left, direct(60e-6, tabled, places))).toBeLessThan(made.errorPerEvent * 3 * inReach);
  });

  it("one crater is as wide as Liu's law says, D² = 2·w²·ln(F₀/F_th), and as deep as the logarithm", () => {
    const fine: MapGrid = { columns: 801, rows: 801, step: 0.25e-6, x0: -100e-6, y0: -100e-6 };
    for (const ratio of [1.2, 2, 3.6]) {
      const one = residueMap(fine, 1, logarithmicProfile(1e-2, ratio * 1e4, 1e4, 100e-6), {
        places: new Float64Array(2),
      });
      const area = one.left.reduce((sum, left) => sum + (left < 1 ? 1 : 0), 0) * fine.step ** 2;
      const liu = (Math.PI / 4) * 2 * 100e-6 ** 2 * Math.log(ratio);
      expect(area / liu).toBeCloseTo(1, 2);
      expect(area).toBeCloseTo((Math.PI / 4) * craterDiameter(ratio * 1e4, 1e4, 100e-6) ** 2, 10);
      expect((1 - one.left[400 * 801 + 400]!) / (1e-2 * Math.log(ratio))).toBeCloseTo(1, 4);
    }
  });

  it("hinges give the table back at every entry", () => {
    const table = { r2: Float64Array.of(0, 1, 3, 4, 9), depth: Float64Array.of(5, 5, 2, 2.5, 0) };
    const { pairs, error } = hingesOf(table, 0);
    expect(error).toBe(0);
    table.r2.forEach((s, i) => {
      let depth = 0;
      for (let h = 0; h < pairs.length; h += 2) depth += pairs[h + 1]! * Math.max(0, pairs[h]! - s);
      expect(depth).toBeCloseTo(table.depth[i]!, 12);
    });
  });

  it("refuses tables and grids that cannot be", () => {
    expect(() => hingesOf({ r2: Float64Array.of(0, 1), depth: Float64Array.of(1, 0.5) }, 0)).toThrow(/end at no depth/);
    expect(() => hingesOf({ r2: Float64Array.of(0, 1, 1), depth: Float64Array.of(1, 1, 0) }, 0)).toThrow(/ascend/);
    expect(() => residueMap({ ...grid, step: 0 }, 1e-6, crater, base)).toThrow(/invalid cell side: 0 m/);
    expect(() => residueMap(grid, 1e-6, crater, { places: Float64Array.of(Number.NaN, 0) })).toThrow(/place/);
  });
});
