import { describe, expect, it } from "vitest";
import { beamState, completeSetting } from "#beam";
import { parseEnquiry } from "#contract";
import { createLibrary } from "#library";
import type { Enquiry, Outcome } from "#terms";
import {
  comparePulsedContinuous,
  createPartModel,
  edgeBook,
  evaluateTrial,
  evaluateWindow,
  evidenceModel,
  measurementAdvice,
  featureReader,
  planTrial,
  predict,
  surveySetup,
  surveySetups,
  triage,
} from "#workflows";
import { chanceAt, rayTruth, truthDraws, productionDrift } from "#window";

const library = createLibrary([]);
const enquiryOf = (part: object, site: object = {}): Enquiry =>
  parseEnquiry({ site, parts: [{ area_m2: 1, thickness_mm: 5, lead: "no", chromate: "no", ...part }] }, library);
const coated = {
  material: "steel-low-carbon",
  layers: [{ kind: "polyurethane-topcoat", colour: "white", thickness_um: 40 }],
};
const modelOf = (enquiry: Enquiry, drawCount = 12) => createPartModel(enquiry.parts[0], { seed: 5, drawCount });
const two = [library.setup("pulsed-500"), library.setup("continuous-1000")];

describe("the survey", () => {
  const enquiry = enquiryOf(coated);
  const model = modelOf(enquiry);

  it("says the same twice, and its best setting is one that the set-up runs", () => {
    const first = surveySetup(model, two[0], enquiry.site, null);
    expect(surveySetup(modelOf(enquiry), two[0], enquiry.site, null)).toEqual(first);
    expect(predict(model, two[0], first.best!.setting).probabilityBoth).toBe(first.sureness);
  });

  it("compares at a mean power that neither exceeds", () => {
    const verdicts = surveySetups(model, two, enquiry.site);
    const { equalPower } = comparePulsedContinuous(model, two, enquiry.site, verdicts);
    for (const side of [equalPower.pulsed, equalPower.continuous])
      expect(side!.meanPower).toBeLessThanOrEqual(equalPower.meanPower * 1.005);
    expect(equalPower.meanPower).toBeCloseTo(Math.min(...verdicts.map((v) => v.meanPower)), 6);
  });

  it("keeps to the limits of the site, the rate wanted and the reach of the head", () => {
    const limited = enquiryOf(coated, { laserPowerMax_W: 200 });
    expect(surveySetup(model, two[1], limited.site, null).meanPower).toBeLessThanOrEqual(200 * 1.005);
    expect(surveySetup(model, two[1], enquiryOf(coated, { electricalPowerMax_VA: 500 }).site, null).shortfall).toBe(
      "not allowed on site",
    );
    const open = surveySetup(model, two[0], enquiry.site, null);
    const hasty = enquiryOf({ ...coated, rateWanted_m2_per_h: 9999 });
    const tight = enquiryOf({ ...coated, faces: [{ kind: "hole", radius_mm: 1 }] });
    expect(open.windowExists).toBe(true);
    expect(surveySetup(modelOf(hasty), two[0], hasty.site, null).shortfall).toBe("too slow");
    expect(surveySetup(modelOf(tight), two[0], tight.site, null).shortfall).toBe("cannot reach the face");
  });
});

describe("triage", () => {
  it("declines what is no metal, and finds nothing against a plain known stack", () => {
    expect(triage(enquiryOf({ material: "stone" }).parts[0])).toMatchObject({ verdict: "declined" });
    expect(triage(enquiryOf(coated).parts[0]).verdict).toBe("likely");
  });
});

describe("what is unknown", () => {
  it("is a mixture, and the measurement that would tell the stacks apart is named", () => {
    const enquiry = enquiryOf({ ...coated, layers: [{ kind: "unknown" }], lead: "unknown" });
    const model = modelOf(enquiry, 24);
    expect(enquiry.parts[0].mixture.length).toBeGreaterThan(1);
    const advice = measurementAdvice(model, two[0], completeSetting(two[0], {}));
    expect(advice.map((a) => a.measurement).join(" ")).toContain("cross-section");
    expect(advice.map((a) => a.measurement).join(" ")).toContain("lead swab");
    for (const a of advice) expect(a.spreadRemoved).toBeGreaterThanOrEqual(0);
    expect(predict(model, two[0], completeSetting(two[0], {})).caveats.join(" ")).toContain("not fully known");
  });
});

describe("a layer that must stay", () => {
  it("is judged by its own heat: hot light that cleans the metal harms it", () => {
    const layers = [coated.layers[0], { kind: "epoxy-primer", colour: "mid", thickness_um: 30, mustStay: true }];
    const model = modelOf(enquiryOf({ ...coated, layers }));
    const p = predict(model, two[0], completeSetting(two[0], { passes: 2 }));
    expect(p.draws.filter((d) => d.stayLayerHarmed > 0.5).length).toBeGreaterThan(6);
    expect(p.probabilityUndamaged).toBeLessThan(0.5);
  });
});

