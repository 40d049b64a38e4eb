import type { Margin, SettingFeatures } from "#terms";
import { meanProbabilities, type WindowDraws } from "./predict-window.ts";

/** Features of the setting with its dose (power) multiplied by exp(deltaLogDose), physics scores worked out anew. */
export type ScaleDose = (deltaLogDose: number) => SettingFeatures;

/** Stations of the outward search, ln dose: fine where edges matter, out to four times the power. */
const stations = [0.04, 0.08, 0.14, 0.22, 0.33, 0.47, 0.65, 0.86, 1.1, Math.log(4)];
const tolerance = 5e-4;
export const edgeProbability = 0.95;

type EdgeName = "clean" | "undamaged";

/**
 * Distance in ln dose to the nearest setting at which the mean P(clean) or P(undamaged) falls to 0.95, searched up
 * and down to a factor of four, and the same as a share of power (dose ∝ power): 100·|exp(δ) − 1| %.
 * `scale(δ)`: features at ln dose + δ. Result: ln units and per cent; nulls when the setting itself is below 0.95
 * on either side, or no edge is in reach. Bisection to 5·10⁻⁴. Throws InvalidInput on a feature that is not finite.
 * Source: definition of the margin.
 */
export function marginOf(fit: WindowDraws, features: SettingFeatures, scale: ScaleDose): Margin {
  if (failingEdge(fit, features) !== null) return { logDose: null, powerPercent: null, nearestEdge: null };
  const crossings = [crossing(fit, scale, -1), crossing(fit, scale, 1)].filter((c) => c !== null);
  const nearest = crossings.sort((a, b) => Math.abs(a.delta) - Math.abs(b.delta))[0];
  if (nearest === undefined) return { logDose: null, powerPercent: null, nearestEdge: null };
  return {
    logDose: Math.abs(nearest.delta),
    powerPercent: 100 * Math.abs(Math.expm1(nearest.delta)),
    nearestEdge: nearest.edge,
  };
}

/** Which side is below 0.95 at these features: the lower of the two, or null. */
export function failingEdge(fit: WindowDraws, features: SettingFeatures): EdgeName | null {
  const { clean, undamaged } = meanProbabilities(fit, features);
  if (Math.min(clean, undamaged) >= edgeProbability) return null;
  return clean <= undamaged ? "clean" : "undamaged";
}

function crossing(fit: WindowDraws, scale: ScaleDose, direction: 1 | -1): { delta: number; edge: EdgeName } | null {
  let inside = 0;
  for (const station of stations) {
    let edge = failingEdge(fit, scale(direction * station));
    if (edge === null) {
      inside = station;
      continue;
    }
    let outside = station;
    while (outside - inside > tolerance) {
      const middle = (inside + outside) / 2;
      const failing = failingEdge(fit, scale(direction * middle));
      if (failing === null) inside = middle;
      else {
        outside = middle;
        edge = failing;
      }
    }
    return { delta: (direction * (inside + outside)) / 2, edge };
  }
  return null;
}
