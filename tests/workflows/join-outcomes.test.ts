import { describe, expect, it } from "vitest";
import type { Outcome } from "#terms";
import { joinOutcomes } from "../../src/workflows/join-outcomes.ts";

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

  it("take the last residue with its own doubt and grader, and say that they differ", () => {
    const eye = { ...empty, residueFraction: 0.3, grader: "Kim" };
    const { outcome, disagree } = joinOutcomes([photo, eye]);
    expect(outcome).toMatchObject({ residueFraction: 0.3, residueUncertainty: null, grader: "Kim", metalCondition: 1 });
    expect(disagree).toBe(true);
    expect(joinOutcomes([eye, photo]).outcome).toMatchObject({ residueUncertainty: 0.01, grader: "photographs" });
  });
});
