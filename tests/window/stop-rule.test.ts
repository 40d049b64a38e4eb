import { littleGain, type StopState, stopLimits, stopVerdict } from "#window";
import { describe, expect, it } from "vitest";

const settled: StopState = { patches: 12, bestShare: 0.9, repeats: { burned: 3, good: 3 }, gain: 0.3 };

describe("when a trial may stop", () => {
  it("follows its table", () => {
    const rows: readonly (readonly [Partial<StopState>, ReturnType<typeof stopVerdict>])[] = [
      [{}, "recommend"],
      [{ patches: 11 }, "go on"],
      [{ patches: 100 }, "recommend"],
      [{ gain: 0.301 }, "go on"],
      [{ gain: 0 }, "recommend"],
      [{ gain: 0.6, patches: 28 }, "recommend"],
      [{ gain: 0.7, patches: 28 }, "go on"],
      [{ gain: 1, patches: 36 }, "recommend"],
      [{ gain: 1.1, patches: 99 }, "go on"],
      [{ gain: null }, "go on"],
      [{ repeats: { burned: 2, good: 2 } }, "go on"],
      [{ repeats: { burned: 4, good: 3 } }, "go on"],
      [{ repeats: { burned: 5, good: 5 } }, "recommend"],
      [{ repeats: null, gain: null }, "go on"],
      [{ repeats: null, gain: null, bestShare: 0.08, patches: 16 }, "go on"],
      [{ repeats: null, gain: null, bestShare: 0.079, patches: 16 }, "nothing found"],
      [{ repeats: null, gain: null, bestShare: 0, patches: 16 }, "nothing found"],
      [{ repeats: null, gain: null, bestShare: 0, patches: 15 }, "go on"],
      [{ bestShare: 0.05 }, "recommend"],
    ];
    for (const [more, verdict] of rows)
      expect(stopVerdict({ ...settled, ...more }), JSON.stringify(more)).toBe(verdict);
  });

  it("has the limits that the study was run with", () => {
    expect(stopLimits).toEqual({ patches: 12, nothing: 0.08, nothingPatches: 16 });
    expect(littleGain(12)).toBe(0.3);
  });
});
