import { describe, expect, it } from "vitest";
import { residueReading } from "#calibration";
import type { Outcome } from "#terms";
import { hatchCovers } from "../report/fixture-parts.ts";
import { joinOutcomes } from "#gauging";

const empty: Outcome = {
  trialId: "t",
  patch: 4,
  residueFraction: null,
  residueUncertainty: null,
  metalCondition: null,
  lightness: null,
  roughnessBefore: null,
  roughnessAfter: null,
  thicknessBefore: null,
  thicknessAfter: null,
  temperature: null,
  tests: [],
  grader: "",
  note: "",
};
const photo: Outcome = {
  ...empty,
  residueFraction: 0.12,
  residueUncertainty: 0.01,
  metalCondition: 1,
  lightness: 60,
  grader: "photographs",
};
const gauge: Outcome = {
  ...empty,
  roughnessAfter: 2e-6,
  temperature: 350,
  grader: "Kim",
  tests: [{ kind: "dust", method: "ISO 8502-3", limit: "", value: "1", passed: true }],
};

describe("outcomes of one patch by several graders", () => {
  it("stand together field by field", () => {
    const { outcome, graders, disagree } = joinOutcomes([photo, gauge]);
    expect(outcome).toEqual({ ...photo, roughnessAfter: 2e-6, temperature: 350, tests: gauge.tests, note: "" });
    expect(graders).toEqual(["photographs", "Kim"]);
    expect(disagree).toBe(false);
  });

  it("lose the proof of a clean patch to a test that fails later, and keep what was seen at first", () => {
    const good = { ...photo, residueFraction: 0.01, metalCondition: 0 as const };
    const later: Outcome = {
      ...empty,
      grader: "Kim, after 90 days",
      tests: [{ kind: "pull-off", method: "ISO 4624", limit: "5 MPa", value: "1 MPa", passed: false }],
    };
    const acceptance = { ...hatchCovers.acceptance, residueMax: 0.05 };
    expect(residueReading(joinOutcomes([good]).outcome, acceptance)![0]).toBeGreaterThan(0.9);
    const { outcome } = joinOutcomes([good, later]);
    expect(outcome.residueFraction).toBe(0.01);
    const [clean, partly, mostly] = residueReading(outcome, acceptance)!;
    expect(clean).toBe(0.1);
    expect(clean + partly + mostly).toBeCloseTo(1, 12);
  });

  it("take the last residue with its own doubt and grader, and say that they differ", () => {
    const eye = { ...empty, residueFraction: 0.3, grader: "Kim" };
    const { outcome, disagree } = joinOutcomes([photo, eye]);
    expect(outcome).toMatchObject({ residueFraction: 0.3, residueUncertainty: null, grader: "Kim", metalCondition: 1 });
    expect(disagree).toBe(true);
    expect(joinOutcomes([eye, photo]).outcome).toMatchObject({ residueUncertainty: 0.01, grader: "photographs" });
  });
});
