import { beamState } from "#beam";
import { cautionsFor } from "#safety";
import type { LaserSetup, LayerKind, PartEnquiry, Setting } from "#terms";

/** Every layer kind that a part may carry, over its whole mixture. */
export function layerKindsOf(part: PartEnquiry): LayerKind[] {
  const kinds = new Map<string, LayerKind>();
  for (const { stack } of part.mixture) for (const { kind } of stack.layers) kinds.set(kind.id, kind);
  return [...kinds.values()];
}

/** The cautions that go along with a set-up (and a setting, where one is chosen) on a part. */
export function partCautions(part: PartEnquiry, setup: LaserSetup, setting: Setting | null = null): string[] {
  return cautionsFor({
    setup,
    beam: setting ? beamState(setup, setting) : null,
    layers: layerKindsOf(part),
    metal: part.mixture[0]?.stack.metal ?? null,
    lead: part.lead,
    chromate: part.chromate,
  });
}
