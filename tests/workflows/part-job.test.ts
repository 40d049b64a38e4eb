import { describe, expect, it } from "vitest";
import { beamState, completeSetting } from "#beam";
import { exampleShop, parseShop } from "#contract";
import { setup } from "#library";
import type { EvidenceSide } from "#report";
import type { PartAnswer, Recommendation, SiteLimits } from "#terms";
import { partJob } from "#workflows";
import { compareEvidence } from "../../src/workflows/compare-evidence.ts";
import { hatchCovers } from "../report/fixture-parts.ts";
import { outcomes, trial, windowResult } from "../report/fixture-trial.ts";

const site: SiteLimits = {
  deliveries: ["scanner", "hand"],
  electricalPowerMax: null,
  laserPowerMax: null,
  enclosed: true,
  note: "",
};
const pulsed = setup("pulsed-500");
const continuous = setup("continuous-1500");

describe("the order of one part", () => {
  const setting = completeSetting(pulsed, {});
  const job = partJob(hatchCovers, site, pulsed, setting, exampleShop());

  it("adds up: hours by kind, money by area, spread around the middle", () => {
    const { rate, hours, cost } = job;
    const sum = Object.values(rate.time).reduce((a, b) => a + b, 0);
    expect(sum / 3600).toBeCloseTo(rate.hours, 9);
    expect(rate.area).toBeCloseTo(hatchCovers.area * hatchCovers.count, 9);
    expect(hours.low).toBeCloseTo(0.75 * rate.hours, 9);
    expect(hours.high).toBeCloseTo(1.4 * rate.hours, 9);
    expect(cost.perArea.low).toBeLessThan(cost.perArea.middle);
    expect(cost.perArea.middle).toBeLessThan(cost.perArea.high);
    expect(cost.total.middle / cost.perArea.middle).toBeCloseTo(rate.area, 9);
    // on the beam: the middle of the raster, one line spacing a line
    expect(rate.beamRate).toBeCloseTo((setting.speed * setting.lineSpacing) / setting.passes, 2);
  });

  it("stands beside what published energies would give: fast and slow end are 1.3 to 0.15 apart", () => {
    const words = job.basis.find((line) => line.startsWith("Published paint removal"))!;
    const [slow, fast] = /come to ([\d.]+) m²\/h to ([\d.]+) m²\/h/.exec(words)!.slice(1).map(Number);
    expect(fast! / slow!).toBeGreaterThan(8);
    expect(fast! / slow!).toBeLessThan(9.4);
    expect(words).toContain("not a prediction");
  });

  it("costs more with dearer labour and is compared only with figures that were entered", () => {
    const dear = partJob(hatchCovers, site, pulsed, setting, parseShop({ labour_per_h: 150 }));
    expect(dear.cost.perArea.middle).toBeGreaterThan(1.5 * job.cost.perArea.middle);
    expect(job.breakEven.state).toBe("not entered");
    expect(job.payback).toBeNull();
    const other = { name: "blasting", cost_per_m2: 400, cost_per_year: 0 };
    const met = partJob(hatchCovers, site, pulsed, setting, parseShop({ otherMethod: other, areaPerYear_m2: 800 }));
    expect(met.breakEven.state).toBe("from");
    expect(met.payback!.simple).toBeGreaterThan(0);
    expect(met.basis.join(" ")).toContain("taken as a square");
  });
});

function answerWith(p: Partial<Recommendation> | null, c: Partial<Recommendation> | null): PartAnswer {
  const base = windowResult.recommended!;
  const run = (id: string, laser: typeof pulsed, r: Partial<Recommendation> | null): PartAnswer["trials"][number] => ({
    trial: { ...trial, id, setupId: laser.id },
    outcomes,
    window: {
      ...windowResult,
      recommended: r === null ? null : { ...base, setting: completeSetting(laser, {}), ...r },
    },
  });
  return {
    part: hatchCovers,
    triage: { verdict: "likely", reasons: [] },
    verdicts: [],
    comparison: null,
    advice: [],
    trials: [run("p", pulsed, p), run("c", continuous, c)],
  };
}

const good = { repeats: 3, repeatsGood: 3, proven: true };
const cost = (middle: number): EvidenceSide["cost"] => ({
  low: 0.8 * middle,
  middle,
  high: 1.2 * middle,
  currency: "EUR",
});
const compared = (answer: PartAnswer, pulsedCost = 50, continuousCost = 20) =>
  compareEvidence(
    answer,
    (id) => setup(id),
    (of) => ({ cost: cost(of === pulsed ? pulsedCost : continuousCost), hazard: 10, eyewear: "D LB8" }),
  );

describe("pulsed against continuous by what was burned", () => {
  it("names the faster of two that were re-burned three times, and why", () => {
    const { words, equal, unequal } = compared(answerWith({ ...good, areaRate: 1e-3 }, { ...good, areaRate: 2e-3 }));
    expect(words[0]).toBe(
      `Both were proven on this metal and stack: ${continuous.name} is faster (7.2 m²/h against 3.6 m²/h), and costs less whatever the figures within their spread.`,
    );
    expect(equal).toContain("metal and stack");
    expect(unequal.some((line) => line.startsWith("peak power: "))).toBe(true);
  });

  it("does not say that the faster one costs less where the spreads overlap", () => {
    const { words } = compared(answerWith({ ...good, areaRate: 1e-3 }, { ...good, areaRate: 2e-3 }), 30, 25);
    expect(words[0]).not.toContain("costs less");
  });

  it("gives no verdict before three re-burns, with a bad one, without a window or without a trial", () => {
    const twice = { ...good, repeats: 2, repeatsGood: 2 };
    expect(compared(answerWith(good, twice)).words).toEqual([
      "The continuous setting was burned 2 of the 3 times that a comparison asks for: the best of many patches looks better than it is.",
      "So no verdict is given between the two.",
    ]);
    expect(compared(answerWith({ ...good, repeats: 4 }, good)).words[0]).toContain(
      "Of 4 burns of the pulsed setting 1 were not",
    );
    expect(compared(answerWith(good, null)).words[0]).toBe("The continuous trial found no window.");
    const alone = answerWith(good, good);
    const one = compared({ ...alone, trials: alone.trials.slice(0, 1) });
    expect(one.words[0]).toBe("No continuous laser was tried on this part.");
    expect(one.continuous).toBeNull();
    expect(one.equal).toEqual([]);
  });

  it("takes a proven run before a faster one that is not", () => {
    const answer = answerWith(good, good);
    const [first] = answer.trials;
    const faster = {
      ...first!,
      trial: { ...first!.trial, id: "fast" },
      window: {
        ...first!.window!,
        recommended: { ...first!.window!.recommended!, repeats: 1, repeatsGood: 1, proven: false, areaRate: 0.1 },
      },
    };
    expect(compared({ ...answer, trials: [faster, ...answer.trials] }).pulsed!.trialId).toBe("p");
    expect(beamState(pulsed, completeSetting(pulsed, {})).meanPower).toBeCloseTo(
      compared(answer).pulsed!.meanPower!,
      9,
    );
  });
});
