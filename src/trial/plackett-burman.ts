import { requireOneOf } from "#units";

export const plackettBurmanRuns = [8, 12, 16, 20, 24] as const;
export type PlackettBurmanRuns = (typeof plackettBurmanRuns)[number];

/** First rows that are moved round. Source: Plackett and Burman 1946, their tables for N = 8 to 24. */
const firstRows: Readonly<Record<PlackettBurmanRuns, string>> = {
  8: "+++-+--",
  12: "++-+++---+-",
  16: "++++-+-++--+---",
  20: "++--++++-+-+----++-",
  24: "+++++-+-++--++--+-+----",
};

/**
 * Plackett-Burman design in coded units: N − 1 turns of a first row and a last row of −1, for up to N − 1 factors.
 * `runs` N: 8, 12, 16, 20 or 24; result: N rows of N − 1. Columns balanced, XᵀX = N·I; each main effect carries parts of
 * the pair effects of the other factors. Throws InvalidInput on another N.
 * Source: Plackett and Burman, Biometrika 33 (1946) 305.
 */
export function plackettBurman(runs: PlackettBurmanRuns): number[][] {
  requireOneOf("runs", String(runs), plackettBurmanRuns.map(String));
  const first = [...firstRows[runs]].map((sign) => (sign === "+" ? 1 : -1));
  const size = runs - 1;
  const turned = first.map((_, turn) => first.map((__, column) => first[(column - turn + size) % size]!));
  return [...turned, first.map(() => -1)];
}
