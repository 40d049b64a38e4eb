import type { ColourClass, LayerKind, LaserSetup, Metal } from "#terms";
import { invalid } from "#units";
import { bestMatches, namesOf, wordsOf } from "./likeness-match.ts";
import type { LayerWish, LikeQuery } from "./likeness-terms.ts";

/** Shelves of a library that a text is read against. */
export interface LikeShelves {
  readonly metals: readonly Metal[];
  readonly layerKinds: readonly LayerKind[];
  readonly setups: readonly LaserSetup[];
}

/** Words that carry nothing by themselves. */
const FILLING = new Set(
  "what do does did we i you know about is are there have has the a an of in from for to and or any some our job jobs trial trials laser lasers set up setup metal plate sheet layer layers um w kw watt thick".split(
    " ",
  ),
);
const COLOURS = new Map<string, ColourClass>(
  Object.entries({
    white: "white",
    pale: "white",
    mid: "mid",
    grey: "mid",
    gray: "mid",
    blue: "mid",
    green: "mid",
    yellow: "mid",
    dark: "dark",
    black: "dark",
    clear: "clear",
  }),
);
/** Words for every kind of a group. */
const GROUPS = new Map<string, LayerKind["group"]>(
  Object.entries({
    paint: "coating",
    painted: "coating",
    coating: "coating",
    coat: "coating",
    oxide: "oxide",
    contaminant: "contaminant",
    plating: "metallic",
  }),
);
const SOURCES = new Set(["pulsed", "continuous", "nanosecond"]);
const TEXT_MAX = 400;

export interface ReadQuery {
  readonly query: LikeQuery;
  /** words that mean nothing to the library */
  readonly ignored: readonly string[];
}

/**
 * Reads a question such as "white polyurethane over epoxy primer on 5083 with pulsed-100" against names and ids of the
 * library. "on", "over" and commas part the layers, outermost first; a metal may stand anywhere. Words that fit several
 * entries mean any of them.
 * @throws InvalidInput when the text is too long or nothing in it means anything to the library
 */
export function readLikeText(text: string, shelves: LikeShelves): ReadQuery {
  return (
    readAnyText(text, shelves) ??
    invalid(
      "question",
      wordsOf(text).join(" ").slice(0, 60) || "empty",
      "",
      'names no layer, metal or set-up of the library; for example "white polyurethane on 5083"',
    )
  );
}

/** As `readLikeText`, and null where nothing means anything to the library. Throws InvalidInput when it is too long. */
export function readAnyText(text: string, shelves: LikeShelves): ReadQuery | null {
  if (text.length > TEXT_MAX) invalid("question", `${text.length} characters`, "", `at most ${TEXT_MAX} characters`);
  const segments = text.toLowerCase().split(/\b(?:on|over|onto|with|by|using|at)\b|[,;+]/);
  const layers: LayerWish[] = [];
  let metals: readonly Metal[] = [];
  let setups: readonly LaserSetup[] = [];
  const ignored: string[] = [];
  for (const segment of segments) {
    const { thickness, rest } = thicknessIn(segment);
    let words = wordsOf(rest);
    if (words.some((w) => SOURCES.has(w))) {
      const found = bestMatches(words, shelves.setups, (s) => namesOf(s.id, s.name));
      setups = found.entries;
      words = words.filter((w) => !found.used.has(w));
    }
    const colour = words.map((w) => COLOURS.get(w)).find((c) => c !== undefined) ?? null;
    words = words.filter((w) => COLOURS.get(w) === undefined);
    const takeMetal = () => {
      if (metals.length > 0) return;
      const found = bestMatches(
        words,
        shelves.metals,
        (m) => namesOf(m.id, m.name),
        (m) => wordsOf(m.family),
      );
      if (found.entries.length === 0) return;
      metals = found.entries;
      words = words.filter((w) => !found.used.has(w));
    };
    if (isMetalFirst(words, shelves)) takeMetal();
    const coat = layerIn(words, shelves.layerKinds);
    if (coat.kinds.length > 0) {
      const known = coat.kinds.filter((k) => colour === null || k.optics[colour] !== undefined);
      layers.push({ kinds: known.length > 0 ? known : coat.kinds, colour, thickness });
      words = words.filter((w) => !coat.used.has(w));
    } else if (colour !== null) ignored.push(colour);
    takeMetal();
    ignored.push(...words.filter((w) => !FILLING.has(w)));
  }
  const query: LikeQuery = { layers, metals, setups };
  if (layers.length === 0 && metals.length === 0 && setups.length === 0) return null;
  return { query, ignored };
}

function thicknessIn(segment: string): { readonly thickness: number | null; readonly rest: string } {
  const found = /(\d+(?:\.\d+)?)\s*(?:um|µm|μm|microns?)\b/.exec(segment);
  const value = found === null ? 0 : Number(found[1]);
  return found !== null && value > 0
    ? { thickness: value * 1e-6, rest: segment.replace(found[0], " ") }
    : { thickness: null, rest: segment };
}

/** True where the words fit a metal better than a layer: "zinc" is one, "zinc coating" is none. */
function isMetalFirst(words: readonly string[], shelves: LikeShelves): boolean {
  const metal = bestMatches(
    words,
    shelves.metals,
    (m) => namesOf(m.id, m.name),
    (m) => wordsOf(m.family),
  );
  return (
    metal.entries.length > 0 && metal.score > bestMatches(words, shelves.layerKinds, (k) => namesOf(k.id, k.name)).score
  );
}

/** Kinds that the words name; a word for a whole group counts where nothing nearer is named. */
function layerIn(words: readonly string[], kinds: readonly LayerKind[]) {
  const found = bestMatches(words, kinds, (k) => namesOf(k.id, k.name));
  const groups = words.filter((w) => GROUPS.get(w) !== undefined);
  const named = [...found.used].some((w) => GROUPS.get(w) === undefined);
  if (named || groups.length === 0) return { kinds: found.entries, used: new Set([...found.used, ...groups]) };
  return { kinds: kinds.filter((k) => groups.some((w) => GROUPS.get(w) === k.group)), used: new Set(groups) };
}
