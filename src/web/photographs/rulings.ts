import { type GradingWire, type OutcomeWire, outcomeFromWire, outcomeToWire, type RulingWire } from "#contract";
import {
  acceptReading,
  overruleReading,
  type PatchVerdict,
  patchVerdict,
  type ReadOutcome,
  type Residue,
} from "#grading";
import { toSI } from "#units";

export type WirePatch = GradingWire["patches"][number];

export const isReference = ({ role }: Pick<WirePatch, "role">): boolean =>
  role === "untouched" || role === "cleaned-reference";

/** Whether a person said something in place of the reading, and did not just accept it. */
export const isOverruled = (ruling: RulingWire | null): boolean =>
  ruling !== null && (ruling.residue_percent !== null || ruling.metalCondition !== null);

const saysSomething = (outcome: OutcomeWire | null): boolean =>
  outcome !== null &&
  (outcome.residue_percent !== null || outcome.metalCondition !== null || outcome.lightness !== null);

/** Whether a reading says anything that a person could accept. */
export const acceptable = ({ read }: WirePatch): boolean => saysSomething(read);

/** Verdict of the reading alone, whoever ruled on it. */
export function verdictOfReading({ reading }: WirePatch, residueMax_percent: number): PatchVerdict {
  const share = (percent: number): number => toSI(percent, "%");
  const residue = reading.residue && {
    value: share(reading.residue.value_percent),
    uncertainty: share(reading.residue.uncertainty_percent),
    detectionLimit: share(reading.residue.detectionLimit_percent),
  };
  return patchVerdict({ residue: residue as Residue | null }, share(residueMax_percent));
}

/**
 * A patch with what a person says of its reading; null takes back what was said. Reading and ruling stay beside each
 * other. Throws InvalidInput for a patch without a reading, a ruling without a name, and a share beyond 0 to 100 %.
 */
export function ruledPatch(patch: WirePatch, ruling: RulingWire | null, residueMax_percent: number): WirePatch {
  const verdict = verdictOfReading(patch, residueMax_percent);
  if (patch.read === null) return { ...patch, verdict, ruling: null, outcome: null };
  if (ruling === null)
    return { ...patch, verdict, ruling: null, outcome: saysSomething(patch.read) ? patch.read : null };
  // Only the outcome of what was read is looked at.
  const read = { outcome: outcomeFromWire(patch.read) } as ReadOutcome;
  if (!isOverruled(ruling))
    return { ...patch, verdict, ruling, outcome: outcomeToWire(acceptReading(read, ruling.grader).outcome) };
  const { residue_percent, metalCondition, grader, note } = ruling;
  const residueFraction = residue_percent === null ? null : toSI(residue_percent, "%");
  const { outcome } = overruleReading(read, { grader, residueFraction, metalCondition, note });
  const said = residue_percent === null ? verdict : residue_percent <= residueMax_percent ? "clean" : "residue";
  return { ...patch, verdict: said, ruling, outcome: outcomeToWire(outcome) };
}

/** A graded coupon with one more ruling, or one less. */
export function ruleOn(grading: GradingWire, patch: number, ruling: RulingWire | null): GradingWire {
  return {
    ...grading,
    patches: grading.patches.map((p) => (p.patch === patch ? ruledPatch(p, ruling, grading.residueMax_percent) : p)),
  };
}

/** Readings that may be accepted together: residue and metal settled, not near the limit, not flagged, not ruled on yet. */
export function plainReadings(grading: GradingWire): readonly WirePatch[] {
  return grading.patches.filter(
    (p) =>
      acceptable(p) &&
      p.ruling === null &&
      p.read?.metalCondition != null &&
      p.reading.flags.length === 0 &&
      (p.verdict === "clean" || p.verdict === "residue"),
  );
}

/** All of those accepted in one step. */
export function acceptPlain(grading: GradingWire, grader: string): GradingWire {
  const plain = new Set(plainReadings(grading).map((p) => p.patch));
  const accepted = (patch: number): RulingWire => ({
    patch,
    grader,
    residue_percent: null,
    metalCondition: null,
    note: "",
  });
  return {
    ...grading,
    patches: grading.patches.map((p) =>
      plain.has(p.patch) ? ruledPatch(p, accepted(p.patch), grading.residueMax_percent) : p,
    ),
  };
}

/** Per cent of area up to which two residues are the same to whoever accepts them: decoders differ a little. */
const SAME = 0.05;

/** Whether two readings of a patch say the same to a person. */
function alike(a: OutcomeWire | null, b: OutcomeWire): boolean {
  if (a === null || a.metalCondition !== b.metalCondition) return false;
  const [one, other] = [a.residue_percent, b.residue_percent];
  return one === other || (one !== null && other !== null && Math.abs(one - other) < SAME);
}

/**
 * A coupon read anew with what people said before. What was overruled stands; an acceptance stands only where the reading
 * is the same as the one that was accepted.
 */
export function carryRulings(before: GradingWire | null, fresh: GradingWire): GradingWire {
  const earlier = new Map((before?.patches ?? []).map((p) => [p.patch, p]));
  return {
    ...fresh,
    patches: fresh.patches.map((p) => {
      const was = earlier.get(p.patch);
      if (was === undefined || was.ruling === null || p.read === null) return p;
      if (!isOverruled(was.ruling) && !(alike(was.read, p.read) && acceptable(p))) return p;
      return ruledPatch(p, was.ruling, fresh.residueMax_percent);
    }),
  };
}
