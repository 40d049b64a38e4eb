import type { RandomStream } from "#numerics";
import type { PatchView } from "#grading";

export interface FakePatch {
  readonly bare: readonly number[];
  readonly coat: readonly number[];
  /** share of the inner area that islands of coat cover */
  readonly share: number;
  readonly pixelsPerMm?: number;
  /** mm of the planned square */
  readonly size?: number;
  /** mm shown around it */
  readonly around?: number;
  /** mm, standard deviation */
  readonly blur?: number;
  /** relative spread of the coat's tone from place to place */
  readonly mottle?: number;
  /** relative spread of the metal's brushed texture */
  readonly brushed?: number;
  /** share of an even thin film over the metal */
  readonly haze?: number;
  /** least opacity of the islands, which thin out unevenly down to it; opaque where left out */
  readonly film?: number;
  /** factor on the metal by channel: tint */
  readonly tint?: readonly number[];
  /** share of the metal's area that melted and glints */
  readonly melted?: number;
  readonly glint?: number;
  /** mm and relative strength of stripes along a direction (rad, of the lines against the x axis) */
  readonly stripes?: { readonly period: number; readonly strength: number; readonly angle: number };
  /** light added everywhere */
  readonly glare?: number;
  /** mm, spread of the square's outline */
  readonly ragged?: number;
  readonly noise?: number;
}

/** Smooth noise: random values on a grid of a cell size, eased between; about unit spread. */
function valueNoise(random: RandomStream, width: number, height: number, cellX: number, cellY: number): Float32Array {
  const columns = Math.ceil(width / cellX) + 2;
  const rows = Math.ceil(height / cellY) + 2;
  const nodes = Float32Array.from({ length: columns * rows }, () => 1.7 * (2 * random.next() - 1) * 1.4);
  const [ox, oy] = [random.next(), random.next()];
  const out = new Float32Array(width * height);
  for (let j = 0; j < height; j += 1) {
    const v = j / cellY + oy;
    const jv = Math.min(rows - 2, Math.floor(v));
    const fv = v - jv;
    const ev = fv * fv * (3 - 2 * fv);
    for (let i = 0; i < width; i += 1) {
      const u = i / cellX + ox;
      const iu = Math.min(columns - 2, Math.floor(u));
      const fu = u - iu;
      const eu = fu * fu * (3 - 2 * fu);
      const at = jv * columns + iu;
      const top = nodes[at]! * (1 - eu) + nodes[at + 1]! * eu;
      const low = nodes[at + columns]! * (1 - eu) + nodes[at + columns + 1]! * eu;
      out[j * width + i] = top * (1 - ev) + low * ev;
    }
  }
  return out;
}

const OVER = 3;

/** Half width of the three boxes that come nearest to a Gaussian blur, subpixels. */
const boxOf = (sigma: number): number => Math.max(0, Math.round((Math.sqrt(4 * (sigma * OVER) ** 2 + 1) - 1) / 2));

/** Blurs by three boxes, then averages OVER × OVER subpixels. */
function photograph(fine: Float32Array, width: number, height: number, sigma: number): Float32Array {
  const box = boxOf(sigma);
  let current = fine;
  for (let pass = 0; pass < 3 && box > 0; pass += 1) {
    for (const along of [1, width * OVER]) {
      const lines = along === 1 ? height * OVER : width * OVER;
      const length = along === 1 ? width * OVER : height * OVER;
      const start = (line: number) => (along === 1 ? line * width * OVER : line);
      const next = new Float32Array(current.length);
      for (let line = 0; line < lines; line += 1) {
        const s = start(line);
        let sum = 0;
        const value = (i: number) => current[s + along * Math.min(length - 1, Math.max(0, i))]!;
        for (let i = -box; i <= box; i += 1) sum += value(i);
        for (let i = 0; i < length; i += 1) {
          next[s + along * i] = sum / (2 * box + 1);
          sum += value(i + box + 1) - value(i - box);
        }
      }
      current = next;
    }
  }
  const out = new Float32Array(width * height);
  for (let j = 0; j < height; j += 1)
    for (let i = 0; i < width; i += 1) {
      let sum = 0;
      for (let b = 0; b < OVER; b += 1)
        for (let a = 0; a < OVER; a += 1) sum += current[(j * OVER + b) * width * OVER + i * OVER + a]!;
      out[j * width + i] = sum / OVER ** 2;
    }
  return out;
}

