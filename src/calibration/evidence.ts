import type { Ray } from "#edges";
import { normalCdf } from "#numerics";
import type { Acceptance, AcceptanceTestKind, Outcome } from "#terms";

/** Chances that a reading means: clean, partly covered, mostly covered. They add up to 1. */
export type ResidueReading = readonly [clean: number, partly: number, mostly: number];
/** Weights that a reading gives to: not melted, melted within what is accepted, damaged. */
export type MetalReading = readonly [whole: number, accepted: number, damaged: number];

/** What one burned patch says, ready for the likelihood. */
export interface PatchEvidence {
  readonly patch: number;
  readonly ray: Ray;
  /** ln of the patch's power over the full power of its ray */
  readonly x: number;
  /** which plate, from 0 */
  readonly coupon: number;
  /** who graded, from 0 */
  readonly grader: number;
  /** ln of the coat's thickness on this patch over that of the trial, 0 where not gauged */
  readonly thickness: number;
  readonly residue: ResidueReading | null;
  readonly metal: MetalReading | null;
}

/** Standard uncertainty of a residue reading that states none: 0.02 plus 15 % of it (own choice: wide, as an eye is). */
export const readingUncertainty = (residue: number): number => 0.02 + 0.15 * residue;

/** Tests that fail where something is left, and tests that fail where the metal has suffered. */
const ofResidue: ReadonlySet<AcceptanceTestKind> = new Set([
  "salts",
  "dust",
  "water-break",
  "pull-off",
  "cross-cut",
  "contact-resistance",
]);
const ofMetal: ReadonlySet<AcceptanceTestKind> = new Set(["hardness", "dimension-loss", "weld-porosity"]);
/** Share of acceptance tests whose result has another cause (own choice). */
const TEST_LAPSE = 0.1;

/**
 * Reads the residue side of an outcome: a fraction with its uncertainty, thickness gauges before and after where no
 * fraction was read, then acceptance tests. One path for yes/no, grades and per cent: each becomes chances of
 * three classes, split at the accepted residue and at one half.
 *
 * Equation: P(class) = Φ((b − r)/u) − Φ((a − r)/u) over the class's limits a, b, renormalised on [0, 1].
 * Units: shares of area. Range: 0 to 1. Errors: none; null where nothing was read. Source: own model of readings.
 */
export function residueReading(outcome: Outcome, acceptance: Acceptance): ResidueReading | null {
  const read = outcome.residueFraction ?? byGauge(outcome);
  let reading: ResidueReading | null = null;
  if (read !== null) {
    const u = Math.max(0.005, outcome.residueUncertainty ?? readingUncertainty(read));
    const below = (limit: number) => normalCdf((limit - read) / u);
    const limit = Math.min(0.499, acceptance.residueMax);
    // What a grader calls just within the limit is within it: the limit itself belongs to clean.
    const clean = read <= acceptance.residueMax ? Math.max(0.5, below(limit)) : Math.min(0.5, below(limit));
    const half = Math.max(clean, below(0.5));
    reading = [clean, half - clean, 1 - half];
  }
  const failed = outcome.tests.some((t) => ofResidue.has(t.kind) && t.passed === false);
  const passed = outcome.tests.some((t) => ofResidue.has(t.kind) && t.passed === true);
  if (failed) return afterFailure(reading);
  if (passed) return combine(reading, [1, TEST_LAPSE, TEST_LAPSE]);
  return reading;
}

function byGauge({ thicknessBefore, thicknessAfter }: Outcome): number | null {
  if (thicknessBefore === null || thicknessAfter === null || !(thicknessBefore > 0)) return null;
  return Math.min(1, Math.max(0, thicknessAfter / thicknessBefore));
}

/**
 * Reads the metal side: the grade, a temperature above what is accepted, and the tests that the metal must pass.
 * Units: grades and K as in the outcome. Errors: none; null where nothing was read. Source: own model of readings.
 */
export function metalReading(outcome: Outcome, acceptance: Acceptance): MetalReading | null {
  const { metalTemperatureMax, metalConditionMax } = acceptance;
  const tooHot =
    metalTemperatureMax !== null && outcome.temperature !== null && outcome.temperature > metalTemperatureMax;
  const grade = outcome.metalCondition;
  let reading: MetalReading | null = null;
  if (tooHot || (grade !== null && grade > metalConditionMax)) reading = [0, 0, 1];
  // Molten but accepted: the physics of some metals has no room between melting and harm, so whole may be meant as well.
  else if (grade !== null) reading = grade >= 2 ? [0.5, 1, 0] : [1, 0, 0];
  const failed = outcome.tests.some((t) => ofMetal.has(t.kind) && t.passed === false);
  if (failed) return combine(reading, [TEST_LAPSE, TEST_LAPSE, 1]);
  return reading;
}

/**
 * A patch that fails an acceptance test is not clean, whatever it looks like, but for the share of tests that fail of
 * another cause; how much is left goes by the reading. So a finding after 90 days takes the proof back.
 */
function afterFailure(reading: ResidueReading | null): ResidueReading {
  const [partly, mostly] = reading === null ? [1, 1] : [Math.max(reading[1], 0.01), Math.max(reading[2], 0.01)];
  const left = (1 - TEST_LAPSE) / (partly + mostly);
  return [TEST_LAPSE, partly * left, mostly * left];
}

type Three = readonly [number, number, number];

/** Two readings of the same thing, each with its own doubt. */
function combine(a: Three | null, b: Three): Three {
  const first = a ?? [1, 1, 1];
  const product = first.map((p, k) => Math.max(p, 0.01) * b[k]!);
  const sum = product[0]! + product[1]! + product[2]!;
  return [product[0]! / sum, product[1]! / sum, product[2]! / sum];
}
