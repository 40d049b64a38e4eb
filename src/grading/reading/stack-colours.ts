import { metalTone } from "#patch";
import type { Stack, StackLayer } from "#terms";
import { colourDifference, type Lab } from "../colour-difference.ts";
import { labFromSrgb } from "../lab-from-srgb.ts";

/** CIELAB of a CSS colour "#rrggbb", or null for another form. */
function labOfCss(css: string): Lab | null {
  const hex = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(css);
  if (hex === null) return null;
  const [r, g, b] = hex.slice(1).map((part) => Number.parseInt(part, 16) / 255) as [number, number, number];
  return labFromSrgb(r, g, b);
}

/** Layers that have to come off, top first, and the face that should show then, in words. */
export function toRemove({ layers, metal }: Stack): { readonly off: readonly StackLayer[]; readonly face: string } {
  const stay = layers.findIndex((layer) => layer.mustStay);
  if (stay < 0) return { off: layers, face: metal.name };
  return { off: layers.slice(0, stay), face: layers[stay]!.kind.name };
}

/** The layer to come off that looks most like the face below, with its predicted ΔE00. */
export interface Likeness {
  readonly layer: StackLayer;
  /** null where the library has no colour of it */
  readonly difference: number | null;
}

/**
 * How different each layer that has to come off looks from the face that should show, most alike first.
 * Colours are the library's, for pictures, and those of metals from memory: ΔE00 is good to some 5.
 * Errors: none. Source: `LayerKind.appearance`, `metalTone`.
 */
export function likenesses(stack: Stack): Likeness[] {
  const stay = stack.layers.find((layer) => layer.mustStay);
  const face = labOfCss(stay === undefined ? metalTone(stack.metal.id) : (stay.kind.appearance[stay.colour] ?? ""));
  return toRemove(stack)
    .off.map((layer) => {
      const own = labOfCss(layer.kind.appearance[layer.colour] ?? "");
      return { layer, difference: own === null || face === null ? null : colourDifference(own, face) };
    })
    .sort((a, b) => (a.difference ?? Infinity) - (b.difference ?? Infinity));
}
