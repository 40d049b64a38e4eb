import type { SetupVerdict } from "#terms";

/** Verdicts of a survey, best first; equal ones keep the order of the library. */
export function rankVerdicts(verdicts: readonly SetupVerdict[]): SetupVerdict[] {
  return [...verdicts].sort((a, b) => standing(b) - standing(a));
}

function standing(v: SetupVerdict): number {
  const ready = v.windowExists && v.shortfall === "none" ? 2 : v.windowExists ? 1 : 0;
  // A tenth of sureness is within the noise of a few dozen draws: inside it the faster set-up comes first.
  return ready * 10 + Math.round(10 * v.sureness) / 10 + Math.min(0.09, Math.log10(1 + v.areaRate * 3600) / 30);
}
