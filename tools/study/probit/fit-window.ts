import type { SettingFeatures } from "#terms";
import type { WindowObservation } from "./observation.ts";
import { createRandom } from "#numerics";
import { requireInRange, requireInteger } from "#units";
import type { EdgeData } from "./edge-density.ts";
import { rowLength } from "./edge-density.ts";
import { type EdgePosterior, sampleEdge } from "./edge-posterior.ts";
import { groupCentre, type GroupVector, requireFeatures, scaledGroups } from "./groups.ts";
import { cleanPrior, undamagedPrior } from "./prior.ts";
import { predictWindow, type WindowPrediction } from "./predict-window.ts";

export interface FitOptions {
  readonly seed: number;
  /** share of patches graded by a coin rather than by what was there, 0 to 0.5; 0.02 (own choice) */
  readonly lapse?: number;
  /** posterior draws kept, over all chains; 1000 */
  readonly draws?: number;
  /** chains, at least 4; 4 */
  readonly chains?: number;
  /** settings that fix the centre of the groups; else the burned settings do */
  readonly reference?: readonly SettingFeatures[];
}

/** Posterior of both edges of the process window. Draw i of one edge goes with draw i of the other. */
export interface WindowFit {
  readonly clean: EdgePosterior;
  readonly undamaged: EdgePosterior;
  /** null when nothing was burned and no reference was given: the groups then stay silent */
  readonly centre: GroupVector | null;
  readonly draws: number;
  /** patches with at least one grade */
  readonly patches: number;
  readonly lapse: number;
  /** worst over both edges */
  readonly rHat: number;
  readonly effectiveSampleSize: number;
  readonly predict: (features: SettingFeatures) => WindowPrediction;
}

/**
 * Bayesian probit for clean and for undamaged with the physics score as the mean:
 * z = a + b·score + Σ c_k g_k, P(grade) = lapse/2 + (1 − lapse)·Φ(z); priors as in `EdgePrior`.
 * Features in the units of `SettingFeatures`. Any number of observations, none included; a missing grade is left
 * out of its own edge only. Throws InvalidInput on a feature that is not finite or an option out of range.
 * Source: own model on Albert and Chib's binary probit (J. Am. Stat. Assoc. 88, 1993); lapse after Wichmann and
 * Hill, Perception and Psychophysics 63 (2001).
 */
export function fitWindow(observations: readonly WindowObservation[], options: FitOptions): WindowFit {
  const lapse = options.lapse ?? 0.02;
  const chains = options.chains ?? 4;
  const draws = options.draws ?? 1000;
  requireInRange("lapse", lapse, "", 0, 0.5);
  requireInteger("chains", chains, 4, 16);
  requireInteger("draws", draws, 100, 100_000);
  for (const { features } of observations) requireFeatures(features);
  const graded = observations.filter((o) => o.clean !== null || o.undamaged !== null);
  const anchor = options.reference?.length ? options.reference : graded.map((o) => o.features);
  const centre = anchor.length > 0 ? groupCentre(anchor) : null;
  const random = createRandom(options.seed);
  const clean = sampleEdge({
    prior: cleanPrior,
    data: edgeData(graded, centre, (o) => o.clean, "cleanScore"),
    lapse,
    chains,
    draws,
    random: random.substream(1),
  });
  const undamaged = sampleEdge({
    prior: undamagedPrior,
    data: edgeData(graded, centre, (o) => o.undamaged, "undamagedScore"),
    lapse,
    chains,
    draws,
    random: random.substream(2),
  });
  const fit = {
    clean,
    undamaged,
    centre,
    draws: clean.draws,
    patches: graded.length,
    lapse,
    rHat: Math.max(clean.rHat, undamaged.rHat),
    effectiveSampleSize: Math.min(clean.effectiveSampleSize, undamaged.effectiveSampleSize),
  };
  return { ...fit, predict: (features) => predictWindow(fit, features) };
}

/** Rows of the graded patches of one edge. */
export function edgeData(
  observations: readonly WindowObservation[],
  centre: GroupVector | null,
  grade: (observation: WindowObservation) => boolean | null,
  score: "cleanScore" | "undamagedScore",
): EdgeData {
  const graded = observations.filter((o) => grade(o) !== null);
  const rows = new Float64Array(graded.length * rowLength);
  graded.forEach((o, i) => {
    rows[i * rowLength] = o.features[score];
    rows.set(scaledGroups(o.features, centre), i * rowLength + 1);
  });
  return { rows, seen: Float64Array.from(graded, (o) => (grade(o) ? 1 : -1)) };
}
