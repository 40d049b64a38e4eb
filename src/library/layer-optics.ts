import type { ColourClass, LayerKind, LayerOptics } from "#terms";
import { invalid } from "#units";

/** Colour classes in which a kind is known. */
export function coloursOf(kind: LayerKind): ColourClass[] {
  return Object.keys(kind.optics) as ColourClass[];
}

/** Colour class to assume where nothing is said: the only one, else mid, else the first. */
export function usualColour(kind: LayerKind): ColourClass {
  const colours = coloursOf(kind);
  return colours.includes("natural") ? "natural" : colours.includes("mid") ? "mid" : colours[0]!;
}

/**
 * Near-infrared optics of a kind in one colour class.
 * @throws InvalidInput when the kind does not come in that colour class
 */
export function opticsOf(kind: LayerKind, colour: ColourClass): LayerOptics {
  const optics = kind.optics[colour];
  if (optics === undefined) invalid(`colour of ${kind.id}`, colour, "", `one of: ${coloursOf(kind).join(", ")}`);
  return optics;
}
