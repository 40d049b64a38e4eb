import { expect, it } from "vitest";
import { killRounds } from "../store/kill-rounds.ts";

it("loses nothing acknowledged and keeps nothing half in 100 rounds of kill -9", async () => {
  const tally = await killRounds(100);
  expect(tally.acknowledged).toBeGreaterThan(200);
  expect(tally.missing).toEqual([]);
  expect(tally.halves).toEqual([]);
}, 600_000);
