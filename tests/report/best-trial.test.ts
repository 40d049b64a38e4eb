import { describe, expect, it } from "vitest";
import { choose } from "#report";
import type { PartAnswer, Recommendation, TrialStop } from "#terms";
import { answer } from "./fixture.ts";

const [part] = answer.parts;
const [run] = part!.trials;
function trialOf(id: string, rate: number, recommended: Partial<Recommendation>, stop: TrialStop["verdict"] = "go on") {
  const window = run!.window!;
  return {
    ...run!,
    trial: { ...run!.trial, id },
    window: {
      ...window,
      recommended: { ...window.recommended!, proven: false, ...recommended, areaRate: rate },
      stop: { ...window.stop, verdict: stop },
    },
  };
}
const chosen = (...trials: PartAnswer["trials"]) => choose({ ...part!, trials }).trial!.id;

describe("which of several trials leads", () => {
  const proven = { proven: true, repeats: 3, repeatsGood: 3 };
  const slow = trialOf("slow", 1e-4, proven);
  const fast = trialOf("fast", 3e-4, proven);

  it("is the faster of two that are proven, in whatever order they come", () => {
    expect([chosen(slow, fast), chosen(fast, slow)]).toEqual(["fast", "fast"]);
  });

  it("is a proven one before a faster one that is not, and a settled one before one that goes on", () => {
    const tried = trialOf("tried", 9e-4, {});
    const settled = trialOf("settled", 2e-4, {}, "recommend");
    expect(chosen(tried, slow)).toBe("slow");
    expect(chosen(tried, settled)).toBe("settled");
    expect(chosen(settled, slow)).toBe("slow");
  });
});