/** A photographed patch in reflectance with its truth: ragged islands, mottle, brushed metal, haze, melt, stripes. */
export function fakePatch(fake: FakePatch, random: RandomStream): { view: PatchView; share: number } {
  const { pixelsPerMm = 6, size = 12, around = 0, blur = 0.12, mottle = 0.06, brushed = 0.05, haze = 0 } = fake;
  const side = Math.round((size + 2 * around) * pixelsPerMm);
  const fineSide = side * OVER;
  const mm = pixelsPerMm * OVER;
  const noiseOf = (cell: number, cellY = cell) => valueNoise(random, fineSide, fineSide, cell * mm, cellY * mm);
  const coarse = 0.7 + 2.5 * random.next();
  const [big, middle, small] = [noiseOf(coarse), noiseOf(coarse / 3), noiseOf(coarse / 9)];
  const height = big.map((v, i) => v + 0.55 * middle[i]! + 0.3 * small[i]!);
  const rim = Math.round((around + 1) * pixelsPerMm) * OVER;
  const outline = Math.round(around * pixelsPerMm) * OVER;
  const inside = (i: number, j: number, cut: number) =>
    i >= cut && j >= cut && i < fineSide - cut && j < fineSide - cut;
  const inner: number[] = [];
  for (let j = 0; j < fineSide; j += 1)
    for (let i = 0; i < fineSide; i += 1) if (inside(i, j, rim)) inner.push(height[j * fineSide + i]!);
  const sorted = Float32Array.from(inner).sort();
  const limit =
    fake.share <= 0
      ? Infinity
      : fake.share >= 1
        ? -Infinity
        : sorted[Math.floor((1 - fake.share) * (sorted.length - 1))]!;
  const share = inner.filter((v) => v > limit).length / inner.length;

  const grain = noiseOf(0.5, 0.15);
  const [cloud, cloud2] = [noiseOf(1.5), noiseOf(0.5)];
  const thin = noiseOf(0.8);
  const spots = noiseOf(0.45);
  const meltLimit = fake.melted
    ? Float32Array.from(spots).sort()[Math.floor((1 - fake.melted) * spots.length)]!
    : Infinity;
  const wobble = [0, 1, 2, 3].map(() => valueNoise(random, fineSide, 1, 0.4 * mm, 1));
  const channels = [0, 1, 2].map(() => new Float32Array(fineSide * fineSide));
  const { stripes } = fake;
  for (let j = 0; j < fineSide; j += 1)
    for (let i = 0; i < fineSide; i += 1) {
      const k = j * fineSide + i;
      const ragged = (fake.ragged ?? 0) * mm;
      const outside =
        around > 0 &&
        (i < outline + ragged * wobble[0]![j]! ||
          i >= fineSide - outline + ragged * wobble[1]![j]! ||
          j < outline + ragged * wobble[2]![i]! ||
          j >= fineSide - outline + ragged * wobble[3]![i]!);
      const covered = outside || height[k]! > limit;
      const coatTone = 1 + mottle * (0.6 * cloud[k]! + 0.4 * cloud2[k]!);
      let metalTone = 1 + brushed * grain[k]!;
      if (spots[k]! > meltLimit) metalTone *= 1 + (fake.glint ?? 0.6);
      if (stripes) {
        const across = (-Math.sin(stripes.angle) * i + Math.cos(stripes.angle) * j) / mm;
        metalTone *= 1 + stripes.strength * Math.sin((2 * Math.PI * across) / stripes.period);
      }
      const least = fake.film ?? 1;
      const cover = covered ? Math.min(1, Math.max(least, (1 + least) / 2 + 0.5 * (1 - least) * thin[k]!)) : haze;
      for (let c = 0; c < 3; c += 1) {
        const metal = fake.bare[c]! * metalTone * (fake.tint?.[c] ?? 1);
        channels[c]![k] = cover * fake.coat[c]! * coatTone + (1 - cover) * metal + (fake.glare ?? 0);
      }
    }
  const sigma = blur * pixelsPerMm;
  const seen = channels.map((channel) => photograph(channel, side, side, sigma));
  const rgb = new Float32Array(3 * side * side);
  const noise = fake.noise ?? 0.004;
  for (let k = 0; k < side * side; k += 1)
    for (let c = 0; c < 3; c += 1) rgb[3 * k + c] = seen[c]![k]! + noise * random.normal();
  const margin = Math.round(around * pixelsPerMm);
  // What an edge in the picture would show: the boxes as they came out, and the pixel itself.
  const spread = Math.sqrt(((2 * boxOf(sigma) + 1) ** 2 - 1) / 4 / OVER ** 2 + 1 / 12) / pixelsPerMm;
  return { view: { width: side, height: side, rgb, pixelsPerMm, margin, blur: spread }, share };
}

/** Faces as they come: metal and coat in linear sRGB. */
export const pairs = [
  { bare: [0.5, 0.52, 0.54], coat: [0.04, 0.042, 0.046] },
  { bare: [0.36, 0.37, 0.38], coat: [0.8, 0.78, 0.7] },
  { bare: [0.4, 0.4, 0.39], coat: [0.08, 0.17, 0.11] },
  { bare: [0.36, 0.36, 0.36], coat: [0.16, 0.045, 0.03] },
  { bare: [0.52, 0.52, 0.52], coat: [0.16, 0.24, 0.3] },
  { bare: [0.33, 0.33, 0.33], coat: [0.25, 0.06, 0.02] },
] as const;
