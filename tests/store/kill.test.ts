import { expect, it } from "vitest";
import { killRounds } from "./kill-rounds.ts";

it("loses nothing acknowledged and keeps nothing half in 4 rounds of kill -9", async () => {
  const tally = await killRounds(4);
  expect(tally.acknowledged).toBeGreaterThan(8);
  expect(tally.missing).toEqual([]);
  expect(tally.halves).toEqual([]);
}, 60_000);
