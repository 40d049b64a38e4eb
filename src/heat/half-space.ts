import { erfc, erfcx } from "#numerics";
import { requireNonNegative, requirePositive } from "#units";

/** Constant properties of a body: W/(m·K), kg/m³, J/(kg·K). */
export interface Conductor {
  readonly conductivity: number;
  readonly density: number;
  readonly heatCapacity: number;
}

/**
 * D = k/(ρ·c), m²/s. All three above 0. Throws `InvalidInput`. Source: definition.
 */
export function diffusivity(body: Conductor): number {
  return (
    requirePositive("conductivity", body.conductivity, "W/(m·K)") /
    (requirePositive("density", body.density, "kg/m³") *
      requirePositive("heat capacity", body.heatCapacity, "J/(kg·K)"))
  );
}

/**
 * e = √(k·ρ·c), W·√s/(m²·K). All three above 0. Source: definition.
 */
export function effusivity(body: Conductor): number {
  return Math.sqrt(body.conductivity * body.density * body.heatCapacity);
}

/**
 * ierfc(x) = exp(−x²)/√π − x·erfc(x). x ≥ 0, dimensionless; result dimensionless. The scaled form keeps its digits
 * where the two terms nearly cancel. Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed., App. II.
 */
export function ierfc(x: number): number {
  return Math.exp(-x * x) * (1 / Math.sqrt(Math.PI) - x * erfcx(x));
}

/**
 * Rise of a half-space under a constant absorbed flux since t = 0: ΔT = (2q/k)·√(D·t)·ierfc(z/(2√(D·t))).
 * flux q: W/m²; depth z: m, ≥ 0; time t: s, ≥ 0. Result: K. Throws `InvalidInput`.
 * Source: Carslaw & Jaeger, 2nd ed., 2.9.
 */
export function halfSpaceFluxRise(body: Conductor, flux: number, depth: number, time: number): number {
  requireNonNegative("flux", flux, "W/m²");
  requireNonNegative("depth", depth, "m");
  if (requireNonNegative("time", time, "s") === 0) return 0;
  const length = Math.sqrt(diffusivity(body) * time);
  return ((2 * flux * length) / body.conductivity) * ierfc(depth / (2 * length));
}

/**
 * The same for a square pulse that ends at `duration`: ΔT(t) − ΔT(t − τ) after it.
 * flux: W/m²; duration τ, time t: s; depth: m. Result: K. Source: Carslaw & Jaeger, 2nd ed., 2.9 (superposition).
 */
export function halfSpacePulseRise(
  body: Conductor,
  flux: number,
  duration: number,
  depth: number,
  time: number,
): number {
  const heated = halfSpaceFluxRise(body, flux, depth, time);
  return time > duration ? heated - halfSpaceFluxRise(body, flux, depth, time - duration) : heated;
}

/** exp(p)·erfc(q) without overflow, for p ≤ q² + a few. */
function expErfc(p: number, q: number): number {
  return q > 0 ? Math.exp(p - q * q) * erfcx(q) : Math.exp(p) * erfc(q);
}

/**
 * Rise of a half-space that absorbs by Beer-Lambert, heat source I·α·exp(−α·z), insulated surface:
 * ΔT = (2I/k)√(Dt)·ierfc(Z) − (I/(αk))·e^(−αz) + (I/(2αk))·e^(α²Dt)·[e^(−αz)·erfc(α√(Dt) − Z) + e^(αz)·erfc(α√(Dt) + Z)],
 * Z = z/(2√(Dt)). absorption α: 1/m, > 0; flux I: W/m² entering the surface; depth z: m; time t: s. Result: K.
 * Below α²Dt ≈ 1e-3 the terms cancel and about half of the digits are lost. Throws `InvalidInput`.
 * Source: Ready, Effects of High-Power Laser Radiation, 1971; Carslaw & Jaeger, 2nd ed., 2.11.
 */
export function beerLambertRise(
  body: Conductor,
  flux: number,
  absorption: number,
  depth: number,
  time: number,
): number {
  const alpha = requirePositive("absorption", absorption, "1/m");
  const surface = halfSpaceFluxRise(body, flux, depth, time);
  if (time === 0) return 0;
  const length = Math.sqrt(diffusivity(body) * time);
  const z = depth / (2 * length);
  const a = alpha * length;
  const scale = flux / (alpha * body.conductivity);
  const source = -scale * Math.exp(-alpha * depth);
  return (
    surface + source + 0.5 * scale * (expErfc(a * a - alpha * depth, a - z) + expErfc(a * a + alpha * depth, a + z))
  );
}
