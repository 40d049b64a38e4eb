import type { Metre, Ratio } from "#terms";
import { requireNonNegative, requirePositive } from "#units";

/** Complex refractive index n + i·k (time factor e^(−iωt)). */
export interface ComplexIndex {
  /** above 0 */
  readonly n: number;
  /** 0 or more */
  readonly k: number;
}

/**
 * Index of a fine mixture, by volume share of the squares (light does not resolve the grains).
 *
 * Equation: N² = Σ s_i·N_i².
 * Units: indices and shares 1; shares add up to 1; result 1. Range: grains far smaller than the wavelength.
 * Errors: none. Source: linear mixing of permittivity (upper Wiener bound), Born and Wolf.
 */
export function mixedIndex(parts: readonly { readonly index: ComplexIndex; readonly share: Ratio }[]): ComplexIndex {
  let real = 0;
  let imaginary = 0;
  for (const { index, share } of parts) {
    real += share * (index.n * index.n - index.k * index.k);
    imaginary += share * 2 * index.n * index.k;
  }
  const size = Math.hypot(real, imaginary);
  return { n: Math.sqrt((size + real) / 2), k: Math.sqrt(Math.max(0, (size - real) / 2)) };
}

/** (a − b)/(a + b) as real and imaginary part: amplitude reflected where light passes from a to b. */
function amplitude(a: ComplexIndex, b: ComplexIndex): readonly [number, number] {
  const [dn, dk, sn, sk] = [a.n - b.n, a.k - b.k, a.n + b.n, a.k + b.k];
  const size = sn * sn + sk * sk;
  return [(dn * sn + dk * sk) / size, (dk * sn - dn * sk) / size];
}

const AIR: ComplexIndex = { n: 1, k: 0 };

/**
 * Reflectance of a thin film on a thick metal in air at normal incidence, every internal reflection summed (Airy).
 *
 * Equation: r = (r₁ + r₂·e^(2iβ))/(1 + r₁·r₂·e^(2iβ)), β = 2π·N·d/λ, r₁ = (1 − N)/(1 + N), r₂ = (N − N_m)/(N + N_m); R = |r|².
 * Units: film and metal complex indices, thickness m, wavelength m in vacuum; result share.
 * Range: smooth faces, film thinner than the coherence length (micrometres in daylight). A rough surface keeps the hue
 * and loses gloss.
 * Errors: InvalidInput for a negative thickness, an n or wavelength that is not positive, a negative k.
 * Source: Airy summation, Born and Wolf, Principles of Optics.
 */
export function filmReflectance(film: ComplexIndex, metal: ComplexIndex, thickness: Metre, wavelength: Metre): Ratio {
  requireNonNegative("film thickness", thickness, "m");
  requirePositive("wavelength", wavelength, "m");
  for (const index of [film, metal]) {
    requirePositive("refractive index", index.n);
    requireNonNegative("extinction coefficient", index.k);
  }
  const [r1, i1] = amplitude(AIR, film);
  const [r2, i2] = amplitude(film, metal);
  const turn = (4 * Math.PI * thickness) / wavelength;
  const decay = Math.exp(-turn * film.k);
  const [c, s] = [decay * Math.cos(turn * film.n), decay * Math.sin(turn * film.n)];
  const [back, backI] = [r2 * c - i2 * s, r2 * s + i2 * c];
  const [below, belowI] = [1 + r1 * back - i1 * backI, r1 * backI + i1 * back];
  return ((r1 + back) ** 2 + (i1 + backI) ** 2) / (below * below + belowI * belowI);
}
