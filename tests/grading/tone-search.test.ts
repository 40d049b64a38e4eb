import { describe, expect, it } from "vitest";
import { frameFor, lookAtPhoto } from "#grading";
import { gridPatches } from "../photo/grid-patches.ts";
import { photograph } from "../photo/photograph.ts";
import { makePlate } from "../photo/plate.ts";
import { openFinder } from "./geometry/setup-frame.ts";

describe("the search for the tone", () => {
  // A search from one place ended with too much stray light here, and a good card that seemed 12 % off.
  it.each([1, 2] as const)("is not led into a wrong place by glare and a strong S: turn %i", async (turn) => {
    const frame = frameFor({ width: 150e-3, height: 100e-3 }, { coupon: 4 });
    const patches = gridPatches(frame, 8, 5, 9e-3, 4.5e-3);
    const plate = makePlate({ seed: 220, frame, patches });
    const { photo, truth } = await photograph(plate, {
      seed: 220,
      turn,
      width: 1400,
      height: 1050,
      glare: true,
      jpeg: false,
    });
    const plan = { coupon: 4, label: "4", frame, patches: patches.map((p) => ({ ...p, lineSpacing: 1e-3 })) };
    const { light, gates } = lookAtPhoto("photo", photo, [plan], (await openFinder()).findMarkers);
    expect(gates).toEqual([]);
    expect(light!.cardResidual).toBeLessThan(0.05);
    expect(Math.abs(light!.tone.veil - truth.drawn.veil)).toBeLessThan(0.005);
  });
});
