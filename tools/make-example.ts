// Writes the example's trials and their outcomes once, from a synthetic truth of another form than the model
// (src/truth). The files are committed as data; run this again only to make a new example.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { outcomesToCsv, parseEnquiry, trialToWire } from "#contract";
import { createLibrary } from "#library";
import { createRandom } from "#numerics";
import type { Outcome, Trial } from "#terms";
import { type CouponTruth, trueOutcome } from "../src/truth/index.ts";
import {
  createPartModel,
  evaluateTrial,
  evidenceModel,
  nextBatch,
  partCautions,
  planTrial,
  priorPlan,
  surveySetup,
} from "#workflows";
import { keptBook } from "../src/cli/book-file.ts";

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

/** Folder that the files go to; "examples" replaces what is committed. */
const folder = process.argv[2] ?? "examples";
const wanted = process.argv.slice(3);
/** Patches of the first batch, references included, and the most in all: what two plates and a few re-burns hold. */
const FIRST = 24;
const MOST = 60;

/** What the invented plate shows on each patch; noise belongs to the patch, so that a later batch changes no earlier one. */
function outcomesOf(plan: (typeof plans)[number], index: number, trial: Trial): Outcome[] {
  const setup = library.setup(plan.laser);
  return trial.patches
    .filter((p) => p.setting !== null)
    .map((patch) => {
      const random = createRandom(SEED + 100 + index).substream(patch.patch);
      const noise = {
        plate: createRandom(SEED + 200 + index)
          .substream(patch.coupon)
          .normal(),
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
}

mkdirSync(folder, { recursive: true });
for (const [index, plan] of plans.entries()) {
  if (wanted.length > 0 && !wanted.includes(plan.name)) continue;
  const part = enquiry.parts.find((p) => p.id === plan.part)!;
  const setup = library.setup(plan.laser);
  const model = createPartModel(part, { seed: 1, drawCount: 64 });
  const centre = surveySetup(model, setup, enquiry.site, null).best!.setting;
  const asked = {
    id: plan.name.replace(".", "-"),
    enquiryId: enquiry.id,
    centre,
    count: FIRST,
    replicates: 2,
    seed: SEED + index,
  };
  const guide = priorPlan(model, setup, { seed: 1, count: FIRST - 4, rehearsals: 12, perCoupon: FIRST, draws: 64 });
  const first = planTrial(model, setup, { ...asked, guided: guide.settings });
  let trial: Trial = { ...first, reasons: [...first.reasons, ...guide.words] };
  for (;;) {
    const outcomes = outcomesOf(plan, index, trial);
    const file = `${folder}/${plan.name}.trial.json`;
    writeFileSync(file, `${JSON.stringify(trialToWire(trial, partCautions(part, setup, centre)), null, 1)}\n`);
    writeFileSync(`${folder}/${plan.name}.outcomes.csv`, outcomesToCsv(outcomes));
    const { book, keep } = await keptBook(file, evidenceModel(model), setup, trial, {});
    const { result } = evaluateTrial(model, setup, trial, outcomes, { seed: 1, book });
    await keep();
    const { stop, recommended, next } = result;
    console.log(
      plan.name,
      outcomes.length,
      stop.verdict,
      stop.bestShare,
      recommended?.repeats,
      recommended?.proven,
      recommended?.areaRate,
    );
    if (stop.verdict !== "go on" || trial.patches.length >= MOST || next.length === 0) break;
    trial = nextBatch(model, setup, trial, next, { seed: SEED + 10 * index + trial.coupons.length });
  }
  rmSync(`${folder}/${plan.name}.edges.json`, { force: true });
}
writeFileSync(
  `${folder}/README.md`,
  `# Example

Everything here is invented: the yard, the parts, the plates and what was seen on them.

- \`enquiry.json\` is the enquiry, \`setting.json\` one setting to try with \`predict\`.
- \`*.trial.json\` are the planned patches, batch by batch until the trial's own rule ended it, \`*.outcomes.csv\` what was
  "seen".
- \`photos/\` are photographs of the first coupon of the pulsed hatch covers, drawn by \`tools/make-example-photos.ts\` from
  those outcomes: no camera and no plate stands behind them.

The outcomes were generated once by \`tools/make-example.ts\` from a synthetic truth (\`src/truth\`) whose laws differ in
form from the product's model (power laws instead of heat conduction, an effect per plate, 2 % of grades wrong).
seed of the truth and of the planning: ${SEED}.
`,
);
