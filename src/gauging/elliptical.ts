import type { Joule, Metre } from "#terms";
import { normalCdf } from "#numerics";
import { type Estimate, logEstimate } from "./estimate.ts";
import { fitSpot, type SpotFit } from "./burn-marks.ts";

export interface EllipticalMark {
  readonly energy: Joule;
  readonly diameterX: Metre;
  readonly diameterY: Metre;
  /** standard error of either reading; null where it is not known */
  readonly uncertainty: Metre | null;
}

export interface EllipticalFit {
  readonly x: SpotFit;
  readonly y: SpotFit;
  /** fit of √(Dx·Dy), which gives √(wx·wy) and the peak threshold fluence 2E_th/(π·wx·wy) */
  readonly round: SpotFit;
  /** wx/wy */
  readonly ratio: Estimate;
  /** chance of thresholds along x and y as different as these: one mark has one threshold */
  readonly sameThreshold: number;
}

/**
 * Spot of an elliptical Gaussian beam from marks with two axes: each axis gives D² = 2w²·ln(E/E_th) of its own, the
 * geometric mean that of the round spot of equal area. Energies in J, diameters and uncertainties in m; ratio (1).
 * Valid: axes of the marks read along x and y throughout. Throws InvalidInput as `fitSpot`. Source: Liu (1982), by axis.
 */
export function fitEllipticalSpot(marks: readonly EllipticalMark[], energyNoise?: number): EllipticalFit {
  const fitAxis = (diameter: (mark: EllipticalMark) => number, share: (mark: EllipticalMark) => number): SpotFit =>
    fitSpot(
      marks.map((mark) => ({
        energy: mark.energy,
        diameter: diameter(mark),
        uncertainty: mark.uncertainty === null ? null : mark.uncertainty * share(mark),
      })),
      energyNoise,
    );
  const x = fitAxis(
    (mark) => mark.diameterX,
    () => 1,
  );
  const y = fitAxis(
    (mark) => mark.diameterY,
    () => 1,
  );
  const round = fitAxis(
    (mark) => Math.sqrt(mark.diameterX * mark.diameterY),
    // d ln D = ½(d ln Dx + d ln Dy)
    (mark) => Math.sqrt(mark.diameterX * mark.diameterY) * 0.5 * Math.hypot(1 / mark.diameterX, 1 / mark.diameterY),
  );
  const relative = (estimate: Estimate): number => estimate.standardError / estimate.value;
  const apart =
    Math.abs(Math.log(x.thresholdEnergy.value / y.thresholdEnergy.value)) /
    Math.hypot(relative(x.thresholdEnergy), relative(y.thresholdEnergy));
  return {
    x,
    y,
    round,
    ratio: logEstimate(
      Math.log(x.radius.value / y.radius.value),
      Math.hypot(relative(x.radius), relative(y.radius)),
      round.line.degreesOfFreedom,
    ),
    sameThreshold: 2 * normalCdf(-apart),
  };
}
