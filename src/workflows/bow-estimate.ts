import { type Bow, bowOfSweep } from "#heat";
import { quantile } from "#numerics";
import type { Metre, Prediction } from "#terms";
import type { PartModel } from "./part-model.ts";

/** Strength of the metal at room temperature; the library has none, whoever knows the part hands it in. */
export interface Stiffness {
  /** Pa */
  readonly yieldStrength: number;
  /** Pa */
  readonly youngsModulus: number;
  readonly poissonRatio: number;
}

/**
 * Lasting bow of a plate after one setting, or why none is told.
 *
 * Equation: `bowOfSweep` at the median of peak less start temperature: a plate that is warm all through does not bend.
 * Units: SI, see the types. Range: that of `bowOfSweep`; null for pulsed set-ups and where the strength is not known.
 * Errors: InvalidInput for strengths that are not positive. Source: `bowOfSweep`.
 */
export function bowEstimate(model: PartModel, prediction: Prediction, strength: Stiffness | null): Bow {
  const untold = (reason: string): Bow => ({
    curvature: null,
    low: null,
    high: null,
    reason: `${reason}: observed only, never predicted`,
  });
  const { dwell, onTime } = prediction.beam;
  if (dwell === null || onTime !== null)
    return untold("a pulse or burst heats a thin skin, whose stress is not that of thermal upsetting alone");
  if (strength === null)
    return untold("yield strength, Young's modulus and Poisson's ratio of the metal are not in the library");
  const plateThickness: Metre = model.stack.metalThickness;
  return bowOfSweep({
    plateThickness,
    peakRise: quantile(
      prediction.draws.map((d) => Math.max(0, d.metalPeakTemperature - d.startTemperature)),
      0.5,
    ),
    dwell,
    diffusivity: model.central.metal.diffusivity,
    expansion: model.stack.metal.expansion.value,
    ...strength,
  });
}
