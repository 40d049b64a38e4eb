import { betaQuantile } from "#numerics";
import type { MetalConditionGrade, Outcome } from "#terms";
import { invalid, requireInteger, requireShare, requireText } from "#units";
import type { ReadOutcome } from "./reading-outcome.ts";

/** What a person says of a patch in place of a reading; null where the reading stands. */
export interface Ruling {
  readonly grader: string;
  /** share of area */
  readonly residueFraction: number | null;
  readonly metalCondition: MetalConditionGrade | null;
  readonly note: string;
}

/** A reading that a person looked at: accepted, or overruled with both kept. */
export interface JudgedReading {
  readonly read: ReadOutcome;
  /** null when accepted */
  readonly ruling: Ruling | null;
  /** the outcome that counts from now on */
  readonly outcome: Outcome;
}

/** Standard uncertainty of a share that an eye gives (own choice): a twentieth of the area, more at half cover. */
const eyeSpread = (share: number): number => 0.02 + 0.08 * Math.sqrt(share * (1 - share));

/**
 * The reading stands, seen by a grader. The outcome keeps `photographs` as its grader, so that it takes the place of the
 * reading and does not stand beside it; who looked is in the note. Errors: InvalidInput for an empty name.
 */
export function acceptReading(read: ReadOutcome, grader: string): JudgedReading {
  const name = requireText("grader", grader, 200);
  const note = `Accepted by ${name}. ${read.outcome.note}`.slice(0, 2000);
  return { read, ruling: null, outcome: { ...read.outcome, note } };
}

/**
 * A person overrules a reading: what was said counts, what the photograph gave stays beside it.
 * ruling: residueFraction a share 0 to 1, metalCondition 0 to 4; at least one. Errors: InvalidInput otherwise.
 */
export function overruleReading(read: ReadOutcome, ruling: Ruling): JudgedReading {
  const grader = requireText("grader", ruling.grader, 200);
  const residue = ruling.residueFraction === null ? null : requireShare("residue", ruling.residueFraction);
  const grade =
    ruling.metalCondition === null
      ? null
      : (requireInteger("metal condition", ruling.metalCondition, 0, 4) as MetalConditionGrade);
  if (residue === null && grade === null) invalid("ruling", "nothing", "", "must say a residue or a metal condition");
  const said = ruling.note.trim() === "" ? "" : `: ${ruling.note.trim()}`;
  return {
    read,
    ruling: { ...ruling, grader },
    outcome: {
      ...read.outcome,
      residueFraction: residue ?? read.outcome.residueFraction,
      residueUncertainty: residue === null ? read.outcome.residueUncertainty : eyeSpread(residue),
      metalCondition: grade ?? read.outcome.metalCondition,
      note: `Overruled by ${grader}${said}. ${read.outcome.note}`.slice(0, 2000),
    },
  };
}

/** What of a judged reading tells whether it was wrong. */
export interface SeenReading {
  readonly read: { readonly outcome: Pick<Outcome, "residueFraction" | "metalCondition"> };
  readonly ruling: Pick<Ruling, "residueFraction" | "metalCondition"> | null;
}

/** Share of readings on the wrong side of an acceptance, learned from those a person looked at. */
export interface WrongReadings {
  readonly looked: number;
  readonly wrong: number;
  /** mean of what is believed of the share */
  readonly rate: number;
  /** 90 % interval */
  readonly low: number;
  readonly high: number;
}

/** No grader is never wrong: the evidence is weighed with a share above none. */
export const leastWrongShare = 1e-4;

/** Belief before any reading was looked at: 2.5 %, worth twenty readings, the window's own share of wrong grades. */
const BEFORE = { wrong: 0.5, right: 19.5 } as const;

/** Whether a ruling puts the patch on the other side of what is accepted than the reading did. */
function turned({ read, ruling }: SeenReading, limit: number, worst: number): boolean {
  if (ruling === null) return false;
  const [seen, said] = [read.outcome.residueFraction, ruling.residueFraction];
  if (seen !== null && said !== null && seen <= limit !== said <= limit) return true;
  const [grade, better] = [read.outcome.metalCondition, ruling.metalCondition];
  return grade !== null && better !== null && grade <= worst !== better <= worst;
}

/** Readings that people looked at, with the limits that they were held against. */
export interface SeenGroup {
  readonly seen: readonly SeenReading[];
  /** share of area */
  readonly residueMax: number;
  readonly metalConditionMax: MetalConditionGrade;
}

/**
 * Mis-grading rate of readings from those that a person accepted or overruled, of one coupon or of many. Only rulings that
 * turn the patch to the other side of its acceptance count as wrong; readings that were not settled, or that nobody looked
 * at, count not at all.
 *
 * Equation: Beta(½ + k, 19½ + n − k), k wrong of n; mean, 5 % and 95 % points. Units: residueMax share of area,
 * metalConditionMax grade 0 to 4; result shares. Errors: InvalidInput outside. Source: Beta-binomial; prior own.
 */
export function wrongReadings(groups: readonly SeenGroup[]): WrongReadings {
  let looked = 0;
  let wrong = 0;
  for (const { seen, residueMax, metalConditionMax } of groups) {
    const limit = requireShare("largest residue", residueMax);
    const worst = requireInteger("worst metal condition", metalConditionMax, 0, 4);
    for (const reading of seen) {
      const { residueFraction, metalCondition } = reading.read.outcome;
      if (residueFraction === null && metalCondition === null) continue;
      looked += 1;
      if (turned(reading, limit, worst)) wrong += 1;
    }
  }
  const [a, b] = [BEFORE.wrong + wrong, BEFORE.right + looked - wrong];
  return { looked, wrong, rate: a / (a + b), low: betaQuantile(0.05, a, b), high: betaQuantile(0.95, a, b) };
}
