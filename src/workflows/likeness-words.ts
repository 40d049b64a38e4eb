import type { LaserSetup, Metal, StackLayer } from "#terms";
import { formatNumber } from "#units";
import { type LayerPair, layerLikeness } from "./likeness-coat.ts";
import type { LayerWish, LikeQuery } from "./likeness-terms.ts";

/** Ratio of two thicknesses that is worth a word. */
const THICKNESS_WORTH = 1.5;

const coloured = (colour: string | null, name: string): string =>
  colour === null || colour === "natural" ? name.toLowerCase() : `${colour} ${name.toLowerCase()}`;
const layerName = (l: StackLayer): string => coloured(l.colour, l.kind.name);

/** What was asked for as a layer, in words. */
function wishName({ kinds, colour }: LayerWish): string {
  if (kinds.length > 3)
    return coloured(colour, kinds.some((k) => k.group !== kinds[0]!.group) ? "layer" : kinds[0]!.group);
  return coloured(colour, kinds.map((k) => k.name).join(" or "));
}

function pairWords({ wish, layer }: LayerPair): string[] {
  if (wish === null) return layer === null ? [] : [`also ${layerName(layer)}`];
  if (layer === null) return [`without ${wishName(wish)}`];
  const words: string[] = [];
  if (!wish.kinds.some((k) => k.id === layer.kind.id)) words.push(`${layerName(layer)} instead of ${wishName(wish)}`);
  else if (wish.colour !== null && wish.colour !== layer.colour)
    words.push(`${layer.colour} instead of ${wish.colour} ${layer.kind.name.toLowerCase()}`);
  const ratio = wish.thickness === null ? 1 : layer.thickness.value / wish.thickness;
  if (ratio > THICKNESS_WORTH || ratio < 1 / THICKNESS_WORTH)
    words.push(`${layer.kind.name.toLowerCase()} ${formatNumber(ratio, 2)} times as thick`);
  return words;
}

/** Why a coat is like or unlike what is asked for. */
export function coatWords(pairs: readonly LayerPair[]): string[] {
  const words = pairs.flatMap(pairWords);
  const met = pairs.some(({ wish, layer }) => wish && layer && layerLikeness(wish, layer) > 0);
  if (words.length === 0) return ["same coat"];
  return met ? words : ["another coat"];
}

export function metalWords(wanted: readonly Metal[], metal: Metal): string {
  if (wanted.some((m) => m.id === metal.id)) return "same metal";
  const first = wanted[0]!;
  return wanted.some((m) => m.family === metal.family)
    ? `${metal.name} instead of ${first.name}`
    : `${metal.family} instead of ${first.family}`;
}

export function setupWords(wanted: readonly LaserSetup[], setup: LaserSetup): string {
  if (wanted.some((s) => s.id === setup.id)) return "same set-up";
  return wanted.some((s) => s.kind === setup.kind)
    ? `another ${setup.kind} set-up`
    : `${setup.kind} instead of ${wanted[0]!.kind}`;
}

/** A query in words: "white polyurethane top coat on Aluminium 5083 with Nanosecond pulsed 100 W". */
export function queryWords({ layers, metals, setups }: LikeQuery): string {
  const several = (names: readonly string[], what: string) =>
    names.length > 3 ? `any of ${names.length} ${what}` : names.join(" or ");
  const coat = layers.length === 0 ? "any coat" : layers.map(wishName).join(" over ");
  const metal =
    metals.length === 0
      ? ""
      : ` on ${several(
          metals.map((m) => m.name),
          "metals",
        )}`;
  return `${coat}${metal}${
    setups.length === 0
      ? ""
      : ` with ${several(
          setups.map((s) => s.name),
          "set-ups",
        )}`
  }`;
}
