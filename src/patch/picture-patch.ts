import { normalCdf } from "#numerics";
import { formatQuantity, invalid, requireInteger } from "#units";
import type { PatchMap } from "./map-patch.ts";
import { cssOf, mixed, oxideTint, type Rgb, rgbOf, SCALE, tintWord, UNTINTED } from "./picture-colour.ts";
import { Between, Mean } from "./picture-reading.ts";
import { normalField } from "./picture-texture.ts";

/** One layer that comes off. */
export interface LookLayer {
  readonly name: string;
  /** CSS "#rrggbb" */
  readonly colour: string;
  /** share of the thickness that comes off */
  readonly share: number;
}

/** What things look like; CSS colours "#rrggbb". */
export interface PatchLook {
  /** tone of what lies bare once clean, see `metalTone`, and its name */
  readonly under: string;
  readonly underName: string;
  /** layers that come off, from the top down */
  readonly layers: readonly LookLayer[];
  /** family of the metal, whose oxide tints it; null when another layer covers it */
  readonly family: string | null;
}

export interface LegendEntry {
  readonly colour: string;
  readonly words: string;
}

/** A picture as the canvas of a page takes it: RGBA row by row. */
export interface PatchPicture {
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint8ClampedArray;
  /** what each colour means, only what the picture shows */
  readonly legend: readonly LegendEntry[];
}

const CHAR: Rgb = [38, 33, 30];
const GLOSS: Rgb = [238, 240, 240];
/** m: char that covers the eye, melt that looks like a mirror, spots of residue */
const OPAQUE_CHAR = 3e-6;
const MIRROR_MELT = 1.5e-6;
const SPOT = 45e-6;
/** Covered shares nearer to none or all than this count as none and all. */
const TRACE = 1e-4;
/** m of oxide from which a face counts as tinted. */
const TINTED = 8e-9;
/** m: tints of films nearer than this count as one. */
const TINT_STEP = 5e-9;
/** Share of the thickness under which the layer below shines through. */
const THIN = 0.15;

/**
 * How the patch would look: bare metal, its oxide tint and molten gloss, and the layer where it holds.
 *
 * At every pixel a standard normal field, fixed by the seed, stands for the adhesion there: of a place whose covered
 * share is s, the strongest s stay covered, so that area fractions of the picture are those of the map.
 * Units: scale pixels per cell. Range: scale 1 to 16. Errors: InvalidInput for colours and scales that cannot be.
 * Source: own; a picture of a prediction, not a photograph.
 */
export function patchPicture(map: PatchMap, look: PatchLook, seed: number, scale = 4): PatchPicture {
  requireInteger("pixels per cell", scale, 1, 16);
  const { columns, rows, step } = map.grid;
  const width = columns * scale;
  const height = rows * scale;
  const metal = rgbOf(look.under);
  const layers = look.layers.map((l) => rgbOf(l.colour));
  const layerAt = bottoms(look.layers);
  const pixels = new Uint8ClampedArray(4 * width * height);
  const spot = Math.max(2, (SPOT / step) * scale);
  const adhesion = normalField(width, height, spot, spot, seed, 1);
  const grain = normalField(width, height, 2, 2, seed, 2);
  const brush = normalField(width, height, 14 * scale, 2, seed, 3);
  const pool = normalField(width, height, 3 * spot, spot, seed, 4);
  const tintAt = look.family === null ? null : oxideTint(look.family, metal);
  const tint = tintAt && tintMaps(map.oxide, tintAt);
  const place = new Between(columns, rows);
  const seen: Seen = {
    pixels: width * height,
    bare: false,
    layers: new Set(),
    thin: -1,
    char: -1,
    tint: new Uint32Array(64),
    scale: false,
    melt: new Mean(),
  };
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const at = j * width + i;
      place.move((i + 0.5) / scale - 0.5, (j + 0.5) / scale - 0.5);
      const covered = place.read(map.covered);
      const oxide = tint ? place.read(map.oxide) : 0;
      let face: Rgb = tint ? [place.read(tint[0]), place.read(tint[1]), place.read(tint[2])] : metal;
      const melt = place.read(map.melted) * Math.min(1, place.read(map.meltDepth) / MIRROR_MELT);
      // A brushed face is matt; what melted has run smooth.
      const shade = (1 - melt) * (0.028 * brush[at]! + 0.012 * grain[at]!) + melt * 0.022 * pool[at]!;
      face = mixed([face[0] * (1 + shade), face[1] * (1 + shade), face[2] * (1 + shade)], GLOSS, 0.45 * melt);
      if (covered > 1 - TRACE || (covered > TRACE && normalCdf(adhesion[at]!) > 1 - covered)) {
        const share = place.read(map.left) / map.thickness;
        const black = Math.min(1, place.read(map.char) / OPAQUE_CHAR);
        const top = layerAt(share);
        const tone = mixed(layers[top]!, CHAR, 0.85 * black);
        const rough = 1 + 0.018 * grain[at]!;
        const cover = 1 - Math.exp(-share / THIN);
        face = mixed(face, [tone[0] * rough, tone[1] * rough, tone[2] * rough], Math.max(cover, black));
        if (black > 0.2) seen.char = top;
        else if (cover < 0.8) seen.thin = top;
        else seen.layers.add(top);
      } else if (melt > 0.1) seen.melt.add(face, oxide);
      else if (oxide > 300e-9) seen.scale = true;
      else if (oxide > TINTED) seen.tint[Math.round(oxide / TINT_STEP)]!++;
      else seen.bare = true;
      pixels[4 * at] = face[0];
      pixels[4 * at + 1] = face[1];
      pixels[4 * at + 2] = face[2];
      pixels[4 * at + 3] = 255;
    }
  }
  return { width, height, pixels, legend: legendOf(seen, look, metal, layers, tintAt) };
}

