import { invalid } from "#units";
import { layerKind } from "./lookup.ts";
import type { ColourClass, LayerKind, Property } from "#terms";
import { usualColour } from "./layer-optics.ts";

/** One kind that an unknown layer may be, as far as is usual. Shares of one list add up to 1. */
export interface LayerGuess {
  readonly kind: LayerKind;
  readonly colour: ColourClass;
  readonly thickness: Property;
  readonly weight: number;
  /** in words, for the person */
  readonly assumption: string;
}

export type LayerFamily = "paint" | "rust" | "any";

/** Shares of kinds where nobody knows, common practice, no source (id mixture-practice). */
const shares: Readonly<Record<LayerFamily, readonly (readonly [id: string, share: number])[]>> = {
  paint: [
    ["alkyd", 0.35],
    ["polyurethane-topcoat", 0.2],
    ["epoxy-primer", 0.2],
    ["acrylic", 0.1],
    ["powder-coat", 0.1],
    ["zinc-rich-primer", 0.05],
  ],
  rust: [
    ["red-rust", 0.75],
    ["mill-scale", 0.25],
  ],
  any: [
    ["alkyd", 0.25],
    ["polyurethane-topcoat", 0.15],
    ["epoxy-primer", 0.15],
    ["red-rust", 0.2],
    ["powder-coat", 0.1],
    ["mill-scale", 0.1],
    ["rubber-residue", 0.05],
  ],
};

/**
 * What an unknown layer may be: kinds with their usual thickness and share, heaviest first.
 * @throws InvalidInput when the family is none of paint, rust, any
 */
export function unknownLayerMixture(family: LayerFamily = "any"): LayerGuess[] {
  const list = Object.hasOwn(shares, family) ? shares[family] : undefined;
  if (list === undefined) invalid("layer family", family, "", "one of: paint, rust, any");
  return list.map(([id, weight]) => {
    const kind = layerKind(id);
    return {
      kind,
      colour: usualColour(kind),
      thickness: kind.usualThickness,
      weight,
      assumption: `layer taken as ${kind.name.toLowerCase()}, usual thickness (share ${Math.round(100 * weight)} %)`,
    };
  });
}
