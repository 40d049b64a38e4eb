import type { RandomStream } from "#numerics";
import type { Rgb } from "./colours.ts";
import type { PatchDraw, PhotoPatch } from "./plate-spec.ts";
import { ranges, residueClasses, shares } from "./ranges.ts";

/** A number between the ends of a stated range. */
export function draw(random: RandomStream, name: keyof typeof ranges): number {
  const { low, high } = ranges[name];
  return low + (high - low) * random.next();
}

const tints: readonly Rgb[] = [
  [0.25, 0.45, 1], // straw: blue goes first
  [1, 0.55, 0.2], // blue: red goes first
  [0.85, 0.9, 1], // grey oxide
];

function drawResidue(random: RandomStream): number {
  let pick = random.next();
  for (const { share, low, high } of residueClasses) {
    if (pick < share) return low + (high - low) * random.next();
    pick -= share;
  }
  return 1;
}

/** Every number is drawn whatever is said, so that saying one leaves the others as they were. */
export function drawPatch(random: RandomStream, patch: PhotoPatch, mottle: number): PatchDraw {
  const there = (name: keyof typeof shares): boolean => random.next() < shares[name].share;
  const residue = drawResidue(random);
  const island = 1e-3 * draw(random, "island");
  const [stretch, angle] = [1 + 2 * random.next(), Math.PI * random.next()];
  const [filmed, film] = [there("film"), draw(random, "film")];
  const [hazed, haze] = [there("haze"), draw(random, "haze")];
  const blotch = 1e-3 * (0.4 + 3 * random.next());
  const strength = draw(random, "tint");
  const absorbed = tints[random.integer(tints.length)]!;
  const tint = absorbed.map((a) => 1 - strength * a) as unknown as Rgb;
  const tinted = there("tint");
  const melted = there("melt");
  const melt = 0.15 + 0.85 * random.next();
  const glint = draw(random, "meltGlint");
  const striped = there("stripes");
  const stripes = {
    spacing: 1e-3 * draw(random, "stripeSpacing"),
    angle: (random.next() < 0.5 ? 0 : Math.PI / 2) + 0.08 * random.normal(),
    depth: 1.6 * random.next(),
    shade: draw(random, "stripeShade"),
  };
  const plain: PatchDraw = {
    residue: patch.role === "untouched" ? 1 : 0,
    island,
    stretch,
    angle,
    film: 1,
    haze: 0,
    mottle,
    blotch,
    tint: [1, 1, 1],
    melt: 0,
    glint: 0,
    stripes: null,
  };
  if (patch.role === "untouched" || patch.role === "cleaned-reference") return plain;
  return {
    ...plain,
    residue,
    film: filmed ? film : 1,
    haze: hazed ? haze : 0,
    tint: tinted ? tint : plain.tint,
    melt: melted ? melt : 0,
    glint: melted ? glint : 0,
    stripes: striped ? stripes : null,
  };
}
