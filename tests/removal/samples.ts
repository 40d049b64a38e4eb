import { centralSample, layerKind, metal } from "#library";
import type { ColourClass, StackSample } from "#terms";

/** kind, colour, µm, must stay */
export type LayerCase = readonly [string, ColourClass, number, boolean];

/** The library's medians for a stack on 5 mm of metal. */
export function sampleOf(metalId: string, layers: readonly LayerCase[]): StackSample {
  return centralSample({
    metal: metal(metalId),
    metalThickness: 5e-3,
    layers: layers.map(([kind, colour, um, mustStay]) => ({
      kind: layerKind(kind),
      colour,
      thickness: { ...layerKind(kind).usualThickness, value: um * 1e-6, low: um * 0.9e-6, high: um * 1.1e-6 },
      mustStay,
    })),
  });
}
