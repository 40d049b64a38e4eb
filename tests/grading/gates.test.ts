import { beforeAll, describe, expect, it } from "vitest";
import type { FindMarkers } from "#grading";
import { firedBy, smallPlan, take } from "./bad-photos/bench-coupon.ts";
import { gateCases } from "./bad-photos/gate-cases.ts";
import { openFinder } from "./geometry/setup-frame.ts";

let findMarkers: FindMarkers;
beforeAll(async () => {
  findMarkers = (await openFinder()).findMarkers;
});

describe("every gate fires on its bad photographs", () => {
  it.each(gateCases)("$gate: $words", async ({ gate, fired }) => {
    const all = await fired(findMarkers);
    expect(all).toContain(gate);
  });
});

describe("no gate fires", () => {
  it("on two plain photographs of a coupon", async () => {
    const plan = smallPlan(3);
    const photos = await Promise.all([0, 1].map(async (turn) => (await take(plan, { turn: turn as 0 | 1 })).photo));
    expect(firedBy(plan, photos, findMarkers)).toEqual([]);
  });
});
