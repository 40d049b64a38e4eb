import { monotoneCubic } from "#numerics";
import { requireNonNegative, requirePositive } from "#units";
import { fastBeamConstant, movingGaussianShapeMaximum } from "./gaussian-source.ts";

/** From the shape integral of the moving Gaussian to P/(k·w), see `movingGaussianShape`. */
const SHAPE_FACTOR = 4 / (Math.PI ** 1.5 * Math.SQRT2 * 2);
const POINTS = 41;
const LN_LOW = Math.log(1e-4);
const LN_HIGH = Math.log(1e4);

/** ln Péclet numbers and factors of the moving beam, worked out once from the exact integral. */
interface MovingTable {
  readonly ln: Float64Array;
  readonly factor: Float64Array;
}

/**
 * Tabulates max rise of a moving Gaussian beam over what it would be if heat flowed straight down,
 * L(Pe) = shapeMaximum(Pe)·factor·√Pe/0.650076, at evenly spaced ln Pe.
 */
export function movingLateralTable(): MovingTable {
  const ln = new Float64Array(POINTS);
  const factor = new Float64Array(POINTS);
  for (let i = 0; i < POINTS; i++) {
    ln[i] = LN_LOW + ((LN_HIGH - LN_LOW) * i) / (POINTS - 1);
    const peclet = Math.exp(ln[i]);
    factor[i] = Math.min(1, (SHAPE_FACTOR * movingGaussianShapeMaximum(peclet) * Math.sqrt(peclet)) / fastBeamConstant);
  }
  return { ln, factor };
}

export interface LateralCase {
  /** s, length of the pulse or burst; for a moving beam its passing time (not used then) */
  readonly duration: number;
  /** m, 1/e² radius */
  readonly radius: number;
  /** m²/s of the metal */
  readonly diffusivity: number;
  /** m/s; 0 for a pulse that stands still while it lasts */
  readonly speed: number;
}

/**
 * Maker of `lateralFactor`: highest surface rise of a Gaussian beam on a half-space over the rise of a
 * one-dimensional column lit by the same irradiance history at the beam's middle; 1 for short events, falling as heat
 * spreads sideways.
 *
 * Equation: standing pulse L = atan(x)/x, x = √(8·D·t)/w; moving beam L(Pe), Pe = v·w/D, from the exact integral.
 * Units: see `LateralCase`; result 1. Range: any; a thick plate is assumed.
 * Errors: `InvalidInput` for values that are not positive.
 * Source: Ready 1971 (standing); Cline and Anthony 1977 (moving), both over Carslaw and Jaeger 1959, 2.9.
 */
export function lateralFactorFrom(table: MovingTable): (c: LateralCase) => number {
  // The logarithm runs straight at slow speed and flat at high speed, so a cubic through it is exact to 2e-4.
  const lnFactor = monotoneCubic(table.ln, table.factor.map(Math.log));
  return ({ duration, radius, diffusivity, speed }) => {
    requirePositive("radius", radius, "m");
    requirePositive("diffusivity", diffusivity, "m²/s");
    if (requireNonNegative("speed", speed, "m/s") === 0) {
      const x = Math.sqrt(8 * diffusivity * requirePositive("duration", duration, "s")) / radius;
      return x < 1e-4 ? 1 : Math.atan(x) / x;
    }
    const ln = Math.log((speed * radius) / diffusivity);
    // Below the table the peak no longer depends on speed, so the factor falls as √Pe.
    if (ln < LN_LOW) return table.factor[0] * Math.exp(0.5 * (ln - LN_LOW));
    return Math.exp(lnFactor(Math.min(ln, LN_HIGH)));
  };
}
