import { normalCdf } from "#numerics";
import type { MetalConditionGrade } from "#terms";
import type { Melt } from "./melt.ts";
import type { PatchReading } from "./patch-reading.ts";

/** What a photograph suggests of the metal, with a chance for each grade 0 to 4; a person decides. */
export interface SuggestedCondition {
  readonly grade: MetalConditionGrade;
  /** chances of grades 0 to 4, adding up to 1; 4 (distorted) shows in no photograph from above and keeps 0 */
  readonly chances: readonly [number, number, number, number, number];
}

/** Rise of the melt index at which melt is as likely as not, and its spread: set on generated photographs (docs/grading.md). */
const MELT = { middle: 0.105, spread: 0.03 } as const;
/** Share of the metal's own texture that is taken off the index: all of it would take melt off as well. */
const TEXTURE = 0.5;
/** Share of bright spots at which melt on a tenth of the area is as likely as not: not all of melt glints (own choice). */
const WIDE = { middle: 0.06, spread: 0.025 } as const;
/** Chance that what shows is none of what it seems: bright spots that are no melt, tints that are light. */
const ASTRAY = 0.04;

/**
 * Rise of the melt index over the metal's own texture. Equation: index − ½·max(index of the bare reference, the patch's
 * texture below its median). Units: 1. Errors: none. Source: own; docs/grading.md.
 */
export const meltRise = ({ index, below }: Melt, referenceMelt: number): number =>
  index.value - TEXTURE * Math.max(referenceMelt, below);

/**
 * Suggests the metal condition of a patch from its melt index and tint, or nothing where no bare metal shows.
 *
 * Equation: m = Φ((rise − 0.105)/√(u² + 0.03²)), rise the melt index less half of the reference's or of the patch's own
 * texture below its median, whichever is more; melted rather than micro-melted Φ((bright share − 0.06)/0.025); else discoloured by the chance that ΔE00 is above 3; 4 % of all chance spread evenly.
 * Units: 1. Errors: none. Source: own; grades docs/nomenclature.md (depth of melt does not show: area stands in for it).
 */
export function suggestCondition({ melt, tint, referenceMelt }: PatchReading): SuggestedCondition | null {
  if (melt === null || tint === null) return null;
  const rise = meltRise(melt, referenceMelt);
  const molten = normalCdf((rise - MELT.middle) / Math.hypot(melt.index.uncertainty, MELT.spread));
  const wide = normalCdf((melt.brightShare - WIDE.middle) / WIDE.spread);
  const seen = [
    (1 - molten) * (1 - tint.discoloured),
    (1 - molten) * tint.discoloured,
    molten * (1 - wide),
    molten * wide,
  ].map((chance) => (1 - ASTRAY) * chance + ASTRAY / 4);
  const grade = seen.indexOf(Math.max(...seen)) as MetalConditionGrade;
  return { grade, chances: [seen[0]!, seen[1]!, seen[2]!, seen[3]!, 0] };
}
