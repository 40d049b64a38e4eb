import { minimise1d, normalCdf } from "#numerics";
import type { LightPicture } from "./light-picture.ts";
import type { Edge } from "./marker-edge.ts";

/** px per bin of distance from the edge */
const binSize = 0.25;
/** share of a side at each end that the neighbouring side may blur */
const endShare = 0.14;
/** share of the reach that is used on the dark side: further in, the cells of the marker begin */
const inwards = 0.6;
/** from 10 % to 90 % of a Gaussian edge, in standard deviations */
export const widthInDeviations = 2.5631;

interface Rise {
  /** px outwards of the edge; mean light and number of pixels there */
  readonly s: number;
  readonly light: number;
  readonly count: number;
}

/**
 * Width of an edge between 10 % and 90 % of its rise in linear light, px: the pixels beside it, sorted by their distance
 * from it, give its rise more finely than the pixels stand; a Gaussian edge with free levels on both sides is fitted.
 * half: px looked at on the light side, six tenths of it on the dark side. Range: a sharp edge shows the width of a pixel,
 * 0.7 px to 1 px. Returns null where there is nothing to fit.
 * Source: slanted edge of ISO 12233, its spread function taken for a Gaussian.
 */
export function edgeWidth(picture: LightPicture, edge: Edge, half: number): number | null {
  const rise = riseOf(picture, edge, half);
  if (rise.length < 5) return null;
  const { x } = minimise1d((ln) => misfit(rise, Math.exp(ln)), Math.log(0.1), Math.log(half), {
    tolerance: 1e-3,
  });
  return widthInDeviations * Math.exp(x);
}

function riseOf(picture: LightPicture, edge: Edge, half: number): Rise[] {
  const bins = Math.ceil((1 + inwards) * (half / binSize));
  const [sums, places, counts] = [new Float64Array(bins), new Float64Array(bins), new Float64Array(bins)];
  const ends = [endShare, 1 - endShare].flatMap((share) =>
    [-half, half].map((s) => ({
      u: edge.start.u + share * edge.length * edge.du + s * edge.nu,
      v: edge.start.v + share * edge.length * edge.dv + s * edge.nv,
    })),
  );
  const from = (key: "u" | "v"): number => Math.floor(Math.min(...ends.map((p) => p[key])));
  const to = (key: "u" | "v"): number => Math.ceil(Math.max(...ends.map((p) => p[key])));
  const [top, bottom, left, right] = [from("v"), to("v"), from("u"), to("u")];
  for (let row = top; row < bottom; row += 1) {
    for (let column = left; column < right; column += 1) {
      const u = column + 0.5 - edge.start.u;
      const v = row + 0.5 - edge.start.v;
      const along = (u * edge.du + v * edge.dv) / edge.length;
      const s = u * edge.nu + v * edge.nv;
      const bin = Math.floor((s + inwards * half) / binSize);
      if (along < endShare || along > 1 - endShare || bin < 0 || bin >= bins) continue;
      sums[bin]! += picture.pixel(column, row);
      places[bin]! += s;
      counts[bin]! += 1;
    }
  }
  return Array.from(counts, (count, k) => ({ s: places[k]! / count, light: sums[k]! / count, count })).filter(
    ({ count }) => count > 0,
  );
}

/** Σ of squares that dark + (light − dark)·Φ(s/σ) leaves, levels by weighted least squares. */
function misfit(rise: readonly Rise[], sigma: number): number {
  let [n, mx, my, xx, xy, yy] = [0, 0, 0, 0, 0, 0];
  for (const { s, light, count } of rise) {
    const x = normalCdf(s / sigma);
    n += count;
    mx += count * x;
    my += count * light;
    xx += count * x * x;
    xy += count * x * light;
    yy += count * light * light;
  }
  const [sxx, sxy, syy] = [xx - (mx * mx) / n, xy - (mx * my) / n, yy - (my * my) / n];
  return sxx > 0 ? syy - (sxy * sxy) / sxx : syy;
}
