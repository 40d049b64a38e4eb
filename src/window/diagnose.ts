import type { WindowObservation, WindowResult } from "#terms";
import type { EdgePosterior } from "./edge-posterior.ts";
import type { WindowFit } from "./fit-window.ts";
import { scaledGroups } from "./groups.ts";
import { edgeProbabilities } from "./predict-window.ts";
import { sameSetting } from "./same-setting.ts";
import { cleanPrior, coefficientCount } from "./prior.ts";

/**
 * Brier score of one edge with each patch left out in turn: mean of (1 − p_i)², p_i the chance given to the grade
 * seen by the other patches, from the harmonic mean over the draws; the lapse bounds the weights, so that no draw
 * can rule alone. 0 perfect, 0.25 a coin; 0 when nothing was graded. Dimensionless. Throws nothing for a fit.
 * Source: Brier, Monthly Weather Review 78 (1950); leave-one-out after Gelfand, Dey and Chang (1992).
 */
export function leaveOneOutBrier(
  fit: WindowFit,
  observations: readonly WindowObservation[],
  edge: "clean" | "undamaged",
): number {
  const score = edge === "clean" ? "cleanScore" : "undamagedScore";
  let sum = 0;
  let count = 0;
  for (const observation of observations) {
    const seen = observation[edge];
    if (seen === null) continue;
    const groups = scaledGroups(observation.features, fit.centre);
    const ps = edgeProbabilities(fit[edge], observation.features[score], groups, fit.draws);
    let inverse = 0;
    for (const p of ps) inverse += 1 / (fit.lapse / 2 + (1 - fit.lapse) * (seen ? p : 1 - p));
    const left = ps.length / inverse;
    sum += (1 - left) ** 2;
    count++;
  }
  return count === 0 ? 0 : sum / count;
}

/** Spread of the posterior of the offset and of ln slope as shares of their prior spreads: 1 nothing learnt, 0 all. */
export function priorShare(edge: EdgePosterior): { readonly offset: number; readonly slope: number } {
  const offset: number[] = [];
  const slope: number[] = [];
  for (let i = 0; i < edge.draws; i++) {
    offset.push(edge.coefficients[i * coefficientCount]!);
    slope.push(Math.log(edge.coefficients[i * coefficientCount + 1]!));
  }
  return {
    offset: deviation(offset) / cleanPrior.offsetSpread,
    slope: deviation(slope) / cleanPrior.logSlopeSpread,
  };
}

function deviation(values: readonly number[]): number {
  const mean = values.reduce((s, v) => s + v, 0) / values.length;
  return Math.sqrt(values.reduce((s, v) => s + (v - mean) ** 2, 0) / (values.length - 1));
}

/** The diagnostics of a window result, in its record form. */
export function diagnose(fit: WindowFit, observations: readonly WindowObservation[]): WindowResult["diagnostics"] {
  return {
    patches: fit.patches,
    clean: observations.filter((o) => o.clean === true).length,
    damaged: observations.filter((o) => o.undamaged === false).length,
    rHat: fit.rHat,
    effectiveSampleSize: fit.effectiveSampleSize,
    brierClean: leaveOneOutBrier(fit, observations, "clean"),
    brierUndamaged: leaveOneOutBrier(fit, observations, "undamaged"),
    priorMatters: priorWords(fit),
  };
}

function priorWords(fit: WindowFit): string {
  if (fit.patches === 0) return "No patch was graded: every number is physics and prior.";
  const parts = (["clean", "undamaged"] as const).map((edge) => {
    const { offset, slope } = priorShare(fit[edge]);
    const percent = (share: number): number => Math.min(100, Math.round(100 * share));
    return `${edge} edge: place ${percent(offset)} %, slope ${percent(slope)} %`;
  });
  return `Doubt left by ${fit.patches} graded patches, as a share of the doubt before the trial: ${parts.join("; ")}.`;
}

/** What a reader must know of this evidence before using it, one sentence each. */
export function evidenceCaveats(fit: WindowFit, observations: readonly WindowObservation[]): string[] {
  const caveats: string[] = [];
  const count = (edge: "clean" | "undamaged", value: boolean): number =>
    observations.filter((o) => o[edge] === value).length;
  if (fit.patches < 12) {
    caveats.push(`Only ${fit.patches} graded patches: physics and prior still carry most of the answer.`);
  }
  if (fit.patches > 0) {
    if (count("clean", false) === 0)
      caveats.push("No patch was left unclean: where cleaning ends is physics, not seen.");
    if (count("clean", true) === 0)
      caveats.push("No patch came out clean: where cleaning begins is physics, not seen.");
    if (count("undamaged", false) === 0)
      caveats.push("No patch was damaged: where damage begins is physics, not seen.");
    if (count("undamaged", true) === 0)
      caveats.push("Every graded patch was damaged: where damage ends is physics, not seen.");
  }
  const half = observations.filter((o) => (o.clean === null) !== (o.undamaged === null)).length;
  if (half > 0) caveats.push(`${half} ${half === 1 ? "patch lacks" : "patches lack"} one of its two grades.`);
  if (contradictions(observations) > 0) {
    caveats.push("Equal patches were graded differently: look for a cause before trusting either grade.");
  }
  if (fit.rHat > 1.01 || fit.effectiveSampleSize < 400) {
    caveats.push("The sampling of the fit did not settle fully: read the third figure of no probability.");
  }
  caveats.push("Every setting is for trial on a coupon first; local law and the laser safety officer come before it.");
  return caveats;
}

/** Patches whose grades differ from those of an earlier patch with the same setting. */
function contradictions(observations: readonly WindowObservation[]): number {
  const differs = (a: boolean | null, b: boolean | null): boolean => a !== null && b !== null && a !== b;
  return observations.filter((o, i) =>
    observations
      .slice(0, i)
      .some(
        (p) => sameSetting(o.setting, p.setting) && (differs(o.clean, p.clean) || differs(o.undamaged, p.undamaged)),
      ),
  ).length;
}
