import { type PatchEvidence, quickNormal } from "#calibration";
import type { Ray } from "#edges";
import { normalQuantile } from "#numerics";
import type { SettingFeatures } from "#terms";
import { atLevel, type Choice, type ChoiceTable, LEVELS, MEETS } from "#window";
import { fitWindow, type WindowFit } from "./probit/fit-window.ts";
import { edgeProbabilities } from "./probit/predict-window.ts";
import { scaledGroups } from "./probit/groups.ts";

/** Draws of the probit that chances are worked out in, and its drift in ln power as the product once had it. */
const DRAWS = 200;
const DRIFT = [-0.05, 0, 0.05] as const;
/** Softness of the physics score, ln power; no share of few draws is a certainty. */
const SOFT = 0.1;
const FLOOR = 0.005;

/** What the probit knows of a setting: its groups, and the prior's chance of clean and of undamaged on the probit scale. */
function features(ray: Ray, x: number): SettingFeatures {
  const score = (edges: Float64Array, sign: number) => {
    let sum = 0;
    for (const e of edges) sum += quickNormal((sign * (x - e)) / SOFT) / edges.length;
    return normalQuantile(Math.min(1 - FLOOR, Math.max(FLOOR, sum)));
  };
  return {
    logDose: ray.groups.dose + x,
    logOverlap: ray.groups.count,
    logPasses: ray.groups.passes,
    logTime: ray.groups.time,
    cleanScore: score(ray.clean, 1),
    undamagedScore: score(ray.damage, -1),
  };
}

/** Features of every candidate under drift, worked out once for a scenario: the prior does not change. */
export type ProbitCandidates = readonly {
  readonly ray: Ray;
  readonly family: number;
  readonly x: number;
  readonly drifted: readonly SettingFeatures[];
}[];

export function probitCandidates(rays: readonly Ray[]): ProbitCandidates {
  return rays.flatMap((ray, family) =>
    LEVELS.map((x) => ({ ray, family, x, drifted: DRIFT.map((d) => features(ray, x + d)) })),
  );
}

/** Posterior of the probit over the same patches. */
export function fitProbitModel(patches: readonly PatchEvidence[], rays: readonly Ray[], seed: number): WindowFit {
  const observations = patches.map((p) => ({
    patch: p.patch,
    setting: p.ray.setting,
    features: features(p.ray, p.x),
    clean: p.residue === null ? null : p.residue[0] >= 0.5,
    undamaged: p.metal === null ? null : p.metal[2] < 0.5,
  }));
  return fitWindow(observations, { seed, draws: DRAWS, reference: rays.map((ray) => features(ray, -0.5)) });
}

/** The same table as the physics gives, from the probit: in which of its draws a setting meets the acceptance under drift. */
export function probitTable(fit: WindowFit, candidates: ProbitCandidates): ChoiceTable {
  const count = fit.draws;
  const choices = candidates.map(({ ray, family, x, drifted }): Choice => {
    const both = new Float64Array(count);
    let clean = 0;
    let undamaged = 0;
    for (const f of drifted) {
      const groups = scaledGroups(f, fit.centre);
      const c = edgeProbabilities(fit.clean, f.cleanScore, groups, count);
      const u = edgeProbabilities(fit.undamaged, f.undamagedScore, groups, count);
      for (let s = 0; s < count; s++) {
        both[s] = both[s]! + (c[s]! * u[s]!) / drifted.length;
        clean += c[s]! / (count * drifted.length);
        undamaged += u[s]! / (count * drifted.length);
      }
    }
    const meets = Uint8Array.from(both, (p) => (p >= MEETS ? 1 : 0));
    return {
      setting: atLevel(ray.setting, x),
      areaRate: ray.areaRate,
      meets,
      share: meets.reduce((a, b) => a + b, 0) / count,
      clean,
      undamaged,
      both: both.reduce((a, b) => a + b, 0) / count,
      family,
    };
  });
  return { draws: count, choices };
}
