// Writes the example's trials and their outcomes once, from a synthetic truth of another form than the model
// (src/truth). The files are committed as data; run this again only to make a new example.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { outcomesToCsv, parseEnquiry, trialToWire } from "#contract";
import { createLibrary } from "#library";
import { createRandom } from "#numerics";
import type { Outcome } from "#terms";
import { type CouponTruth, trueOutcome } from "../src/truth/index.ts";
import { createPartModel, partCautions, planTrial, surveySetup } from "#workflows";

const SEED = 20261125;
const library = createLibrary([]);
const enquiry = parseEnquiry(JSON.parse(readFileSync("examples/enquiry.json", "utf8")), library);

const hatch: CouponTruth = {
  removalPulsed: 1.5e4,
  removalContinuous: 5.2e5,
  damagePulsed: 6.2e4,
  damageContinuous: 9.4e5,
  removalTimeExponent: 0.3,
  damageTimeExponent: 0.42,
  removalCountExponent: 0.3,
  damageCountExponent: 0.06,
  steepness: 7,
  plateSpread: 0.06,
  placeSpread: 0.05,
  misgraded: 0.02,
  lightnessBare: 78,
  lightnessCoated: 46,
};
const brackets: CouponTruth = {
  removalPulsed: 1.5e4,
  removalContinuous: 3.4e5,
  damagePulsed: 3.3e4,
  damageContinuous: 8.5e5,
  removalTimeExponent: 0.25,
  damageTimeExponent: 0.45,
  removalCountExponent: 0.28,
  damageCountExponent: 0.07,
  steepness: 6,
  plateSpread: 0.08,
  placeSpread: 0.07,
  misgraded: 0.02,
  lightnessBare: 62,
  lightnessCoated: 34,
};
const plans = [
  { name: "hatch-covers.pulsed", part: "hatch-covers", laser: "pulsed-500", truth: hatch },
  { name: "hatch-covers.continuous", part: "hatch-covers", laser: "continuous-1500", truth: hatch },
  { name: "brackets.pulsed", part: "brackets", laser: "pulsed-500", truth: brackets },
  { name: "brackets.continuous", part: "brackets", laser: "continuous-1500", truth: brackets },
] as const;

mkdirSync("examples", { recursive: true });
plans.forEach((plan, index) => {
  const part = enquiry.parts.find((p) => p.id === plan.part)!;
  const setup = library.setup(plan.laser);
  const model = createPartModel(part, { seed: SEED, drawCount: 64 });
  const verdict = surveySetup(model, setup, enquiry.site, null);
  const centre = verdict.best!.setting;
  const trial = planTrial(model, setup, {
    id: plan.name.replace(".", "-"),
    enquiryId: enquiry.id,
    centre,
    count: 48,
    replicates: 6,
    seed: SEED + index,
  });
  const random = createRandom(SEED + 100 + index);
  const plates = trial.coupons.map(() => random.normal());
  const outcomes: Outcome[] = trial.patches
    .filter((p) => p.setting !== null)
    .map((patch) => {
      const noise = {
        plate: plates[patch.coupon - 1] ?? 0,
        place: random.normal(),
        damage: random.normal(),
        reading: random.normal(),
        lapse: random.next(),
      };
      const seen = trueOutcome(plan.truth, setup, patch.setting!, noise);
      return {
        trialId: trial.id,
        patch: patch.patch,
        residueFraction: seen.residueFraction,
        residueUncertainty: null,
        metalCondition: seen.metalCondition,
        lightness: seen.lightness,
        roughnessBefore: null,
        roughnessAfter: null,
        thicknessBefore: null,
        thicknessAfter: null,
        temperature: null,
        tests: [],
        grader: "grader 1",
        note: "",
      };
    });
  const clean = outcomes.filter((o) => o.residueFraction! <= 0.05).length;
  const good = outcomes.filter((o) => o.residueFraction! <= 0.05 && o.metalCondition! <= 2).length;
  console.log(
    plan.name,
    verdict.reason,
    "clean",
    clean,
    "good",
    good,
    "damaged",
    outcomes.filter((o) => o.metalCondition! > 2).length,
    "of",
    outcomes.length,
  );
  writeFileSync(
    `examples/${plan.name}.trial.json`,
    `${JSON.stringify(trialToWire(trial, partCautions(part, setup, centre)), null, 1)}\n`,
  );
  writeFileSync(`examples/${plan.name}.outcomes.csv`, outcomesToCsv(outcomes));
});
writeFileSync(
  "examples/README.md",
  `# Example

Everything here is invented: the yard, the parts, the plates and what was seen on them.

- \`enquiry.json\` is the enquiry, \`setting.json\` one setting to try with \`predict\`.
- \`*.trial.json\` are the planned patches, \`*.outcomes.csv\` what was "seen".

The outcomes were generated once by \`tools/make-example.ts\` from a synthetic truth (\`src/truth\`) whose laws differ in
form from the product's model (power laws instead of heat conduction, an effect per plate, 2 % of grades wrong).
seed of the truth and of the planning: ${SEED}.
`,
);
