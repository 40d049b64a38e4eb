import { findRoot } from "#numerics";
import { requireNonNegative, requirePositive } from "#units";
import { ierfc } from "./half-space.ts";

/** One sweep of a whole face of a plate by a continuous beam. SI. */
export interface BowCase {
  /** m */
  readonly plateThickness: number;
  /** K, largest rise of the metal's face */
  readonly peakRise: number;
  /** s, spot diameter over speed */
  readonly dwell: number;
  /** m²/s */
  readonly diffusivity: number;
  /** 1/K */
  readonly expansion: number;
  /** Pa */
  readonly youngsModulus: number;
  readonly poissonRatio: number;
  /** Pa, at room temperature */
  readonly yieldStrength: number;
}

/** Lasting curvature (1/m; positive: edges rise towards the beam), or why none is told. */
export type Bow =
  | { readonly curvature: number; readonly low: number; readonly high: number; readonly reason: null }
  | { readonly curvature: null; readonly low: null; readonly high: null; readonly reason: string };

const untold = (reason: string): Bow => ({
  curvature: null,
  low: null,
  high: null,
  reason: `${reason}: observed only, never predicted`,
});

/**
 * Rise at which a heated skin that cannot expand begins to yield: σ_y·(1 − ν)/(E·α).
 * Units: yieldStrength, youngsModulus Pa, poissonRatio 1, expansion 1/K; result K.
 * Range: cold, stiff surroundings. Errors: InvalidInput for arguments that are not positive.
 * Source: Timoshenko and Goodier, Theory of Elasticity, biaxial thermal stress.
 */
export function yieldRise(
  yieldStrength: number,
  youngsModulus: number,
  poissonRatio: number,
  expansion: number,
): number {
  requirePositive("yield strength", yieldStrength, "Pa");
  requirePositive("Young's modulus", youngsModulus, "Pa");
  requirePositive("expansion", expansion, "1/K");
  return (yieldStrength * (1 - requireNonNegative("Poisson's ratio", poissonRatio))) / (youngsModulus * expansion);
}

/**
 * Passing curvature of a plate while the heat of a sweep is still at its face (edges fall away from the beam); it goes
 * back as the heat spreads through the plate.
 *
 * Equation: 6·α·Q/(ρc·s²), from 12/s³·∫α·ΔT·(s/2 − z) dz with all heat at the face.
 * Units: absorbed Q J/m², expansion 1/K, volumetricHeat ρc J/(m³·K), plateThickness s m; result 1/m, magnitude.
 * Range: free, elastic plate. Errors: InvalidInput for arguments that are not positive.
 * Source: Timoshenko and Goodier, Theory of Elasticity, thermal moment of a free plate.
 */
export function heatingCurvature(
  absorbed: number,
  expansion: number,
  volumetricHeat: number,
  plateThickness: number,
): number {
  requireNonNegative("absorbed heat", absorbed, "J/m2");
  requirePositive("expansion", expansion, "1/K");
  requirePositive("volumetric heat", volumetricHeat, "J/(m3 K)");
  return (6 * expansion * absorbed) / (volumetricHeat * requirePositive("plate thickness", plateThickness, "m") ** 2);
}

/**
 * Bending angle of one line on thin sheet by the temperature gradient mechanism.
 *
 * Equation: θ = 3·α·(A·P/v)/(ρc·s²).
 * Units: absorbedLineEnergy A·P/v J/m, expansion 1/K, volumetricHeat J/(m³·K), plateThickness m; result rad, to the beam.
 * Range: face hot enough to yield, heat not through the sheet, spot not above its thickness; overstates by up to 3, as it
 * leaves out the cold side's resistance. Errors: InvalidInput for arguments that are not positive.
 * Source: Vollertsen 1994, from memory.
 */
export function gradientBendAngle(
  absorbedLineEnergy: number,
  expansion: number,
  volumetricHeat: number,
  plateThickness: number,
): number {
  return heatingCurvature(absorbedLineEnergy, expansion, volumetricHeat, plateThickness) / 2;
}

/** Share of the plate that may be hot for the formula to hold (own choice). */
const SKIN_SHARE = 1 / 3;
/** Shorter events heat a skin of micrometres whose stress is not that of thermal upsetting alone. */
const SHORTEST = 1e-5;

/**
 * Lasting bow of a plate swept all over on one face by a continuous beam: the skin that yielded while hot is too short
 * when cold and pulls the edges up.
 *
 * Equation: κ = (6/s³)·∫₀^h ε(z)·(s − 2z) dz, ε = min(α·(ΔT(z) − ΔT_y), σ_y(1 − ν)/E) (stretched back at yield),
 * ΔT(z) = ΔT·√π·ierfc(z/√(4κ_d·t)), ΔT_y = `yieldRise`, h where ΔT(z) = ΔT_y; further passes add nothing, the skin is at yield.
 * Units: see `BowCase`; result 1/m with a range of a third to twice (own prior: hardening, softening, clamping).
 * Range: heat within the upper third of the plate, events from 10 µs. 0 where nothing yields: it springs back.
 * Else null with the reason: grade 4 (distorted) is then observed only.
 * Errors: InvalidInput for arguments that are not positive.
 * Source: eigenstrain in a free plate (Timoshenko and Goodier); own derivation. A prior, not checked against parts.
 */
export function bowOfSweep(sweep: BowCase): Bow {
  const thickness = requirePositive("plate thickness", sweep.plateThickness, "m");
  requireNonNegative("peak rise", sweep.peakRise, "K");
  const dwell = requirePositive("dwell", sweep.dwell, "s");
  const length = Math.sqrt(4 * requirePositive("diffusivity", sweep.diffusivity, "m2/s") * dwell);
  const first = yieldRise(sweep.yieldStrength, sweep.youngsModulus, sweep.poissonRatio, sweep.expansion);
  if (dwell < SHORTEST) return untold("heating of a few micrometres by a short pulse");
  if (sweep.peakRise <= first && length <= thickness) return { curvature: 0, low: 0, high: 0, reason: null };
  if (length > SKIN_SHARE * thickness) return untold("heat reaches through the plate, which may buckle either way");
  const rise = (z: number) => sweep.peakRise * Math.sqrt(Math.PI) * ierfc(z / length);
  const depth = findRoot((z) => rise(z) - first, 0, 6 * length, { tolerance: 1e-6 * length });
  const most = first * sweep.expansion;
  // Even steps with mid-points: 1e-4 of the result, far within its range.
  const steps = 200;
  let moment = 0;
  for (let i = 0; i < steps; i++) {
    const z = ((i + 0.5) * depth) / steps;
    moment += (Math.min(sweep.expansion * (rise(z) - first), most) * (thickness - 2 * z) * depth) / steps;
  }
  const curvature = (6 * moment) / thickness ** 3;
  return { curvature, low: curvature / 3, high: 2 * curvature, reason: null };
}

/**
 * Rise of the middle of a bowed plate over a straight edge: κ·L²/8.
 * Units: curvature 1/m, length m; result m. Range: shallow bows. Errors: none. Source: geometry of an arc.
 */
export function bowHeight(curvature: number, length: number): number {
  return (curvature * length * length) / 8;
}
