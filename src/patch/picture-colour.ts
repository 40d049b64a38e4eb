import { oxideColours } from "#light";
import type { Metre } from "#terms";
import { invalid } from "#units";

/** sRGB, 0 to 255 each. */
export type Rgb = readonly [number, number, number];

/** Colour of a CSS text "#rrggbb"; throws InvalidInput for another form. */
export function rgbOf(text: string): Rgb {
  if (!/^#[0-9a-f]{6}$/i.test(text)) invalid("colour", text, "", "#rrggbb");
  const part = (i: number) => Number.parseInt(text.slice(i, i + 2), 16);
  return [part(1), part(3), part(5)];
}

export function cssOf(colour: Rgb): string {
  return `#${colour
    .map((v) =>
      Math.round(Math.min(255, Math.max(0, v)))
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;
}

/** Straight mix in sRGB: share 0 the first, 1 the second. */
export function mixed(first: Rgb, second: Rgb, share: number): Rgb {
  const s = share < 0 ? 0 : share > 1 ? 1 : share;
  return [
    first[0] + s * (second[0] - first[0]),
    first[1] + s * (second[1] - first[1]),
    first[2] + s * (second[2] - first[2]),
  ];
}

/** Tones of clean metals as the eye takes them in shop light; from memory. */
const METALS: readonly (readonly [string, string])[] = [
  ["aluminium", "#c5c9cc"],
  ["stainless", "#b3b5b4"],
  ["cast-iron", "#8f8f8e"],
  ["steel", "#a6a9ab"],
  ["copper", "#c98d68"],
  ["brass", "#cdb675"],
  ["titanium", "#a9a7a5"],
  ["zinc", "#b2b8bd"],
];

/** Tone of a bare metal by the beginning of its id; a neutral grey for others. */
export function metalTone(metalId: string): string {
  return METALS.find(([name]) => metalId.startsWith(name))?.[1] ?? "#b0b2b3";
}

/** m: thickest film whose colour is told; twice that looks like scale whatever lies under it (own, for pictures only). */
const CLEAR = 300e-9;
export const SCALE: Rgb = [62, 57, 55];
const TABLE_STEP = 1e-9;

/**
 * Tone of a face under a growing oxide, or null where the oxide of that metal shows no tint.
 *
 * Equation: tone · code(d)/code(0) channel by channel, code of `oxideColours`; from 300 to 600 nm it fades into scale.
 * Units: family as in the library, tone of the face sRGB; thickness d m, result sRGB.
 * Range: d ≥ 0; that of `oxideColours`. Errors: none. Source: `oxideColours`; fading own, for pictures only.
 */
export function oxideTint(family: string, tone: Rgb): ((thickness: Metre) => Rgb) | null {
  const colourAt = oxideColours(family);
  const bare = colourAt(0).colour;
  if (bare === null) return null;
  // A picture asks at each of its cells; a nanometre apart no eye tells two films apart.
  const made: Rgb[] = [];
  const entry = (i: number): Rgb => {
    let known = made[i];
    if (!known) {
      const film = colourAt(i * TABLE_STEP).colour ?? bare;
      known = [tone[0] * (film.red / bare.red), tone[1] * (film.green / bare.green), tone[2] * (film.blue / bare.blue)];
      made[i] = known;
    }
    return known;
  };
  return (thickness) => {
    const film = entry(Math.round(Math.min(thickness, 2 * CLEAR) / TABLE_STEP));
    return mixed(film, SCALE, thickness / CLEAR - 1);
  };
}

export const UNTINTED = "no tint to the eye";
/** Difference in chroma from the bare metal below which an eye calls it untinted (own choice). */
const FAINT = 6;
/** L* under which a warm hue is called brown (own choice). */
const BROWN = 50;
/** Hue angles in CIELAB up to which a word holds; the words are common practice, the bounds own. */
const HUES = [
  [20, "red"],
  [55, "orange"],
  [112, "straw"],
  [155, "green"],
  [225, "blue-green"],
  [292, "blue"],
  [345, "purple"],
  [360, "red"],
] as const;

/**
 * The word of the trade for the tint of an oxide, or why there is none.
 * Units: family as in the library, thickness m. Range: that of `oxideColours`; beyond it "dark scale".
 * Errors: InvalidInput for a negative thickness. Source: `oxideColours`; words common practice, no source.
 */
export function tintWord(family: string, thickness: Metre): string {
  const colourAt = oxideColours(family);
  const bare = colourAt(0);
  const { colour, reason } = colourAt(Math.min(thickness, CLEAR));
  if (colour === null || bare.colour === null) return reason ?? "";
  if (thickness > CLEAR) return "dark scale";
  if (Math.hypot(colour.a - bare.colour.a, colour.b - bare.colour.b) < FAINT)
    return bare.colour.L - colour.L > 10 ? "grey" : UNTINTED;
  const hue = ((Math.atan2(colour.b, colour.a) * 180) / Math.PI + 360) % 360;
  const word = HUES.find(([to]) => hue <= to)?.[1] ?? "red";
  return colour.L < BROWN && (word === "orange" || word === "straw") ? "brown" : word;
}
