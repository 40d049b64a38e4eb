import type { LaserSetup, LayerKind, Metal } from "#terms";
import type { ShelfKey } from "../api/library.ts";
import { quantityText } from "../show/quantity-text.ts";
import { words } from "../words/index.ts";
import type { Entry } from "./origins.ts";

const say = words.library;

/** An entry in one line: what one looks for when choosing the nearest. */
export function briefOf(shelf: ShelfKey, entry: Entry): string {
  if (shelf === "metals") {
    const m = entry as Metal;
    return say.brief.metal(
      quantityText(m.meltingTemperature.value, "degC"),
      quantityText(m.conductivity.value[0], "W/(m*K)"),
      quantityText(m.absorptance.value, "%", 2),
    );
  }
  if (shelf === "layers") {
    const l = entry as LayerKind;
    const colours = Object.keys(l.optics).map((c) => say.values[c] ?? c);
    return say.brief.layer(
      say.values[l.group] ?? l.group,
      quantityText(l.usualThickness.value, "um"),
      colours.join(", "),
    );
  }
  const s = entry as LaserSetup;
  const widths = s.pulses.map((p) => quantityText(p.width, "ns"));
  return say.brief.setup(
    say.values[s.kind] ?? s.kind,
    quantityText(s.ratedPower, "W", 4),
    quantityText(s.wavelength, "nm", 4),
    widths.length === 0 ? "" : `${widths[0]} … ${widths[widths.length - 1]}`,
  );
}

/** What a search looks through. */
export const searchText = (shelf: ShelfKey, entry: Entry): string =>
  `${entry.name} ${entry.id} ${"family" in entry ? String(entry.family) : ""} ${briefOf(shelf, entry)}`.toLowerCase();

/** Every word of the search has to be there, in any order. */
export function fits(text: string, search: string): boolean {
  return search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
