import { cholesky, solveCholesky } from "#numerics";
import type { Reference } from "./reference.ts";
import type { PatchView } from "./view.ts";

/** Part of the metric that does not know the scatter of the references: keeps it from trusting a tiny scatter. */
const EVEN = 0.1;

/**
 * Place of every pixel between the bare (0) and the coated reference (1), along the line between their colours in linear
 * light, where areas mix in proportion.
 *
 * Equation: u = (p − b)ᵀW(c − b)/((c − b)ᵀW(c − b)); W the inverse of the references' pooled scatter plus a tenth of its
 * mean on the diagonal, so that brightness, in which metal and coat are mottled, counts less where colour tells.
 * Units: reflectance in linear sRGB; result 1, beyond 0 and 1 where a pixel is. Errors: none for references that differ.
 * Source: Fisher, Ann. Eugen. 7 (1936) 179 for the direction; mixing in linear light.
 */
export function unmix(view: PatchView, bare: Reference, coat: Reference): Float32Array {
  const [direction, length] = colourLine(bare, coat);
  const [wr, wg, wb] = [direction[0]!, direction[1]!, direction[2]!];
  const zero = (wr * bare.rgb[0] + wg * bare.rgb[1] + wb * bare.rgb[2]) / length;
  const { rgb } = view;
  const u = new Float32Array(rgb.length / 3);
  const [r, g, b] = [wr / length, wg / length, wb / length];
  for (let i = 0, k = 0; i < u.length; i += 1, k += 3) u[i] = r * rgb[k]! + g * rgb[k + 1]! + b * rgb[k + 2]! - zero;
  return u;
}

/** Direction W(c − b) and (c − b)ᵀW(c − b). */
function colourLine(bare: Reference, coat: Reference): [Float64Array, number] {
  const pooled = Float64Array.from(bare.scatter, (v, i) => (v + coat.scatter[i]!) / 2);
  const even = (EVEN * (pooled[0]! + pooled[4]! + pooled[8]!)) / 3 + 1e-7;
  for (const i of [0, 4, 8]) pooled[i]! += even;
  const apart = [0, 1, 2].map((c) => coat.rgb[c]! - bare.rgb[c]!);
  const direction = solveCholesky(cholesky(pooled, 3), 3, apart);
  return [direction, apart.reduce((sum, v, c) => sum + v * direction[c]!, 0)];
}

/** Standard deviation of u over the bare reference itself, from its scatter. Units 1. Errors: none. */
export function bareScatter(bare: Reference, coat: Reference): number {
  const [w, length] = colourLine(bare, coat);
  let square = 0;
  for (let a = 0; a < 3; a += 1) for (let b = 0; b < 3; b += 1) square += w[a]! * bare.scatter[3 * a + b]! * w[b]!;
  return Math.sqrt(Math.max(0, square)) / length;
}
