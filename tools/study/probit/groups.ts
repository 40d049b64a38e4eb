import type { SettingFeatures } from "#terms";
import { requireFinite } from "#units";

/** The physical groups that may bend the physics score, in the order of every coefficient vector. */
export const groupNames = ["logDose", "logOverlap", "logPasses", "logTime"] as const;
export type GroupName = (typeof groupNames)[number];
export type GroupVector = readonly [number, number, number, number];

/** One unit of a scaled group is a doubling: a fixed scale, so that a narrow trial does not inflate its own slopes. */
const doubling = Math.LN2;

/**
 * Refuses a feature that is not a finite number, so that no NaN travels on.
 * Throws InvalidInput naming the feature.
 */
export function requireFeatures(features: SettingFeatures): void {
  for (const name of [...groupNames, "cleanScore", "undamagedScore"] as const) {
    requireFinite(name, features[name]);
  }
}

/**
 * Centre of the groups: the mean of each natural logarithm over the settings given, 0 where none are given.
 * Units: those of `SettingFeatures`. Throws InvalidInput on a feature that is not finite. Source: definition.
 */
export function groupCentre(settings: readonly SettingFeatures[]): GroupVector {
  const sum: [number, number, number, number] = [0, 0, 0, 0];
  for (const features of settings) {
    requireFeatures(features);
    for (let k = 0; k < 4; k++) sum[k]! += features[groupNames[k]!];
  }
  const count = Math.max(1, settings.length);
  return [sum[0] / count, sum[1] / count, sum[2] / count, sum[3] / count];
}

/**
 * Scaled group: g = (ln x − centre)/ln 2, in doublings from the centre.
 * `value` and `centre`: natural logarithms, 1. Any finite value. Throws nothing. Source: definition.
 */
export function scaledGroup(value: number, centre: number): number {
  return (value - centre) / doubling;
}

/** The settings' groups in doublings; all 0 when there is no centre (nothing burned and nothing to compare with). */
export function scaledGroups(features: SettingFeatures, centre: GroupVector | null): GroupVector {
  if (centre === null) return [0, 0, 0, 0];
  return [
    scaledGroup(features.logDose, centre[0]),
    scaledGroup(features.logOverlap, centre[1]),
    scaledGroup(features.logPasses, centre[2]),
    scaledGroup(features.logTime, centre[3]),
  ];
}
