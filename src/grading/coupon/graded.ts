import type { Acceptance, Outcome, PatchRole, Trial } from "#terms";
import { invalid, requireText } from "#units";
import type { Gate } from "../gate.ts";
import type { PatchReading } from "../reading/patch-reading.ts";
import { acceptReading, overruleReading } from "../reading/overrule.ts";
import type { PhotoPath } from "../reading/photo-path.ts";
import { outcomeFromReading, type ReadOutcome } from "../reading/reading-outcome.ts";
import { type PatchVerdict, patchVerdict } from "../reading/patch-verdict.ts";
import type { CouponPlan } from "./coupon-plan.ts";
import { type CouponGrading, gradeCoupon } from "./grade-coupon.ts";
import type { PhotoLook } from "./look-at-photo.ts";

/** What a person says of a reading: accepted where nothing is said of residue or metal, overruled otherwise. */
export interface PatchRuling {
  readonly patch: number;
  readonly grader: string;
  /** share of area; null where the reading stands */
  readonly residueFraction: number | null;
  readonly metalCondition: Outcome["metalCondition"];
  readonly note: string;
}

/** One patch of a graded coupon. */
export interface GradedPatch {
  readonly patch: number;
  readonly role: PatchRole;
  readonly verdict: PatchVerdict;
  readonly reading: PatchReading;
  /** as read; null for references, which are no outcomes */
  readonly read: ReadOutcome | null;
  /** null where nobody has looked */
  readonly ruling: PatchRuling | null;
  /** what counts: the reading, or what a person said instead; null where it says nothing */
  readonly outcome: Outcome | null;
}

/** A coupon read from its photographs. */
export interface GradedCoupon extends Pick<CouponGrading, "coupon" | "looks" | "difference" | "notes"> {
  readonly trialId: string;
  readonly plan: CouponPlan;
  /** share of area and grade that are accepted */
  readonly limits: Pick<Acceptance, "residueMax" | "metalConditionMax">;
  readonly patches: readonly GradedPatch[];
}

const isReference = (role: PatchRole): boolean => role === "untouched" || role === "cleaned-reference";

/** Whether an outcome says anything that a window can use. */
const saysSomething = ({ residueFraction, metalCondition, lightness }: Outcome): boolean =>
  residueFraction !== null || metalCondition !== null || lightness !== null;

/**
 * One coupon of a trial from its photographs, each patch with verdict and outcome. Where a layer of the stack does not
 * show in photographs (`path.unseen`) no residue is settled, whatever the pictures look like.
 * limits: share of area, grade. Errors: InvalidInput for a residue limit outside 0 to 1.
 */
export function gradeTrialCoupon(
  trial: Pick<Trial, "id">,
  plan: CouponPlan,
  looks: readonly PhotoLook[],
  limits: Pick<Acceptance, "residueMax" | "metalConditionMax">,
  path: Pick<PhotoPath, "unseen">,
): GradedCoupon {
  const { readings, ...grading } = gradeCoupon(plan, looks);
  const films = path.unseen.map((sentence): Gate => ({ gate: "film", sentence }));
  const patches = plan.patches.map(({ patch, role }, k): GradedPatch => {
    const plain = readings[k]!;
    const reading = films.length === 0 ? plain : { ...plain, residue: null, refusals: [...films, ...plain.refusals] };
    const read = isReference(role) ? null : outcomeFromReading(reading, trial.id);
    const outcome = read !== null && saysSomething(read.outcome) ? read.outcome : null;
    return { patch, role, verdict: patchVerdict(reading, limits.residueMax), reading, read, ruling: null, outcome };
  });
  return { ...grading, trialId: trial.id, plan, limits, patches };
}

/** A coupon with what people said of its readings; a later ruling on the same patch takes the place of an earlier one. */
export function withRulings(graded: GradedCoupon, rulings: readonly PatchRuling[]): GradedCoupon {
  const known = new Map(graded.patches.map((p) => [p.patch, p]));
  for (const { patch } of rulings) {
    const found = known.get(patch);
    if (found === undefined) invalid("patch", patch, "", `is not on coupon ${graded.coupon}`);
    if (found.read === null) invalid("patch", patch, "", "is a reference: there is no reading to accept or overrule");
  }
  const byPatch = new Map(rulings.map((ruling) => [ruling.patch, ruling]));
  return {
    ...graded,
    patches: graded.patches.map((p) => {
      const ruling = byPatch.get(p.patch);
      return ruling === undefined || p.read === null ? p : ruled(p, p.read, ruling, graded.limits.residueMax);
    }),
  };
}

function ruled(patch: GradedPatch, read: ReadOutcome, ruling: PatchRuling, residueMax: number): GradedPatch {
  const grader = requireText("grader", ruling.grader, 200);
  if (ruling.residueFraction === null && ruling.metalCondition === null) {
    if (!saysSomething(read.outcome))
      invalid("ruling", "accepted", "", `patch ${patch.patch} was not read: say a residue or a metal condition`);
    return { ...patch, ruling: { ...ruling, grader }, outcome: acceptReading(read, grader).outcome };
  }
  const { outcome } = overruleReading(read, { ...ruling, grader });
  const verdict = ruling.residueFraction === null ? patch.verdict : saidVerdict(ruling.residueFraction, residueMax);
  return { ...patch, verdict, ruling: { ...ruling, grader }, outcome };
}

/** What a person sees needs no interval: it lies on one side of the limit. */
const saidVerdict = (residue: number, limit: number): PatchVerdict => (residue <= limit ? "clean" : "residue");
