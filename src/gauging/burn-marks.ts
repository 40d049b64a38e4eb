import { findRoot, median } from "#numerics";
import type { Joule, Metre } from "#terms";
import { invalid, requireInRange, requirePositive } from "#units";
import { type Estimate, knownErrors, logEstimate } from "./estimate.ts";
import { type WeightedLine, weightedLine } from "./weighted-line.ts";

export interface BurnMark {
  readonly energy: Joule;
  /** diameter of the mark */
  readonly diameter: Metre;
  /** standard error of the reading; null where it is not known */
  readonly uncertainty: Metre | null;
}

export interface SpotFit {
  readonly marks: readonly BurnMark[];
  /** 1/e² radius of the beam, m */
  readonly radius: Estimate;
  /** pulse energy at which a mark begins, J */
  readonly thresholdEnergy: Estimate;
  /** fluence in the middle of the beam at which a mark begins, J/m² */
  readonly thresholdFluence: Estimate;
  /** correlation of the errors of radius and threshold energy, −1 to 1 */
  readonly correlation: number;
  /** standard error of one diameter as the marks show it, m; null where it was given */
  readonly diameterScatter: Metre | null;
  /** D² over ln E with the weights used */
  readonly line: WeightedLine;
  readonly variances: readonly number[];
}

/** Shot to shot scatter of the pulse energy where nobody stated it: common practice, no source. */
const usualEnergyNoise = 0.01;

/**
 * Spot and threshold from burn marks of single shots: D² = 2w²·ln(E/E_th), so that F_th = 2E_th/(π·w²).
 * Weighted line of D² over ln E; variance of a D²: 4D²σ² + 2σ⁴ + (2w²·ε)², D from the line; σ² is taken off D², whose
 * mean it raises. σ is the given uncertainty, or that scatter at which the residuals are as large as expected.
 * Given uncertainties that are too small for the residuals are widened by √(χ²/degrees of freedom).
 * @param marks at least 3 (1), energies (J) and diameters (m) above 0, at two energies or more
 * @param energyNoise ε, relative scatter of the pulse energy (1), 0 to 0.5
 * @returns radius 1/e² (m), threshold energy (J), peak threshold fluence (J/m²), errors with covariance
 * Valid: Gaussian beam, one shot a site, marks read at their rim, energy above the threshold. An ellipse enters with
 * the geometric mean of its axes.
 * Throws InvalidInput for too few marks, values not above 0, one energy only and marks that do not grow with energy.
 * Sources: Liu, Opt. Lett. 7 (1982) 196; for the scatter Mandel and Paule, Anal. Chem. 42 (1970) 1194.
 */
export function fitSpot(marks: readonly BurnMark[], energyNoise = usualEnergyNoise): SpotFit {
  if (marks.length < 3) invalid("burn marks", marks.length, "", "at least 3 for each spot");
  requireInRange("energy noise", energyNoise, "", 0, 0.5);
  for (const mark of marks) {
    requirePositive("pulse energy", mark.energy, "J");
    requirePositive("mark diameter", mark.diameter, "m");
    if (mark.uncertainty !== null) requirePositive("uncertainty of a diameter", mark.uncertainty, "m");
  }
  const given = marks.every((mark) => mark.uncertainty !== null);
  if (!given && marks.some((mark) => mark.uncertainty !== null))
    invalid("uncertainty of a diameter", "missing", "", "must stand beside every diameter or none");
  const at = (scatter: number) => weigh(marks, energyNoise, scatter);
  const scatter = given ? null : scatterOf(marks, at);
  const { line, variances } = at(scatter ?? 0);
  const widening = given ? Math.max(1, line.chiSquare / line.degreesOfFreedom) : 1;
  const df = given ? knownErrors : line.degreesOfFreedom;
  const vSlope = line.slopeVariance * widening;
  const vLevel = line.levelVariance * widening;
  // ln E_th = centre − level/slope, ln w = ½·ln(slope/2); level and slope are independent at the centre.
  const ratio = line.level / line.slope;
  const dSlope = ratio / line.slope;
  const sLogThreshold = Math.sqrt(vLevel / line.slope ** 2 + dSlope ** 2 * vSlope);
  const sLogRadius = Math.sqrt(vSlope) / (2 * line.slope);
  const sLogFluence = Math.sqrt(vLevel / line.slope ** 2 + (dSlope - 1 / line.slope) ** 2 * vSlope);
  const logThreshold = line.centre - ratio;
  const logRadius = 0.5 * Math.log(line.slope / 2);
  // Beyond these the slope itself is not sure to be above 0, and the threshold could lie anywhere.
  if (!(sLogRadius < 0.5 && sLogThreshold < 3)) tooScattered(marks);
  return {
    marks,
    radius: logEstimate(logRadius, sLogRadius, df),
    thresholdEnergy: logEstimate(logThreshold, sLogThreshold, df),
    thresholdFluence: logEstimate(Math.log(2 / Math.PI) + logThreshold - 2 * logRadius, sLogFluence, df),
    correlation: (dSlope * vSlope) / (2 * line.slope) / (sLogThreshold * sLogRadius),
    diameterScatter: scatter,
    line,
    variances,
  };
}

interface Weighed {
  readonly line: WeightedLine;
  readonly variances: readonly number[];
}

/** The line with variances that follow from itself: three rounds settle them. */
function weigh(marks: readonly BurnMark[], energyNoise: number, scatter: number): Weighed {
  const xs = marks.map((mark) => Math.log(mark.energy));
  const errors = marks.map((mark) => mark.uncertainty ?? scatter);
  const ys = marks.map((mark, i) => mark.diameter ** 2 - errors[i]! ** 2);
  const largest = Math.max(...ys);
  let squares = ys;
  let slope = weightedLine(
    xs,
    ys,
    ys.map(() => 1),
  ).slope;
  let found: Weighed | null = null;
  for (let round = 0; round < 4; round++) {
    if (!(slope > 0)) invalid("burn marks", marks.length, "", "their diameters must grow with the pulse energy");
    const variances = squares.map((square, i) => {
      const error = errors[i]! ** 2;
      return 4 * Math.max(square, 0) * error + 2 * error ** 2 + (slope * energyNoise) ** 2 + (1e-6 * largest) ** 2;
    });
    const line = weightedLine(xs, ys, variances);
    slope = line.slope;
    squares = xs.map((x) => line.level + slope * (x - line.centre));
    found = { line, variances };
  }
  return found!;
}

function tooScattered(marks: readonly BurnMark[]): never {
  return invalid("burn marks", marks.length, "", "scatter too much about any line to give a spot");
}

/** The scatter of one diameter at which χ² equals its degrees of freedom; 0 where the energy noise alone explains it. */
function scatterOf(marks: readonly BurnMark[], at: (scatter: number) => Weighed): Metre {
  const excess = (scatter: number): number => {
    const { line } = at(scatter);
    return Math.log(line.chiSquare / line.degreesOfFreedom);
  };
  if (!(excess(0) > 0)) return 0;
  const largest = Math.max(...marks.map((mark) => mark.diameter));
  const most = median(marks.map((mark) => mark.diameter)) / 2;
  if (!(excess(most) < 0)) tooScattered(marks);
  return findRoot(excess, 0, most, { tolerance: 1e-6 * largest });
}
