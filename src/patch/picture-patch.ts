import { normalCdf } from "#numerics";
import { requireInteger } from "#units";
import type { PatchMap } from "./map-patch.ts";
import { cssOf, mixed, oxideTint, type Rgb, rgbOf } from "./picture-colour.ts";
import { normalField } from "./picture-texture.ts";

/** What things look like; CSS colours "#rrggbb". */
export interface PatchLook {
  /** tone of the clean metal, see `metalTone` */
  readonly metal: string;
  /** colour of the layer that comes off */
  readonly layer: string;
  /** refractive index of the metal's oxide; null when it does not tint */
  readonly oxideIndex: number | null;
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
  const metal = rgbOf(look.metal);
  const layer = rgbOf(look.layer);
  const pixels = new Uint8ClampedArray(4 * width * height);
  const spot = Math.max(2, (SPOT / step) * scale);
  const adhesion = normalField(width, height, spot, spot, seed, 1);
  const grain = normalField(width, height, 2, 2, seed, 2);
  const brush = normalField(width, height, 14 * scale, 2, seed, 3);
  const pool = normalField(width, height, 3 * spot, spot, seed, 4);
  const tint = look.oxideIndex === null ? null : tintMaps(map.oxide, metal, look.oxideIndex);
  const place = new Between(columns, rows);
  const seen = { bare: false, layer: false, thin: false, char: false, tint: false, scale: false, melt: false };
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const at = j * width + i;
      place.move((i + 0.5) / scale - 0.5, (j + 0.5) / scale - 0.5);
      const covered = place.read(map.covered);
      const oxide = look.oxideIndex === null ? 0 : place.read(map.oxide);
      let face: Rgb = tint ? [place.read(tint[0]), place.read(tint[1]), place.read(tint[2])] : metal;
      const melt = place.read(map.melted) * Math.min(1, place.read(map.meltDepth) / MIRROR_MELT);
      // A brushed face is matt; what melted has run smooth.
      const shade = (1 - melt) * (0.028 * brush[at]! + 0.012 * grain[at]!) + melt * 0.022 * pool[at]!;
      face = mixed([face[0] * (1 + shade), face[1] * (1 + shade), face[2] * (1 + shade)], GLOSS, 0.45 * melt);
      if (covered > 1 - TRACE || (covered > TRACE && normalCdf(adhesion[at]!) > 1 - covered)) {
        const share = place.read(map.left) / map.thickness;
        const black = Math.min(1, place.read(map.char) / OPAQUE_CHAR);
        const tone = mixed(layer, CHAR, 0.85 * black);
        const rough = 1 + 0.018 * grain[at]!;
        const cover = 1 - Math.exp(-share / THIN);
        face = mixed(face, [tone[0] * rough, tone[1] * rough, tone[2] * rough], Math.max(cover, black));
        if (black > 0.2) seen.char = true;
        else if (cover < 0.8) seen.thin = true;
        else seen.layer = true;
      } else if (melt > 0.1) seen.melt = true;
      else if (oxide > 300e-9) seen.scale = true;
      else if (oxide > 15e-9) seen.tint = true;
      else seen.bare = true;
      pixels[4 * at] = face[0];
      pixels[4 * at + 1] = face[1];
      pixels[4 * at + 2] = face[2];
      pixels[4 * at + 3] = 255;
    }
  }
  return { width, height, pixels, legend: legendOf(seen, metal, layer, look.oxideIndex) };
}

/** Channels of the tint, cell by cell: between a thin and a thick film the eye sees their mean, not all films between. */
function tintMaps(oxide: Float32Array, metal: Rgb, index: number): [Float32Array, Float32Array, Float32Array] {
  const maps = [0, 1, 2].map(() => new Float32Array(oxide.length)) as [Float32Array, Float32Array, Float32Array];
  oxide.forEach((thickness, cell) => {
    const colour = oxideTint(metal, thickness, index);
    maps.forEach((map, channel) => {
      map[cell] = colour[channel]!;
    });
  });
  return maps;
}

/** Reads maps between the middles of their cells, straight both ways; held at the rim. */
class Between {
  readonly #columns: number;
  readonly #rows: number;
  #at = 0;
  #right = 0;
  #down = 0;
  #wx = 0;
  #wy = 0;

  constructor(columns: number, rows: number) {
    this.#columns = columns;
    this.#rows = rows;
  }

  /** x and y in cells, whole numbers at the middles of cells */
  move(x: number, y: number): void {
    const u = Math.min(this.#columns - 1, Math.max(0, x));
    const v = Math.min(this.#rows - 1, Math.max(0, y));
    const i = Math.floor(u);
    const j = Math.floor(v);
    this.#at = j * this.#columns + i;
    this.#right = i + 1 < this.#columns ? 1 : 0;
    this.#down = j + 1 < this.#rows ? this.#columns : 0;
    this.#wx = u - i;
    this.#wy = v - j;
  }

  read(map: Float32Array): number {
    const a = this.#at;
    const top = map[a]! + this.#wx * (map[a + this.#right]! - map[a]!);
    const b = a + this.#down;
    const bottom = map[b]! + this.#wx * (map[b + this.#right]! - map[b]!);
    return top + this.#wy * (bottom - top);
  }
}

function legendOf(
  seen: Readonly<Record<"bare" | "layer" | "thin" | "char" | "tint" | "scale" | "melt", boolean>>,
  metal: Rgb,
  layer: Rgb,
  index: number | null,
): LegendEntry[] {
  const entries: LegendEntry[] = [];
  const add = (shown: boolean, colour: Rgb, words: string) => {
    if (shown) entries.push({ colour: cssOf(colour), words });
  };
  add(seen.bare, metal, "bare metal");
  add(seen.layer, layer, "layer still there");
  add(seen.thin, mixed(metal, layer, 0.5), "layer worn thin");
  add(seen.char, mixed(layer, CHAR, 0.85), "charred layer");
  if (index !== null) {
    for (const [nanometres, words] of [
      [45, "about 45 nm"],
      [55, "about 55 nm"],
      [80, "about 80 nm"],
    ] as const)
      add(seen.tint, oxideTint(metal, nanometres * 1e-9, index), `metal tinted by ${words} of oxide`);
    add(seen.scale, oxideTint(metal, 500e-9, index), "dark oxide scale on the metal");
  }
  add(seen.melt, mixed(metal, GLOSS, 0.45), "metal that melted and ran smooth");
  return entries;
}
