import { describe, expect, it } from "vitest";
import { GROUP_SIZE, plainLoops, wasmLoops } from "#loops";
import { createRandom } from "#numerics";

const compiled = () => {
  const made = wasmLoops();
  if (!made) throw new Error("this host runs no WebAssembly with SIMD");
  return made.plate;
};
const plain = plainLoops.plate;

function expectSame(a: Float64Array, b: Float64Array): void {
  expect(a.length).toBe(b.length);
  for (let i = 0; i < a.length; i++) {
    expect(a[i]).toBeGreaterThan(0);
    expect(Math.abs(b[i]! / a[i]! - 1), `at ${i}`).toBeLessThan(1e-13);
  }
}

describe("loops of heat across a plate: the twins agree within 1e-13, relative", () => {
  it("opposed rows, whole and within a reach, odd and even counts", () => {
    for (const [n, step, reach] of [
      [12, 1, 1000],
      [33, 2, 7],
      [33, 1, 8],
    ] as const) {
      const low = -n + 1 - 8;
      const height = Float64Array.from({ length: 2 * n + 15 }, (_, i) => 1 / (1 + i));
      const rate = Float64Array.from({ length: 2 * n + 15 }, (_, i) => -1 / (3 + i));
      const spec = {
        height,
        rate,
        low,
        n,
        first: -4,
        step,
        rows: Math.ceil((n + 4) / step),
        pitch2: 0.3,
        across2: 2,
        reach,
      };
      expectSame(plain.opposedRows(spec), compiled().opposedRows(spec));
    }
  });

  it("groups, odd and even numbers of points", () => {
    const random = createRandom(7);
    const count = 9;
    const groups = Float64Array.from({ length: count * GROUP_SIZE }, () => 0.3 * random.next());
    for (const n of [1, 6, 7]) {
      const [x, y, time] = [0, 1, 2].map(() => Float64Array.from({ length: n }, () => random.next()));
      const a = new Float64Array(n).fill(0.5);
      const b = a.slice();
      plain.groupRise(groups, count, x!, y!, time!, a);
      compiled().groupRise(groups, count, x!, y!, time!, b);
      expectSame(a, b);
    }
  });

  it("earlier pulses over four decades of age, some at one time, from any pulse on", () => {
    const random = createRandom(8);
    const n = 41;
    const make = (f: (i: number) => number) => Float64Array.from({ length: n }, (_, i) => f(i));
    const pulses = {
      x: make(() => random.next()),
      y: make(() => random.next()),
      time: make((i) => 10 ** (Math.floor(i / 2) / 5)),
      energy: make(() => 1 + random.next()),
    };
    const body = { radius2: 0.1, diffusivity: 0.01, thickness: 1.5 };
    for (const [from, first] of [
      [0, 1],
      [3, 20],
    ] as const) {
      const a = new Float64Array(n - first).fill(1e-9);
      const b = a.slice();
      plain.earlierPulses(pulses, body, from, first, n, a);
      compiled().earlierPulses(pulses, body, from, first, n, b);
      expectSame(a, b);
    }
  });

  it("separable map", () => {
    const random = createRandom(9);
    const along = Float64Array.from({ length: 5 * 16 }, () => random.next());
    const down = Float64Array.from({ length: 5 * 6 }, () => random.next());
    expectSame(plain.separableMap(along, down, 5, 16, 6), compiled().separableMap(along, down, 5, 16, 6));
  });
});
