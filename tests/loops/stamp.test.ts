import { describe, expect, it } from "vitest";
import { plainLoops, type StampMap, wasmLoops } from "#loops";
import { createRandom } from "#numerics";

const random = createRandom(5);

/** Places over and beyond the map, so that rows and columns are cut off on all four sides. */
function places(count: number, columns: number, rows: number): Float64Array {
  const xy = new Float64Array(2 * count);
  for (let n = 0; n < count; n++) {
    xy[2 * n] = random.next() * (columns + 12) - 6;
    xy[2 * n + 1] = random.next() * (rows + 12) - 6;
  }
  return xy;
}

const both = (spec: StampMap) => {
  const plain = new Float32Array(spec.columns * spec.rows);
  const wasm = new Float32Array(spec.columns * spec.rows);
  plainLoops.stamp(spec, plain);
  wasmLoops()!.stamp(spec, wasm);
  return { plain, wasm };
};

describe("craters on a map", () => {
  it.each([
    ["one hinge", [40, 0.2 / 40]],
    ["three hinges, one of them turned down", [60, 0.1 / 60, 25, 0.3 / 25, 9, -0.05 / 9]],
  ])("%s: the twins differ by at most 1e-6 of the middle for each event in reach", (_, hinges) => {
    for (const [columns, rows] of [
      [1, 1],
      [37, 20],
      [64, 33],
      [101, 7],
    ] as const) {
      const spec = {
        columns,
        rows,
        places: places(columns * rows, columns, rows),
        hinges: Float64Array.from(hinges),
        thickness: 1e4,
      };
      // Nothing is used up: what is compared is the depth, not a row of zeros.
      const { plain, wasm } = both({ ...spec, thickness: 0.5 * hinges[0]! });
      let middle = 0;
      for (let h = 0; h < hinges.length; h += 2) middle += Math.abs(hinges[h]! * hinges[h + 1]!);
      const inReach = (Math.PI * hinges[0]! * spec.places.length) / 2 / ((columns + 12) * (rows + 12));
      let worst = 0;
      let touched = 0;
      plain.forEach((left, i) => {
        worst = Math.max(worst, Math.abs(left - wasm[i]!));
        if (left > 0 && left < 0.5 * hinges[0]!) touched++;
      });
      expect(touched).toBe(columns * rows);
      expect(worst).toBeLessThan(1e-6 * middle * Math.max(4, 2 * inReach));
    }
  });

  it("one event takes off slope·edge in its middle, nothing beyond its edge, and never more than there is", () => {
    const spec = {
      columns: 21,
      rows: 21,
      places: Float64Array.of(10, 10),
      hinges: Float64Array.of(36, 1 / 36),
      thickness: 0.75,
    };
    for (const map of Object.values(both(spec))) {
      expect(map[10 * 21 + 10]).toBe(0);
      expect(map[10 * 21 + 13]).toBeCloseTo(0.75 - (36 - 9) / 36 + 0, 6);
      expect(map[10 * 21 + 16]).toBe(0.75);
      expect(map[4 * 21 + 10]).toBe(0.75);
    }
  });
});
