import type { DriftSpread } from "#terms";

/** What drifts from hour to hour in production, standard deviations of ln: common practice, no source. */
export const productionDrift: DriftSpread = { power: 0.02, spot: 0.02, speed: 0.01, thickness: 0.05 };
