import { describe, expect, it } from "vitest";
import { diagnose, evidenceCaveats, fitWindow, leaveOneOutBrier } from "#window";
import { agrees, burn, featuresOf, settingOf, spreadSettings } from "./synthetic.ts";

describe("diagnostics", () => {
  it("leave-one-out Brier equals refitting without the patch", () => {
    const observations = burn(spreadSettings(10), agrees, agrees, 13);
    const reference = observations.map((o) => o.features);
    const fit = fitWindow(observations, { seed: 1, draws: 2400, reference });
    let sum = 0;
    for (const left of observations) {
      const rest = fitWindow(
        observations.filter((o) => o !== left),
        { seed: 2, draws: 1600, reference },
      );
      const p = 0.01 + 0.98 * rest.predict(left.features).clean.mean;
      sum += (1 - (left.clean ? p : 1 - p)) ** 2 / observations.length;
    }
    expect(Math.abs(leaveOneOutBrier(fit, observations, "clean") - sum)).toBeLessThan(0.012);
  });

  it("counts, and says how far the prior still rules", () => {
    const observations = burn(spreadSettings(30), agrees, agrees, 13);
    const d = diagnose(fitWindow(observations, { seed: 1 }), observations);
    expect(d.patches).toBe(30);
    expect(d.clean).toBe(observations.filter((o) => o.clean).length);
    expect(d.damaged).toBe(observations.filter((o) => !o.undamaged).length);
    expect(d.brierClean).toBeGreaterThan(0);
    expect(d.brierClean).toBeLessThan(0.25);
    expect(d.priorMatters).toMatch(/30 graded patches.*clean edge: place \d+ %/);
    const empty = diagnose(fitWindow([], { seed: 1 }), []);
    expect(empty.priorMatters).toContain("physics and prior");
    expect(empty.brierClean).toBe(0);
  });

  it("warns of one-sided, contradictory and half-graded evidence", () => {
    const setting = settingOf(80);
    const patch = (n: number, clean: boolean | null, undamaged: boolean | null) => ({
      patch: n,
      setting,
      features: featuresOf(setting),
      clean,
      undamaged,
    });
    const all = [patch(1, true, true), patch(2, true, null), patch(3, false, true)];
    const text = evidenceCaveats(fitWindow(all, { seed: 1 }), all).join("\n");
    expect(text).toContain("Only 3 graded patches");
    expect(text).toContain("No patch was damaged");
    expect(text).not.toContain("No patch was left unclean");
    expect(text).toContain("graded differently");
    expect(text).toContain("1 patch lacks one of its two grades");
    expect(text).toContain("laser safety officer");
  });
});
