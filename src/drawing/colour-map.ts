import { invalid } from "#units";

export type ColourMapName = "cividis" | "viridis";

/**
 * Ten anchors per map, equally spaced from 0 to 1, sRGB. Both maps rise evenly in lightness and keep their order for
 * red-green blind eyes (Nuñez, Anderton and Renslow 2018 for cividis). Anchors from memory of the public-domain tables.
 */
const anchors: Readonly<Record<ColourMapName, readonly string[]>> = {
  viridis: ["440154", "482878", "3e4989", "31688e", "26828e", "1f9e89", "35b779", "6ece58", "b5de2b", "fde725"],
  cividis: ["00224e", "123570", "3b496c", "575d6d", "707173", "8a8678", "a59c74", "c3b369", "e1cc55", "fee838"],
};

function channels(hex: string): readonly number[] {
  return [0, 2, 4].map((i) => Number.parseInt(hex.slice(i, i + 2), 16));
}

/** Colour of a share between 0 (dark) and 1 (light); straight lines between the anchors in sRGB. */
export function mapColour(share: number, name: ColourMapName = "cividis"): string {
  if (!(share >= 0 && share <= 1)) return invalid("share", share, "", "must be from 0 to 1");
  const table = anchors[name];
  const position = share * (table.length - 1);
  const index = Math.min(Math.floor(position), table.length - 2);
  const from = channels(table[index]!);
  const to = channels(table[index + 1]!);
  const mixed = from.map((value, i) => Math.round(value + (to[i]! - value) * (position - index)));
  return `#${mixed.map((value) => value.toString(16).padStart(2, "0")).join("")}`;
}
