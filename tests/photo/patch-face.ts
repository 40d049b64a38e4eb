import { raggedField, type Field } from "./noise.ts";
import type { PatchDraw, PhotoPatch } from "./plate-spec.ts";
import type { Rgb } from "./colours.ts";

/** Reflectance at a place: red, green, blue, then hiding by residue, then share of melt. */
export type Face = Float64Array;
export const faceLength = 5;
export type PaintFace = (x: number, y: number, out: Face) => void;

/** field units over which residue thins out at its edge; about 0.05 mm for islands of 1 mm */
const edge = 0.1;
/** a field of standard deviation 1 that is 1 in `share` of the area: the level to compare with */
function levelOf(field: Field, patch: PhotoPatch, share: number): number {
  if (share <= 0) return Number.POSITIVE_INFINITY;
  if (share >= 1) return Number.NEGATIVE_INFINITY;
  const n = 128;
  const values = new Float64Array(n * n);
  for (let j = 0; j < n; j++)
    for (let i = 0; i < n; i++)
      values[j * n + i] = field(patch.x + ((i + 0.5) / n) * patch.width, patch.y + ((j + 0.5) / n) * patch.height);
  values.sort();
  return values[Math.min(n * n - 1, Math.floor((1 - share) * n * n))]!;
}

/** Residue, haze, tint, mottle, stripes and melt of one patch over the same metal and under the same coat. */
export function patchFace(patch: PhotoPatch, d: PatchDraw, metal: Rgb, coat: Rgb, base: Field, at: number): PaintFace {
  const ragged = raggedField(base);
  const [c, s] = [Math.cos(d.angle), Math.sin(d.angle)];
  const along = 1 / (d.island * d.stretch);
  const across = 1 / d.island;
  const k = d.stripes === null ? 0 : (2 * Math.PI) / d.stripes.spacing;
  const [kx, ky] = d.stripes === null ? [0, 0] : [k * Math.cos(d.stripes.angle), k * Math.sin(d.stripes.angle)];
  const [depth, shade] = [d.stripes?.depth ?? 0, d.stripes?.shade ?? 0];
  const wave = (x: number, y: number): number => (k === 0 ? 0 : Math.cos(kx * x + ky * y + at));
  const residueField: Field = (x, y) =>
    ragged(along * (c * x + s * y) + at, across * (c * y - s * x) - 2 * at) + depth * wave(x, y);
  const meltField: Field = (x, y) => base(250 * x - at, 250 * y + 3 * at);
  const level = levelOf(residueField, patch, d.residue);
  const meltLevel = levelOf(meltField, patch, d.melt);
  const hidden: Rgb = [0, 1, 2].map((i) => d.haze * coat[i]!) as unknown as Rgb;
  const bare: Rgb = [0, 1, 2].map((i) => (1 - d.haze) * metal[i]! * d.tint[i]!) as unknown as Rgb;

  const thinned = (x: number, y: number): number => {
    const thick = 0.5 + 0.4 * ragged(900 * (c * x + s * y) + at, 900 * (c * y - s * x));
    return d.film + (1 - d.film) * (thick < 0 ? 0 : thick > 1 ? 1 : thick);
  };

  return (x, y, out) => {
    let hiding = d.residue >= 1 ? 1 : 0;
    if (Number.isFinite(level)) {
      const over = (residueField(x, y) - level) / edge + 0.5;
      hiding = over <= 0 ? 0 : over >= 1 ? 1 : over;
    }
    if (hiding > 0 && d.film < 1) hiding *= thinned(x, y);
    let melt = 0;
    let tone = 1;
    if (hiding < 1) {
      const blotch =
        0.8 * base(x / d.blotch + at, y / d.blotch) + 0.6 * base((3.7 * x) / d.blotch, (3.7 * y) / d.blotch - at);
      tone += d.mottle * blotch + shade * wave(x, y);
      if (meltLevel !== Number.POSITIVE_INFINITY && meltField(x, y) > meltLevel) {
        melt = 1;
        const spark = base(5200 * x + at, 5200 * y - at) - 1.1;
        if (spark > 0) tone += d.glint * Math.min(1, spark / 0.9);
      }
      if (tone < 0.3) tone = 0.3;
    }
    const film = 1 + 0.015 * base(1500 * x, 1500 * y);
    const bareShare = (1 - hiding) * tone;
    out[0] = bareShare * bare[0] + (1 - hiding) * hidden[0] + hiding * film * coat[0];
    out[1] = bareShare * bare[1] + (1 - hiding) * hidden[1] + hiding * film * coat[1];
    out[2] = bareShare * bare[2] + (1 - hiding) * hidden[2] + hiding * film * coat[2];
    out[3] = hiding;
    out[4] = melt;
  };
}
