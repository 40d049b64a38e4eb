import { interpolateLinear } from "#numerics";
import { invalid } from "#units";
import data from "./data/visible-optics.json" with { type: "json" };

/** An oxide film on a metal: which table the metal is read from, and what the oxide is made of, by volume. */
export interface OxideFilm {
  readonly metal: string;
  readonly oxide: readonly { readonly material: string; readonly share: number }[];
}

const NO_COLOUR: Readonly<Record<string, string>> = {
  aluminium: "the oxide of aluminium is clear and stays a few nanometres thin: it shows no tint",
  zinc: "the oxide of zinc grows grey and rough, not as a clear film: its look is observed only",
};

const material = (id: string) => {
  const found = data.materials.find((m) => m.id === id);
  if (found === undefined) {
    invalid("optical material", id, "", `one of: ${data.materials.map((m) => m.id).join(", ")}`);
  }
  return found;
};

/**
 * Refractive index and extinction coefficient in the visible, straight between the tabulated points.
 * Units: wavelength nm (380-780); result 1. Errors: InvalidInput for an unknown material.
 * Source: named beside each table of the library.
 */
export function visibleIndex(id: string, wavelength: number): { readonly n: number; readonly k: number } {
  const table = material(id);
  return {
    n: interpolateLinear(table.wavelength_nm, table.n, wavelength),
    k: interpolateLinear(table.wavelength_nm, table.k, wavelength),
  };
}

/** The oxide film that grows on a family of metals, or null with the reason why no colour can be told; with sources. */
export function oxideFilm(family: string): {
  readonly film: OxideFilm | null;
  readonly reason: string | null;
  readonly sources: readonly string[];
} {
  const film = data.films.find((f) => f.family === family) ?? null;
  if (film === null) {
    const reason = NO_COLOUR[family] ?? "optical constants of its oxide are not in the library";
    return { film: null, reason, sources: [] };
  }
  const sources = [film.metal, ...film.oxide.map((part) => part.material)].map((id) => material(id).source);
  return { film, reason: null, sources: [...new Set(sources)] };
}
