import type { RandomStream } from "#numerics";
import type { MetalConditionGrade } from "#terms";
import type { WorldLaws } from "./draw-laws.ts";

/** Share of the damage threshold at which the grades below the limit begin, and those above it. Invented. */
const STEP = 0.8;
const BEYOND = 1.25;

/**
 * Grade of the metal from its load over the damage threshold, so that a ratio of 1 is the first grade beyond the accepted one.
 * The grade below begins at 0.8 of it, the one below that at 0.64; the grade above at 1.25.
 * Units: ratio 1. Range: ratio ≥ 0. Errors: none. Source: own, invented.
 */
export function gradeOf(ratio: number, conditionMax: MetalConditionGrade): MetalConditionGrade {
  const steps =
    ratio >= 1 ? 1 + Math.floor(Math.log(ratio) / Math.log(BEYOND)) : -Math.floor(Math.log(ratio) / Math.log(STEP));
  return Math.max(0, Math.min(3, conditionMax + steps)) as MetalConditionGrade;
}

/** The wrong side of the limit: the nearest grade there. */
export function flippedGrade(grade: MetalConditionGrade, conditionMax: MetalConditionGrade): MetalConditionGrade {
  if (grade > conditionMax) return conditionMax;
  return Math.min(3, conditionMax + 1) as MetalConditionGrade;
}

/** A residue as a grader reads it: a share of error, a floor of error, the grader's bias, sometimes simply wrong. */
export function readResidue(
  residue: number,
  residueMax: number,
  laws: WorldLaws,
  graderBias: number,
  random: RandomStream,
): number {
  const spread = random.normal();
  const floor = random.normal();
  const lapse = random.next();
  const wrong = random.next();
  if (lapse < laws.misgraded) return residue <= residueMax ? Math.min(1, residueMax * 2 + 0.5 * wrong) : 0;
  const seen = residue * Math.exp(laws.readingSpread * spread + graderBias) + laws.readingFloor * floor;
  return Math.max(0, Math.min(1, seen));
}
