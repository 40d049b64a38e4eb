import type { Acceptance, Outcome } from "#terms";
import type { Theme } from "./palette.ts";
import { element } from "./xml.ts";

export type OutcomeState = "good" | "residue" | "damaged" | "unknown";

/** What each mark means, in words; the letter stands where a shape is too small. */
export const outcomeWords: Readonly<Record<OutcomeState, { readonly letter: string; readonly words: string }>> = {
  good: { letter: "C", words: "clean and undamaged" },
  residue: { letter: "R", words: "residue left" },
  damaged: { letter: "D", words: "metal changed" },
  unknown: { letter: "?", words: "not graded" },
};

/** Damage comes first: a patch that is damaged is shown as damaged whether or not it is clean. */
export function outcomeState(
  outcome: Outcome,
  limits: Pick<Acceptance, "residueMax" | "metalConditionMax">,
): OutcomeState {
  if (outcome.metalCondition !== null && outcome.metalCondition > limits.metalConditionMax) return "damaged";
  if (outcome.residueFraction !== null && outcome.residueFraction > limits.residueMax) return "residue";
  return outcome.metalCondition === null || outcome.residueFraction === null ? "unknown" : "good";
}

/** A mark told apart by shape first and colour second: disc, triangle, cross, ring. `size` is the half width. */
export function outcomeMark(state: OutcomeState, x: number, y: number, size: number, theme: Theme): string {
  const halo = { stroke: theme.paper, "stroke-width": size * 0.9, "stroke-linejoin": "round", fill: "none" };
  if (state === "good") {
    return element("circle", {
      cx: x,
      cy: y,
      r: size,
      fill: theme.accent,
      stroke: theme.paper,
      "stroke-width": size * 0.3,
    });
  }
  if (state === "residue") {
    const d = `M${x} ${y - size * 1.15}L${x + size * 1.1} ${y + size * 0.85}H${x - size * 1.1}Z`;
    return element("path", { d, fill: theme.residue, stroke: theme.paper, "stroke-width": size * 0.3 });
  }
  if (state === "damaged") {
    const d = `M${x - size} ${y - size}L${x + size} ${y + size}M${x + size} ${y - size}L${x - size} ${y + size}`;
    return (
      element("path", { d, ...halo }) +
      element("path", { d, stroke: theme.damage, "stroke-width": size * 0.5, fill: "none" })
    );
  }
  return element("circle", {
    cx: x,
    cy: y,
    r: size * 0.85,
    fill: theme.paper,
    stroke: theme.muted,
    "stroke-width": size * 0.35,
  });
}
