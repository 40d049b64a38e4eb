import { chiSquareUpper } from "#numerics";
import { invalid, requirePositive } from "#units";
import { type Estimate, knownErrors, logEstimate, plainEstimate } from "./estimate.ts";
import { weightedLine } from "./weighted-line.ts";

/**
 * Threshold after many pulses on one place: F_N = F_1·N^(S − 1).
 * @param first threshold of one pulse, any unit (J/m²)
 * @param pulses N (1), 1 or more
 * @param exponent S (1), 0 to 1.5; 1 leaves the threshold as it is
 * @returns threshold in the unit of `first`
 * Throws InvalidInput outside these ranges. Valid: N up to some thousands, no heat kept from pulse to pulse.
 * Source: Jee, Becker and Walser, J. Opt. Soc. Am. B 5 (1988) 648.
 */
export function incubatedThreshold(first: number, pulses: number, exponent: number): number {
  requirePositive("threshold of one pulse", first);
  if (!(pulses >= 1)) invalid("pulses", pulses, "", "1 or more");
  if (!(exponent >= 0 && exponent <= 1.5)) invalid("incubation exponent", exponent, "", "must be 0 to 1.5");
  return first * pulses ** (exponent - 1);
}

export interface ThresholdReading {
  readonly pulses: number;
  /** J/m² */
  readonly threshold: number;
  /** J/m² */
  readonly standardError: number;
}

export interface IncubationFit {
  /** S */
  readonly exponent: Estimate;
  /** threshold of one pulse, J/m² */
  readonly first: Estimate;
  /** correlation of the errors of S and ln F_1 */
  readonly correlation: number;
  /** chance of thresholds as far off the power law as these */
  readonly misfit: number;
}

/**
 * Incubation from thresholds at several pulse numbers: ln F_N = ln F_1 + (S − 1)·ln N, weighted by the relative errors,
 * which are widened by √(χ²/degrees of freedom) where that is above 1.
 * @param readings at least 3, thresholds and their errors in J/m², above 0
 * @param behind degrees of freedom (1) that the errors were found from, all readings together, for Student's quantile
 * Throws InvalidInput for fewer, for one pulse number only and for values not above 0.
 * Source: Jee, Becker and Walser, J. Opt. Soc. Am. B 5 (1988) 648.
 */
export function fitIncubation(readings: readonly ThresholdReading[], behind = knownErrors): IncubationFit {
  if (readings.length < 3) invalid("pulse numbers", readings.length, "", "at least 3 for an incubation fit");
  for (const reading of readings) {
    if (!(reading.pulses >= 1)) invalid("pulses", reading.pulses, "", "1 or more");
    requirePositive("threshold", reading.threshold, "J/m2");
    requirePositive("standard error of a threshold", reading.standardError, "J/m2");
  }
  const line = weightedLine(
    readings.map((r) => Math.log(r.pulses)),
    readings.map((r) => Math.log(r.threshold)),
    readings.map((r) => (r.standardError / r.threshold) ** 2),
  );
  const widening = Math.max(1, line.chiSquare / line.degreesOfFreedom);
  const firstVariance = (line.levelVariance + line.centre ** 2 * line.slopeVariance) * widening;
  const slopeVariance = line.slopeVariance * widening;
  return {
    exponent: plainEstimate(1 + line.slope, Math.sqrt(slopeVariance), behind),
    first: logEstimate(line.level - line.slope * line.centre, Math.sqrt(firstVariance), behind),
    correlation: (-line.centre * slopeVariance) / Math.sqrt(firstVariance * slopeVariance),
    misfit: chiSquareUpper(line.chiSquare, line.degreesOfFreedom),
  };
}
