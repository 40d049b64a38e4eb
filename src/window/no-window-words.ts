import { meanProbabilities, type WindowDraws } from "./predict-window.ts";
import type { Candidate } from "./robust.ts";
import { perHundred } from "./words.ts";

/**
 * What to say when no candidate meets the acceptance: never "impossible", always what stood in the way.
 * Throws InvalidInput on a feature that is not finite.
 */
export function noWindowWords(fit: WindowDraws, candidates: readonly Candidate[]): string[] {
  const first = "No window found among the settings tried.";
  if (candidates.length === 0) return [first, "No setting was handed in to choose from."];
  let likeliest = { clean: 0, undamaged: 0, both: -1 };
  for (const { features } of candidates) {
    const p = meanProbabilities(fit, features, Math.min(200, fit.draws));
    if (p.both > likeliest.both) likeliest = p;
  }
  const obstacle =
    likeliest.clean <= likeliest.undamaged
      ? "residue is what stands in the way: another pulse width, spot, pass count or laser may take it off below the damage edge"
      : "damage is what stands in the way: shorter pulses, more and gentler passes, pauses or another laser may spare the metal";
  return [
    first,
    `The likeliest of ${candidates.length} settings is expected clean and undamaged on ${perHundred(likeliest.both)} patches; ${obstacle}.`,
  ];
}
