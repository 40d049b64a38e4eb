import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compileLoops } from "../../scripts/loops.mjs";
import { loops, plainLoops, wasmLoops } from "#loops";

const compiled = () => {
  const made = wasmLoops();
  if (!made) throw new Error("this host runs no WebAssembly with SIMD");
  return made;
};

describe("inner loops", () => {
  it("are compiled from what lies in inner/", async () => {
    const kept = readFileSync(new URL("../../src/loops/wasm-bytes.ts", import.meta.url), "utf8");
    expect(await compileLoops()).toBe(kept);
  });

  it("run as WebAssembly here", () => {
    expect(loops().kind).toBe("wasm");
  });

  it("exp: the twins agree within 4e-16, relative, for any length", () => {
    for (const n of [1, 2, 7, 4001]) {
      const x = Float64Array.from({ length: n }, (_, i) => -707 + (1415 * i) / n + 0.37);
      const a = x.slice();
      const b = x.slice();
      plainLoops.exp(a);
      compiled().exp(b);
      for (let i = 0; i < n; i++) expect(Math.abs(b[i]! / a[i]! - 1)).toBeLessThan(4.5e-16);
    }
  });

  it("exp: nothing is left far below", () => {
    const x = new Float64Array([-708.5, -1e9, 0]);
    compiled().exp(x);
    expect([...x]).toEqual([0, 0, 1]);
  });
});
