import { requireInRange, requireNonNegative, requirePositive } from "#units";
import { type Conductor, diffusivity, effusivity, ierfc } from "./half-space.ts";

/**
 * Rise of a slab with insulated back by its cosine series, good at late times:
 * ΔT = q·l/k·[Fo + (3ξ² − 1)/6 − (2/π²)·Σ (−1)^n/n²·exp(−n²π²Fo)·cos(nπξ)], ξ = (l − z)/l, Fo = D·t/l².
 * flux q: W/m²; thickness l, depth z from the heated face: m; time t: s, > 0. Result: K.
 * Source: Carslaw & Jaeger, 2nd ed., 3.8.
 */
export function slabRiseCosine(body: Conductor, flux: number, thickness: number, depth: number, time: number): number {
  const fourier = (diffusivity(body) * time) / (thickness * thickness);
  const xi = (thickness - depth) / thickness;
  let sum = 0;
  for (let n = 1; n < 100_000; n++) {
    const decay = Math.exp(-n * n * Math.PI * Math.PI * fourier) / (n * n);
    sum += (n % 2 === 0 ? decay : -decay) * Math.cos(n * Math.PI * xi);
    if (decay < 1e-17) break;
  }
  return ((flux * thickness) / body.conductivity) * (fourier + (3 * xi * xi - 1) / 6 - (2 / Math.PI ** 2) * sum);
}

/**
 * The same by images of the heated face, good at early times:
 * ΔT = (2q/k)·√(Dt)·Σ_{n≥0} [ierfc((2nl + z)/(2√(Dt))) + ierfc((2(n+1)l − z)/(2√(Dt)))].
 * Arguments and result as in `slabRiseCosine`. Source: Carslaw & Jaeger, 2nd ed., 3.8.
 */
export function slabRiseImages(body: Conductor, flux: number, thickness: number, depth: number, time: number): number {
  const length = Math.sqrt(diffusivity(body) * time);
  let sum = 0;
  for (let n = 0; n < 100_000; n++) {
    const near = ierfc((2 * n * thickness + depth) / (2 * length));
    sum += near + ierfc((2 * (n + 1) * thickness - depth) / (2 * length));
    if (near < 1e-17 * sum) break;
  }
  return ((2 * flux * length) / body.conductivity) * sum;
}

/**
 * Rise of a slab heated by a constant absorbed flux on one face, the other insulated, by the series that converges
 * fast. flux: W/m²; thickness: m; depth: m, 0 to the thickness; time: s, ≥ 0. Result: K. Throws `InvalidInput`.
 * Source: Carslaw & Jaeger, 2nd ed., 3.8.
 */
export function slabFluxRise(body: Conductor, flux: number, thickness: number, depth: number, time: number): number {
  requireNonNegative("flux", flux, "W/m²");
  requirePositive("thickness", thickness, "m");
  requireInRange("depth", depth, "m", 0, thickness);
  if (requireNonNegative("time", time, "s") === 0) return 0;
  const early = diffusivity(body) * time < 0.3 * thickness * thickness;
  return (early ? slabRiseImages : slabRiseCosine)(body, flux, thickness, depth, time);
}

/**
 * Rise inside a film on a thick substrate, constant flux absorbed at the outer face:
 * ΔT = (2q/k₁)·√(D₁t)·{ierfc(z/s) + Σ_{n≥1} Γⁿ·[ierfc((2nL − z)/s) + ierfc((2nL + z)/s)]}, s = 2√(D₁t),
 * Γ = (e₁ − e₂)/(e₁ + e₂) with effusivities e = √(kρc); perfect contact. z = L is the interface.
 * flux q: W/m²; thickness L: m; depth z: m, 0 to L; time t: s, ≥ 0. Result: K. Throws `InvalidInput`.
 * Source: Carslaw & Jaeger, 2nd ed., 12.8 (image series).
 */
export function filmOnSubstrateRise(
  film: Conductor,
  substrate: Conductor,
  flux: number,
  thickness: number,
  depth: number,
  time: number,
): number {
  requireNonNegative("flux", flux, "W/m²");
  requirePositive("thickness", thickness, "m");
  requireInRange("depth", depth, "m", 0, thickness);
  if (requireNonNegative("time", time, "s") === 0) return 0;
  const length = Math.sqrt(diffusivity(film) * time);
  diffusivity(substrate);
  const mirror = (effusivity(film) - effusivity(substrate)) / (effusivity(film) + effusivity(substrate));
  let sum = ierfc(depth / (2 * length));
  let factor = 1;
  for (let n = 1; n < 100_000; n++) {
    factor *= mirror;
    const near = ierfc((2 * n * thickness - depth) / (2 * length));
    sum += factor * (near + ierfc((2 * n * thickness + depth) / (2 * length)));
    if (Math.abs(factor) * near < 1e-16 * sum) break;
  }
  return ((2 * flux * length) / film.conductivity) * sum;
}