/** Which layer lies on top when a share of the thickness is left. */
function bottoms(layers: readonly LookLayer[]): (left: number) => number {
  if (layers.length === 0) invalid("layers of the picture", 0, "", "at least one layer that comes off");
  let below = 0;
  const from = layers.toReversed().map((l) => {
    const at = below;
    below += l.share;
    return at;
  });
  // A trace above a boundary is rounding, not a layer.
  return (left) =>
    layers.length -
    1 -
    Math.max(
      0,
      from.findLastIndex((at) => left > at + 0.002),
    );
}

/** Channels of the tint, cell by cell: between a thin and a thick film the eye sees their mean, not all films between. */
function tintMaps(oxide: Float32Array, tintAt: (d: number) => Rgb): [Float32Array, Float32Array, Float32Array] {
  const maps = [0, 1, 2].map(() => new Float32Array(oxide.length)) as [Float32Array, Float32Array, Float32Array];
  oxide.forEach((thickness, cell) => {
    const colour = tintAt(thickness);
    maps.forEach((map, channel) => {
      map[cell] = colour[channel]!;
    });
  });
  return maps;
}

/** What the picture came to show: layers by their place from the top (-1: none), pixels tinted by each thickness. */
interface Seen {
  bare: boolean;
  readonly pixels: number;
  readonly layers: Set<number>;
  thin: number;
  char: number;
  readonly tint: Uint32Array;
  scale: boolean;
  readonly melt: Mean;
}

const thick = (oxide: number) => `about ${formatQuantity(oxide, oxide < 1e-6 ? "nm" : "um", 2)}`;

function legendOf(
  seen: Readonly<Seen>,
  look: PatchLook,
  metal: Rgb,
  layers: readonly Rgb[],
  tintAt: ((d: number) => Rgb) | null,
): LegendEntry[] {
  const entries: LegendEntry[] = [];
  const add = (colour: Rgb, words: string) => entries.push({ colour: cssOf(colour), words });
  if (seen.bare) add(metal, look.underName);
  look.layers.forEach((l, i) => {
    if (seen.layers.has(i)) add(layers[i]!, `${l.name} still there`);
  });
  if (seen.thin >= 0) add(mixed(metal, layers[seen.thin]!, 0.5), `${look.layers[seen.thin]!.name} worn thin`);
  if (seen.char >= 0) add(mixed(layers[seen.char]!, CHAR, 0.85), "charred layer");
  if (tintAt && look.family !== null) {
    // Each word once, where most of the picture shows it; a trace between two tints is no entry.
    const most = new Map<string, number>();
    seen.tint.forEach((count, i) => {
      if (count * 500 <= seen.pixels) return;
      const word = tintWord(look.family as string, i * TINT_STEP);
      if (word === UNTINTED) return;
      const known = most.get(word);
      if (known === undefined || count > seen.tint[known]!) most.set(word, i);
    });
    for (const [word, i] of [...most].sort((a, b) => a[1] - b[1])) {
      const thickness = i * TINT_STEP;
      add(tintAt(thickness), `${word}: metal under ${thick(thickness)} of oxide`);
    }
  }
  if (seen.scale) add(SCALE, "dark oxide scale on the metal");
  if (seen.melt.count > 0) {
    const under =
      look.family !== null && seen.melt.oxide > TINTED
        ? `, under ${thick(seen.melt.oxide)} of oxide (${tintWord(look.family, seen.melt.oxide)})`
        : "";
    add(seen.melt.colour, `metal that melted and ran smooth${under}`);
  }
  return entries;
}
