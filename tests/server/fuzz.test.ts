import fc from "fast-check";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type Bench, faultOf, openBench, shots } from "./fuzz/run.ts";

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

it("refuses whatever comes in one line, writes nothing then, and goes on answering", async () => {
  expect(bench.targets.length).toBeGreaterThan(35);
  await fc.assert(
    fc.asyncProperty(shots(bench.targets), async (shot) => {
      expect(await faultOf(bench, shot)).toBeNull();
    }),
    { numRuns: 350, seed: 20261129 },
  );
  const health = await bench.app.inject({ url: "/api/health", headers: { host: "localhost:4173" } });
  expect(health.json().name).toBe("scourlight");
});
