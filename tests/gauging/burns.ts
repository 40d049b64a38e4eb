import type { BurnMark } from "#gauging";
import type { RandomStream } from "#numerics";

export interface BurnTruth {
  /** 1/e² radius, m */
  readonly radius: number;
  /** J */
  readonly threshold: number;
  /** standard error of a diameter, m */
  readonly scatter: number;
  /** relative scatter of the pulse energy */
  readonly energyNoise: number;
}

/** Diameter of a mark by the Gaussian beam itself: where the fluence falls to the threshold. */
export function trueDiameter(energy: number, truth: BurnTruth): number {
  const peakOverThreshold = energy / truth.threshold;
  return peakOverThreshold <= 1 ? 0 : 2 * truth.radius * Math.sqrt(Math.log(peakOverThreshold) / 2);
}

/** Burns at energies spaced evenly in their logarithm from `low` to `high` thresholds; sites without a mark left out. */
export function simulateBurns(
  truth: BurnTruth,
  stream: RandomStream,
  layout: { readonly count: number; readonly low: number; readonly high: number; readonly stated: boolean },
): BurnMark[] {
  return Array.from({ length: layout.count }, (_, i) => {
    const energy = truth.threshold * layout.low * (layout.high / layout.low) ** (i / (layout.count - 1));
    const shot = energy * (1 + truth.energyNoise * stream.normal());
    const diameter = trueDiameter(shot, truth) + truth.scatter * stream.normal();
    return { energy, diameter, uncertainty: layout.stated ? truth.scatter : null };
  }).filter((mark) => mark.diameter > 0);
}
