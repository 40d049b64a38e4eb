import type { Acceptance, Stack } from "#terms";
import { formatNumber } from "#units";
import { type OtherWay, otherWays, type Trouble } from "./other-ways.ts";
import { readingLimits } from "./reading-gates.ts";
import { likenesses, toRemove } from "./stack-colours.ts";

/** Whether photographs can settle the residue of a stack, said before a coupon is printed. */
export interface PhotoPath {
  readonly answer: "yes" | "perhaps" | "no";
  /** layers that no photograph shows, one sentence each: with any of them no reading of residue is settled */
  readonly unseen: readonly string[];
  /** one sentence each, those of `unseen` first; empty when the answer is yes */
  readonly reasons: readonly string[];
  /** predicted ΔE00 between the face and the layer most like it; null where colours are not known */
  readonly difference: number | null;
  /** what to do instead, or besides; empty when the answer is yes */
  readonly ways: readonly OtherWay[];
}

/** Predicted colours are from memory and for pictures: so much more than the gate asks for makes them safe to trust. */
const PREDICTION_ROOM = 6;
/** Shares of area between which the detection limit of photographs lies. */
const LIMIT = { low: 0.02, high: 0.05 } as const;
/** m from which a thickness gauge on metal tells a layer from none (own choice, from memory). */
const FELT = 5e-6;

const percent = (share: number): string => formatNumber(100 * share, 2);

/**
 * Says, before a trial is printed, whether photographs can settle the residue of a stack, and what to do where they cannot.
 *
 * stack: layers to come off are those above the first that must stay; acceptance: residueMax, share of area. No where a
 * layer is oil, rubber or a clear film, where it looks like the face below (predicted ΔE00 below 8), or where less than
 * 2 % residue is asked for; perhaps where the prediction is near (below 14) or unknown, or the acceptance below 5 %.
 * Errors: none. Source: shared/grading for the limits; predicted colours `likenesses`.
 */
export function photoPath(stack: Stack, acceptance: Acceptance): PhotoPath {
  const { off, face } = toRemove(stack);
  const no: string[] = [];
  const perhaps: string[] = [];
  const troubles: Trouble[] = [];
  const named = new Set<string>();
  for (const { kind, colour } of off) {
    const trouble = filmTrouble(kind.id, kind.name, colour);
    if (trouble === null) continue;
    named.add(kind.id);
    troubles.push(trouble);
    no.push(FILMS[trouble](kind.name));
  }
  const unseen = [...no];
  const coloured = likenesses(stack).filter(({ layer }) => !named.has(layer.kind.id));
  const [closest] = coloured;
  const difference = closest?.difference ?? null;
  if (closest !== undefined && difference === null) {
    troubles.push("alike");
    perhaps.push(
      `The library has no colour of ${closest.layer.kind.name}: photograph it beside ${face} and see whether they differ by ` +
        `ΔE00 ${readingLimits.difference} or more.`,
    );
  } else if (difference !== null && difference < readingLimits.difference + PREDICTION_ROOM) {
    troubles.push("alike");
    const look = `${closest!.layer.kind.name} and ${face} are predicted to differ by ΔE00 ${formatNumber(difference, 2)} only`;
    if (difference < readingLimits.difference) {
      no.push(`${look}, and ${readingLimits.difference} is the least that a photograph can tell apart.`);
    } else perhaps.push(`${look}: glare can close that gap, so that the first photographs may be refused.`);
  }
  if (off.length > 0 && acceptance.residueMax < LIMIT.high) {
    troubles.push("acceptance");
    const asked = `The acceptance allows ${percent(acceptance.residueMax)} % of residue and photographs detect 2 to 5 % of area`;
    if (acceptance.residueMax < LIMIT.low) no.push(`${asked}: a patch that looks clean is not settled.`);
    else perhaps.push(`${asked}: a patch is settled only where its own limit is below that.`);
  }
  const reasons = [...no, ...perhaps];
  const thick = off.some((layer) => layer.thickness.value >= FELT);
  return {
    unseen,
    answer: no.length > 0 ? "no" : perhaps.length > 0 ? "perhaps" : "yes",
    reasons,
    difference,
    ways: reasons.length === 0 ? [] : otherWays(troubles, acceptance, thick),
  };
}

const FILMS: Readonly<Record<"oil" | "rubber" | "clear", (name: string) => string>> = {
  oil: (name) => `${name} is a film that a photograph does not show.`,
  rubber: (name) => `${name} stays as a thin smear that a photograph does not tell from darkened metal.`,
  clear: (name) => `${name} is clear: a photograph shows the metal through it.`,
};

/** Films that photographs do not show, by what they are: the library's own and those of a person's own file. */
function filmTrouble(id: string, name: string, colour: string): "oil" | "rubber" | "clear" | null {
  const text = `${id} ${name}`.toLowerCase();
  if (/\b(oil|grease|wax|silicone|lubricant)/.test(text)) return "oil";
  if (/\b(rubber|latex)/.test(text)) return "rubber";
  return colour === "clear" ? "clear" : null;
}
