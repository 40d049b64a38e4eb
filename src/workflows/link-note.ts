import { formatNumber } from "#units";
import { aboveClean, belowDamage, cleanSitesFor, linkSensitivity, type RayTruth, type Repeats } from "#window";

/** The share of failures that a customer is most often told of, and how sure the claim is to be. */
const CLAIMED = 0.01;
const CONFIDENCE = 0.95;

/**
 * What the chance of a recommended setting hangs on besides the evidence: the curve from edge to certainty, which no patch
 * near the edge can tell from others, and the number of patches.
 *
 * Equation: z = (x − clean)/s_c and (damage − x)/s_d in every version of the truth, both slopes counted; failures of both
 * edges added, by probit and by the two links of `linkSensitivity` that agree with it at the edge.
 * Units: x ln power; differences in patches of 100. Range: any x. Errors: none. Source: `chanceAt`, `linkSensitivity`,
 * `cleanSitesFor`.
 */
export function linkNotes(truth: RayTruth, x: number, repeats: Repeats): string[] {
  const sure = (mean: number) => ({ mean, deviation: 0 });
  const residue = linkSensitivity(Array.from(truth.clean, (_, s) => sure(aboveClean(truth, x, s))));
  const harm = linkSensitivity(Array.from(truth.damage, (_, s) => sure(belowDamage(truth, x, s))));
  const failing = (link: "probit" | "slowTail" | "fastTail") => Math.min(1, residue[link] + harm[link]);
  const others = [failing("fastTail"), failing("slowTail")].map((p) => 100 * (failing("probit") - p));
  return [
    `By other curves through the same edges, which no patch near them can tell from the one used, ${spanWords(Math.min(...others), Math.max(...others))}.`,
    ...sizeWords(repeats),
  ];
}

/** `low` and `high`: patches of 100 that come out good beside those reckoned, negative for fewer. */
function spanWords(low: number, high: number): string {
  const of = (n: number) => formatNumber(Math.abs(n), 2);
  if (Math.max(Math.abs(low), Math.abs(high)) < 0.05)
    return "less than 0.1 in 100 more or fewer patches come out clean and undamaged";
  if (low >= 0) return `${of(low)} to ${of(high)} in 100 more patches come out clean and undamaged`;
  if (high <= 0) return `${of(high)} to ${of(low)} in 100 fewer patches come out clean and undamaged`;
  return `${of(low)} in 100 fewer to ${of(high)} more patches come out clean and undamaged`;
}

/** Says only what the words of the recommendation do not: those speak of repeats that all came out well. */
function sizeWords({ burned, good }: Repeats): string[] {
  const bad = burned - good;
  if (burned > 0 && bad === 0) return [];
  const without = bad === 0 ? "none of which fails" : `no more than ${bad} of which ${bad === 1 ? "fails" : "fail"}`;
  return [
    `To claim fewer than 1 failure in 100 with 95 % confidence: ${cleanSitesFor(CLAIMED, CONFIDENCE, bad)} patches of this setting, ${without}.`,
  ];
}
