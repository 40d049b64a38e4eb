import { describe, expect, it } from "vitest";
import { detailsToWire, exampleShop, validatePublished } from "#contract";
import { setups } from "#library";
import { choose } from "#report";
import { fromSI } from "#units";
import { answerDetails, paperBasis, papersOf, partCautions } from "#workflows";
import { setup } from "#library";
import { answer } from "../report/fixture.ts";

const details = answerDetails(answer, { setups, shop: exampleShop() });
const wire = detailsToWire(
  details,
  { enquiry: answer.enquiry.id, modelVersion: answer.modelVersion },
  (partId) => (id) => partCautions(answer.parts.find((p) => p.part.id === partId)!.part, setup(id)),
);
const [proven, predicted, declined] = wire.parts;

describe("the details of an answer on the wire", () => {
  it("have their published shape, and survive as text", () => {
    expect(validatePublished("details", JSON.parse(JSON.stringify(wire)), "details")).toEqual(wire);
    expect(JSON.stringify(wire)).not.toMatch(/NaN|Infinity/);
  });

  it("carry units in their names and the same figures as inside", () => {
    const job = details[0].setting!.job!;
    expect(proven.job!.hours_h.middle).toBeCloseTo(job.rate.total / 3600, 9);
    expect(proven.job!.beamRate_m2_per_h).toBeCloseTo(job.rate.beamRate * 3600, 6);
    expect(proven.job!.orderRate_m2_per_h).toBeCloseTo((job.rate.area / job.rate.total) * 3600, 6);
    expect(proven.job!.times.reduce((sum, t) => sum + t.hours_h, 0)).toBeCloseTo(job.rate.total / 3600, 6);
    expect(proven.setting!.speed_mm_per_s).toBeCloseTo(fromSI(choose(answer.parts[0]).setting!.speed, "mm/s"), 9);
    expect(proven.hazard!.distances.map((d) => d.eye_m)).toEqual(
      details[0].setting!.hazards.distances.map((d) => d.eyeShown),
    );
  });

  it("show what was burned, and nothing where nothing was", () => {
    const side = proven.evidence!.pulsed!;
    const { recommended } = answer.parts[0].trials[0].window!;
    expect(side.recommended!.areaRate_m2_per_h).toBeCloseTo(recommended!.areaRate * 3600, 6);
    expect(side.cost_per_m2!.low).toBeLessThan(side.cost_per_m2!.high);
    expect(side.laser).toBe(answer.parts[0].trials[0].trial.setupId);
    expect(proven.evidence!.cautions).toEqual(
      partCautions(answer.parts[0].part, setup(side.laser), recommended!.setting),
    );
    expect(proven.evidence!.continuous).toBeNull();
    expect(proven.evidence!.words.join(" ")).toContain("no verdict");
    expect(predicted.evidence).toBeNull();
    expect(predicted.comparison).toBeNull();
    expect(proven.comparison!.equalPower.meanPower_W).toBe(180);
  });

  it("recommend nothing for a part that was declined, and still say what may come off", () => {
    expect(declined.footing).toBe("declined");
    expect([declined.setting, declined.job, declined.hazard, declined.eyewear]).toEqual([null, null, null, null]);
    expect(predicted.fume.length).toBeGreaterThan(0);
    expect(predicted.fume[0].limits.length + predicted.fume[0].note.length).toBeGreaterThan(0);
  });
});

describe("what is kept of an answer for its papers", () => {
  const how = {
    setups,
    language: "en",
    revision: "2",
    dateText: "2026-03-31",
    approver: null,
    validUntil: "2026-06-30",
    shop: exampleShop(),
  } as const;

  it("gives the same papers, after it was kept as text too", () => {
    const kept = JSON.parse(JSON.stringify(paperBasis(answer)));
    expect(papersOf(kept, how)).toEqual(papersOf(answer, how));
  });

  it("is much smaller", () => {
    expect(JSON.stringify(paperBasis(answer)).length).toBeLessThan(0.7 * JSON.stringify(answer).length);
  });
});
