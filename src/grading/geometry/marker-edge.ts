import { median } from "#numerics";
import type { PixelPoint } from "./found-marker.ts";
import type { LightPicture } from "./light-picture.ts";

/** A straight edge: from `start` along the unit vector (du, dv); dark on one side, light on the side of (nu, nv). */
export interface Edge {
  readonly start: PixelPoint;
  readonly du: number;
  readonly dv: number;
  readonly nu: number;
  readonly nv: number;
  /** px */
  readonly length: number;
  /** linear light on the two sides */
  readonly dark: number;
  readonly light: number;
}

/** share of a side at each end that the neighbouring side may blur */
const endShare = 0.14;
/** share of a profile at each end that shows plain dark and plain light */
const plainShare = 0.22;
/** px between samples along a profile */
const fineness = 0.25;
/** least difference in linear light between dark and light that counts as an edge */
const leastContrast = 0.01;

interface Station {
  /** px along the edge */
  readonly along: number;
  /** px that the edge lies outwards of the line it was looked for */
  readonly off: number;
  readonly dark: number;
  readonly light: number;
}

/**
 * Where the edge crosses a profile of half length h: ∫(light − I) ds / (light − dark) − h, s outwards. Right for every
 * blur that is the same on both sides, pixels included, as long as I is linear in light.
 */
function crossing(
  picture: LightPicture,
  u: number,
  v: number,
  edge: Edge,
  half: number,
): Omit<Station, "along"> | null {
  const n = Math.max(12, Math.ceil((2 * half) / fineness));
  const step = (2 * half) / n;
  const plain = Math.max(2, Math.round(plainShare * n));
  let sum = 0;
  let dark = 0;
  let light = 0;
  for (let k = 0; k < n; k += 1) {
    const s = -half + (k + 0.5) * step;
    const value = picture.at(u + s * edge.nu, v + s * edge.nv);
    sum += value;
    if (k < plain) dark += value;
    if (k >= n - plain) light += value;
  }
  dark /= plain;
  light /= plain;
  if (!(light - dark > leastContrast)) return null;
  const off = ((n * light - sum) * step) / (light - dark) - half;
  return Math.abs(off) < half ? { off, dark, light } : null;
}

function stations(picture: LightPicture, edge: Edge, half: number): Station[] {
  const count = Math.min(64, Math.max(12, Math.round(edge.length)));
  const found: Station[] = [];
  for (let k = 0; k < count; k += 1) {
    const along = edge.length * (endShare + ((1 - 2 * endShare) * (k + 0.5)) / count);
    const at = crossing(picture, edge.start.u + along * edge.du, edge.start.v + along * edge.dv, edge, half);
    if (at !== null) found.push({ along, ...at });
  }
  if (found.length < count / 2) return [];
  const usual = median(found.map((s) => s.light - s.dark));
  const kept = found.filter((s) => s.light - s.dark > usual / 2);
  return kept.length >= count / 2 ? kept : [];
}

/** off = a + b·along by least squares, thrice, each time without what lies further off than three usual deviations. */
function straight(found: readonly Station[]): { readonly a: number; readonly b: number } | null {
  let kept = found;
  let line = { a: 0, b: 0 };
  for (let turn = 0; turn < 3; turn += 1) {
    const n = kept.length;
    if (n < 6) return null;
    const mx = kept.reduce((sum, s) => sum + s.along, 0) / n;
    const my = kept.reduce((sum, s) => sum + s.off, 0) / n;
    const b =
      kept.reduce((sum, s) => sum + (s.along - mx) * (s.off - my), 0) /
      kept.reduce((sum, s) => sum + (s.along - mx) ** 2, 0);
    line = { a: my - b * mx, b };
    const misses = kept.map((s) => Math.abs(s.off - line.a - line.b * s.along));
    const limit = Math.max(0.05, 3 * 1.4826 * median(misses));
    kept = kept.filter((_, i) => misses[i]! <= limit);
  }
  return line;
}

/**
 * The edge moved to where the light says it lies. half: px that profiles reach to either side, less than a marker cell.
 * Returns null where too little of it shows (covered, glare, no contrast). Source: moment-preserving edge location after
 * Tabatabai and Mitchell, IEEE Trans. PAMI 6 (1984) 188, first moment.
 */
export function refineEdge(picture: LightPicture, edge: Edge, half: number): Edge | null {
  const found = stations(picture, edge, half);
  if (found.length === 0) return null;
  const line = straight(found);
  if (line === null) return null;
  const size = Math.hypot(1, line.b);
  return {
    ...edge,
    start: { u: edge.start.u + line.a * edge.nu, v: edge.start.v + line.a * edge.nv },
    du: (edge.du + line.b * edge.nu) / size,
    dv: (edge.dv + line.b * edge.nv) / size,
    nu: (edge.nu - line.b * edge.du) / size,
    nv: (edge.nv - line.b * edge.dv) / size,
    dark: median(found.map((s) => s.dark)),
    light: median(found.map((s) => s.light)),
  };
}

/** Where two edges meet; null when they run side by side. */
export function meeting(a: Edge, b: Edge): PixelPoint | null {
  const cross = a.du * b.dv - a.dv * b.du;
  if (Math.abs(cross) < 0.1) return null;
  const t = ((b.start.u - a.start.u) * b.dv - (b.start.v - a.start.v) * b.du) / cross;
  return { u: a.start.u + t * a.du, v: a.start.v + t * a.dv };
}
