import { setup as setupById } from "#library";
import type { PartEnquiry } from "#terms";
import { partCautions } from "#workflows";

/** Cautions of a set-up on a part, for pages that show its settings without asking the worker. */
export function cautionsOfPart(part: PartEnquiry, setupId: string): readonly string[] {
  return partCautions(part, setupById(setupId));
}
