import type { LaserSetup, PartEnquiry } from "#terms";
import { partCautions } from "#workflows";

/** Cautions of a set-up on a part, for pages that show its settings without asking the worker. */
export function cautionsOfPart(part: PartEnquiry, setup: LaserSetup): readonly string[] {
  return partCautions(part, setup);
}
