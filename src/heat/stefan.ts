import { erf, erfcx, findRoot } from "#numerics";
import { invalid, requireNonNegative, requirePositive } from "#units";
import { type Conductor, diffusivity } from "./half-space.ts";

/**
 * One-phase Stefan problem, body at its melting temperature: √π·λ·exp(λ²)·erf(λ) = St; front at 2λ√(D·t).
 * stefanNumber St = c·ΔT/L, dimensionless, 0 < St ≤ 1e6. Result: λ, dimensionless. Throws `InvalidInput`.
 * Source: Carslaw & Jaeger, 2nd ed., 11.2 (Neumann).
 */
export function stefanOnePhase(stefanNumber: number): number {
  const st = requirePositive("Stefan number", stefanNumber);
  if (st > 1e6) invalid("Stefan number", st, "", "must be at most 1e6");
  return findRoot((x) => Math.sqrt(Math.PI) * x * Math.exp(x * x) * erf(x) - st, 0, 5, { tolerance: 1e-14 });
}

/** A melt that freezes from a wall held at constant temperature; one density for both phases. */
export interface TwoPhaseFreezing {
  readonly solid: Conductor;
  readonly liquid: Conductor;
  /** J/kg */
  readonly latentHeat: number;
  /** K */
  readonly meltingTemperature: number;
  readonly wallTemperature: number;
  readonly startTemperature: number;
}

/**
 * Two-phase Stefan problem: exp(−λ²)/erf(λ) − (k_l/k_s)·√(D_s/D_l)·(T₀ − T_m)/(T_m − T_w)·exp(−λ²ν²)/erfc(λν)
 * = √π·λ·L/(c_s·(T_m − T_w)), ν = √(D_s/D_l). Temperatures: K, wall < melting ≤ start. Result: λ, dimensionless.
 * Throws `InvalidInput`. Source: Carslaw & Jaeger, 2nd ed., 11.2 (Neumann).
 */
export function stefanTwoPhase(problem: TwoPhaseFreezing): number {
  const { solid, liquid, latentHeat, meltingTemperature: melt } = problem;
  const cold = melt - problem.wallTemperature;
  const hot = problem.startTemperature - melt;
  requirePositive("latent heat", latentHeat, "J/kg");
  if (!(cold > 0)) invalid("wall temperature", problem.wallTemperature, "K", "must be below the melting temperature");
  if (!(hot >= 0))
    invalid("start temperature", problem.startTemperature, "K", "must be at least the melting temperature");
  const ratio = Math.sqrt(diffusivity(solid) / diffusivity(liquid));
  const balance = (x: number): number =>
    Math.exp(-x * x) / erf(x) -
    ((liquid.conductivity / solid.conductivity) * ratio * (hot / cold)) / erfcx(x * ratio) -
    (Math.sqrt(Math.PI) * x * latentHeat) / (solid.heatCapacity * cold);
  return findRoot(balance, 1e-9, 5, { tolerance: 1e-14 });
}

/**
 * Depth of a Stefan front, 2λ√(D·t), m. lambda: dimensionless; diffusivity D: m²/s; time t: s, ≥ 0.
 * Source: Carslaw & Jaeger, 2nd ed., 11.2.
 */
export function stefanFront(lambda: number, frontDiffusivity: number, time: number): number {
  return (
    2 *
    lambda *
    Math.sqrt(requirePositive("diffusivity", frontDiffusivity, "m²/s") * requireNonNegative("time", time, "s"))
  );
}