describe("a trial", () => {
  const enquiry = enquiryOf(coated);
  const model = modelOf(enquiry);
  const centre = surveySetup(model, two[0], enquiry.site, null).best!.setting;
  const trial = planTrial(model, two[0], { id: "t", enquiryId: enquiry.id, centre, count: 16, seed: 2 });
  const seen = (residue: number | null, grade: 0 | 3 | null, patches = trial.patches): Outcome[] =>
    patches
      .filter((p) => p.setting !== null)
      .map((p) => ({
        trialId: "t",
        patch: p.patch,
        residueFraction: residue,
        residueUncertainty: null,
        metalCondition: grade,
        lightness: null,
        roughnessBefore: null,
        roughnessAfter: null,
        thicknessBefore: null,
        thicknessAfter: null,
        temperature: null,
        tests: [],
        grader: "",
        note: "",
      }));
  const burned = trial.patches.flatMap((p) => (p.setting ? [p.setting] : []));
  const weighed = evidenceModel(model, 24);
  // Solved once for all tests of this trial: it does not depend on what was seen.
  const book = edgeBook(weighed, two[0], { seed: weighed.seed, rays: 6 + burned.length, include: burned });
  const options = { seed: 1, book, draws: 24 };

  it("is planned the same from the same seed, with references and repeats", () => {
    expect(planTrial(model, two[0], { id: "t", enquiryId: enquiry.id, centre, count: 16, seed: 2 })).toEqual(trial);
    expect(trial.patches).toHaveLength(16);
    expect(trial.patches.some((p) => p.role === "untouched")).toBe(true);
    expect(trial.patches.some((p) => p.role === "replicate")).toBe(true);
    for (const p of trial.patches)
      if (p.setting) expect(beamState(two[0], p.setting).meanPower).toBeLessThanOrEqual(500.001);
  });

  it("reads physical groups from a setting: passes, dose and time as natural logarithms, power scaled by its factor", () => {
    const read = featureReader(model, two[0]);
    const setting = completeSetting(two[0], { passes: 3 });
    const beam = beamState(two[0], setting);
    const features = read(setting, 0.2);
    expect(features.logPasses).toBeCloseTo(Math.log(3), 12);
    expect(features.logDose).toBeCloseTo(Math.log(beam.fluencePeak as number) + 0.2, 12);
    expect(features.logTime).toBeCloseTo(Math.log(setting.pulseWidth as number), 12);
    expect(features.logOverlap).toBeCloseTo(Math.log(beam.eventsPerPoint / 3), 12);
    expect(predict(model, two[0], setting).areaRate).toBeLessThan(beam.areaRateIdeal);
  });

  it.each([
    ["all clean", 0, 0],
    ["all damaged", 0, 3],
    ["all left", 1, 0],
    ["ungraded", null, null],
  ] as const)("answers honestly when %s", (_what, residue, grade) => {
    const window = evaluateWindow(model, two[0], trial, seen(residue, grade), options);
    const text = JSON.stringify(window);
    expect(text).not.toMatch(/NaN|Infinity/);
    if (residue === 1 || grade === 3) expect(window.recommended).toBeNull();
    for (const words of window.words) expect(words).not.toMatch(/(9[6-9]|100) of 100/);
    expect(window.next.length).toBeGreaterThan(0);
  });

  it("moves with the evidence: clean patches raise the chance that dirty ones lower", () => {
    // On the settings that were burned: a map moves with the setting that it is drawn around.
    const rays = burned.map((setting) => ({ setting, ray: book.solve(setting) }));
    const mean = (outcomes: Outcome[]) => {
      const { posterior } = evaluateTrial(model, two[0], trial, outcomes, options);
      const truths = truthDraws(posterior);
      const one = { clean: 0, undamaged: 0, both: 0 };
      let sum = 0;
      for (const { setting, ray } of rays) {
        const truth = rayTruth(truths, ray, productionDrift);
        const x = Math.log(setting.level / ray.setting.level);
        for (let s = 0; s < truths.count; s++) {
          chanceAt(truth, x, s, one);
          sum += one.clean / truths.count / burned.length;
        }
      }
      return sum;
    };
    const nothing = mean([]);
    expect(mean(seen(0, 0))).toBeGreaterThan(nothing);
    expect(mean(seen(1, 0))).toBeLessThan(nothing);
  });

  it("answers for one patch", () => {
    expect(evaluateWindow(model, two[0], trial, seen(0, 0).slice(0, 1), options).diagnostics.patches).toBe(1);
  });
});
