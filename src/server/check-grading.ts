import { gradingId, type GradingWire, type OutcomeWire, type TrialWire } from "#contract";
import { invalid } from "#units";

type Patch = GradingWire["patches"][number];

/**
 * Refuses a grading that does not belong to this coupon of this trial, or whose outcomes are not what its own readings
 * and rulings say. Throws InvalidInput in one line.
 */
export function checkGrading(grading: GradingWire, trial: TrialWire, coupon: number): void {
  if (!trial.coupons.some((c) => c.coupon === coupon))
    invalid("coupon", coupon, "", `one of: ${trial.coupons.map((c) => c.coupon).join(", ")}`);
  const wanted = { trial: trial.id, coupon, id: gradingId(trial.id, coupon), enquiry: trial.enquiry } as const;
  for (const [field, value] of Object.entries(wanted)) {
    const given = grading[field as keyof typeof wanted];
    if (given !== value) invalid(`grading.${field}`, given, "", `must be ${value}`);
  }
  const planned = trial.patches.filter((p) => p.coupon === coupon);
  if (grading.patches.length !== planned.length)
    invalid("grading.patches", grading.patches.length, "patches", `coupon ${coupon} has ${planned.length}`);
  const seen = new Set<number>();
  for (const [i, patch] of grading.patches.entries()) {
    const at = `grading.patches[${i}]`;
    const plan = planned.find((p) => p.patch === patch.patch);
    if (plan === undefined) invalid(`${at}.patch`, patch.patch, "", `is not on coupon ${coupon}`);
    if (seen.has(patch.patch)) invalid(`${at}.patch`, patch.patch, "", "stands there twice");
    seen.add(patch.patch);
    if (patch.role !== plan.role) invalid(`${at}.role`, patch.role, "", `must be ${plan.role}, as planned`);
    checkPatch(patch, trial.id, at);
  }
}

function checkPatch(patch: Patch, trial: string, at: string): void {
  const { role, read, ruling, outcome, reading, verdict } = patch;
  const reference = role === "untouched" || role === "cleaned-reference";
  for (const [name, one] of [
    ["read", read],
    ["outcome", outcome],
  ] as const) {
    if (one === null) continue;
    if (reference) invalid(`${at}.${name}`, patch.patch, "", "is a reference, which has no outcome");
    if (one.trial !== trial) invalid(`${at}.${name}.trial`, one.trial, "", `must be ${trial}`);
    if (one.patch !== patch.patch) invalid(`${at}.${name}.patch`, one.patch, "", `must be ${patch.patch}`);
    if (one.grader !== "photographs") invalid(`${at}.${name}.grader`, one.grader, "", "must be photographs");
  }
  if (ruling !== null && ruling.patch !== patch.patch)
    invalid(`${at}.ruling.patch`, ruling.patch, "", `must be ${patch.patch}`);
  if (ruling !== null && read === null) invalid(`${at}.ruling`, patch.patch, "", "there is no reading to rule on");
  if (reading.residue === null && ruling?.residue_percent == null && verdict !== "not settled")
    invalid(`${at}.verdict`, verdict, "", "must be not settled: there is no residue");
  if (outcome !== null) checkOutcome(patch, outcome, at);
  else if (ruling !== null) invalid(`${at}.outcome`, "none", "", "a ruling has an outcome");
}

const alike = (a: number | null, b: number | null): boolean =>
  a === b || (a !== null && b !== null && Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a)));

/** What counts is what a person said, and the reading where nobody said anything. */
function checkOutcome({ read, ruling }: Patch, outcome: OutcomeWire, at: string): void {
  const residue = ruling?.residue_percent ?? read?.residue_percent ?? null;
  const metal = ruling?.metalCondition ?? read?.metalCondition ?? null;
  if (!alike(outcome.residue_percent, residue))
    invalid(
      `${at}.outcome.residue_percent`,
      outcome.residue_percent,
      "%",
      `must be ${residue ?? "none"}, as read or ruled`,
    );
  if (outcome.metalCondition !== metal)
    invalid(`${at}.outcome.metalCondition`, outcome.metalCondition, "", `must be ${metal ?? "none"}, as read or ruled`);
}
