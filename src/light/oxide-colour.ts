import { oxideFilm, visibleIndex } from "#library";
import type { Metre } from "#terms";
import { requireNonNegative } from "#units";
import { type SeenColour, SPECTRUM, seenColour } from "./seen-colour.ts";
import { type ComplexIndex, filmReflectance, mixedIndex } from "./thin-film.ts";

/** The colour of an oxide film, or why there is none to tell. */
export type OxideColour =
  | { readonly colour: SeenColour; readonly reason: null; readonly sources: readonly string[] }
  | { readonly colour: null; readonly reason: string; readonly sources: readonly string[] };

interface Spectrum {
  readonly film: readonly ComplexIndex[];
  readonly metal: readonly ComplexIndex[];
}

const nm = (i: number) => SPECTRUM.first + SPECTRUM.step * i;

function spectrumOf(film: NonNullable<ReturnType<typeof oxideFilm>["film"]>): Spectrum {
  const at = Array.from({ length: SPECTRUM.count }, (_, i) => nm(i));
  return {
    metal: at.map((w) => visibleIndex(film.metal, w)),
    film: at.map((w) =>
      mixedIndex(film.oxide.map((part) => ({ index: visibleIndex(part.material, w), share: part.share }))),
    ),
  };
}

/**
 * Colour that an oxide of a thickness gives a polished metal, by interference in the film.
 *
 * Equation: `filmReflectance` from 380 to 780 nm, `seenColour`.
 * Units: family as in the library ("steel", "stainless", "cast-iron", "titanium", "copper"), thickness m; result
 * CIELAB and sRGB, or null with the reason (aluminium: its oxide is clear and stays a few nm thin).
 * Range: 0 to 300 nm; films of mixed and growing composition shift the thickness of a hue by a quarter or so. The order
 * of hues is certain, the thickness at which each appears is not. Temper charts name colours by temperature for minutes
 * in a furnace: a laser holds for less, so the same colour means a hotter surface. Go by thickness.
 * Errors: InvalidInput for a negative thickness.
 * Source: optical constants by Johnson and Christy, Querry, Sarkar et al.; cuprous oxide and chromia from memory.
 */
export function oxideColour(family: string, thickness: Metre): OxideColour {
  return oxideColours(family)(thickness);
}

/** The same for many thicknesses of one metal: the optical constants are read once. */
export function oxideColours(family: string): (thickness: Metre) => OxideColour {
  const { film, reason, sources } = oxideFilm(family);
  const spectrum = film === null ? null : spectrumOf(film);
  return (thickness) => {
    requireNonNegative("oxide thickness", thickness, "m");
    if (spectrum === null) return { colour: null, reason: reason ?? "", sources };
    const reflectance = spectrum.metal.map((metal, i) =>
      filmReflectance(spectrum.film[i]!, metal, thickness, nm(i) * 1e-9),
    );
    return { colour: seenColour(reflectance), reason: null, sources };
  };
}
