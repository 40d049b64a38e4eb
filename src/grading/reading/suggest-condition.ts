import { normalCdf } from "#numerics";
import type { MetalConditionGrade } from "#terms";
import type { PatchReading } from "./patch-reading.ts";

/** What a photograph suggests of the metal, with a chance for each grade 0 to 4; a person decides. */
export interface SuggestedCondition {
  readonly grade: MetalConditionGrade;
  /** chances of grades 0 to 4, adding up to 1; 4 (distorted) shows in no photograph from above and keeps 0 */
  readonly chances: readonly [number, number, number, number, number];
}

/** Rise of the melt index over the metal's own texture at which melt is as likely as not, and its spread (own choice). */
const MELT = { middle: 0.035, spread: 0.015 } as const;
/** Share of bright spots at which melt on a tenth of the area is as likely as not: not all of melt glints (own choice). */
const WIDE = { middle: 0.06, spread: 0.025 } as const;
/** Chance that what shows is none of what it seems: bright spots that are no melt, tints that are light. */
const ASTRAY = 0.04;

/**
 * Suggests the metal condition of a patch from its melt index and tint, or nothing where no bare metal shows.
 *
 * Equation: m = Φ((rise − 0.035)/√(u² + 0.015²)), rise the melt index over the reference's or over the patch's own
 * texture below its median, whichever is more; melted rather than micro-melted Φ((bright share − 0.06)/0.025); else discoloured by the chance that ΔE00 is above 3; 4 % of all chance spread evenly.
 * Units: 1. Errors: none. Source: own; grades docs/nomenclature.md (depth of melt does not show: area stands in for it).
 */
export function suggestCondition({ melt, tint, referenceMelt }: PatchReading): SuggestedCondition | null {
  if (melt === null || tint === null) return null;
  const rise = melt.index.value - Math.max(referenceMelt, melt.below);
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
