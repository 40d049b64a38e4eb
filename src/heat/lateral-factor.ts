import { erfcx, interpolateLinear, monotoneCubic } from "#numerics";
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

/**
 * Peak rise between the two limits of a spot: heat that only goes down (a column with all its latent and stored heat)
 * and heat that has settled around the spot (only ∫k dT counts, stored and latent heat do not).
 *
 * Equation: ΔT = s·ΔT_column + (1 − s)·ΔT_settled, s = L^1.5, L the lateral factor.
 * Units: rises K, lateralFactor 1; result K. Range: 0 to 1 for L. Errors: none.
 * Source: both limits exact (Kirchhoff's transformation for the settled one); the exponent is fitted to the referee,
 * docs/referee.md.
 */
export function spreadRise(columnRise: number, settledRise: number, lateralFactor: number): number {
  const share = lateralFactor ** 1.5;
  return share * columnRise + (1 - share) * settledRise;
}

/**
 * Rise of a body whose heat has settled: T with ∫k dT from the start equal to what constant conductivity would carry.
 *
 * Equation: ∫_start^(start+ΔT) k dT = k_mean·linearRise. Units: table K and W/(m·K), conductivity W/(m·K), rises and
 * start K. Range: rise above 0; beyond the table k stays as at its end. Errors: none. Source: Carslaw and Jaeger 1959, 1.6.
 */
export function settledRise(
  table: { readonly temperature: Float64Array; readonly conductivity: Float64Array },
  meanConductivity: number,
  linearRise: number,
  startTemperature: number,
): number {
  let left = meanConductivity * linearRise;
  let t = startTemperature;
  let k0 = interpolateLinear(table.temperature, table.conductivity, t);
  for (let i = 0; i < table.temperature.length; i++) {
    const to = table.temperature[i];
    if (to <= t) continue;
    const k1 = table.conductivity[i];
    const whole = 0.5 * (k0 + k1) * (to - t);
    if (whole >= left) {
      // k runs straight between table points: the root of k0·x + slope·x²/2 = left that is free of cancellation.
      const slope = (k1 - k0) / (to - t);
      return t - startTemperature + (2 * left) / (k0 + Math.sqrt(Math.max(0, k0 * k0 + 2 * slope * left)));
    }
    left -= whole;
    t = to;
    k0 = k1;
  }
  return t - startTemperature + left / table.conductivity[table.conductivity.length - 1];
}

/**
 * Depth of melt under a Gaussian spot, between the column's and that of heat which has settled around the spot.
 *
 * Equation: 1/z² = 1/z_column² + 1/z_settled², exp(x²)·erfc(x) = 1/over with x = √2·z_settled/w.
 * Units: columnDepth, radius w m; over: power over that at which melting begins; result m. Range: over ≥ 1, else 0.
 * Errors: none. Source: both limits exact (steady Gaussian beam on its axis: Carslaw and Jaeger 1959, 10.5); the
 * joining by squares is fitted to the referee, docs/referee.md.
 */
export function spreadMeltDepth(columnDepth: number, radius: number, over: number): number {
  if (!(over > 1) || columnDepth <= 0) return 0;
  // ln erfcx falls ever more gently, so Newton's method from the steepest slope climbs to the root from below.
  const lnOver = Math.log(over);
  let x = 0.5 * Math.sqrt(Math.PI) * lnOver;
  for (let i = 0; i < 30; i++) {
    const e = erfcx(x);
    const step = (Math.log(e) + lnOver) / (2 / (Math.sqrt(Math.PI) * e) - 2 * x);
    x += step;
    if (step < 1e-12 * x) break;
  }
  const settled = (x * radius) / Math.SQRT2;
  return settled > 0 ? 1 / Math.sqrt(1 / columnDepth ** 2 + 1 / settled ** 2) : 0;
}

/** What decides how far a spot's peak and melt depth may be trusted. */
export interface SpreadCase {
  /** v·w/D, 1 */
  readonly peclet: number;
  /** power over that at which melting begins, 1 */
  readonly over: number;
  /** whether the surface reaches boiling */
  readonly boils: boolean;
  /** m, 1/e² radius */
  readonly radius: number;
  /** m, thickness of the metal */
  readonly thickness: number;
}

/**
 * What must be said with the peak and melt depth of a moving spot, or null where the referee bears them out: peak rise
 * within 5 %, melt depth within 15 %.
 *
 * Units: see `SpreadCase`. Range: any; checked for Péclet numbers 0.05 to 250 and up to 3 times the melting power.
 * Errors: none. Source: docs/referee.md; plate thickness by the reach of heat, own estimate.
 */
export function lateralCaveat({ peclet, over, boils, radius, thickness }: SpreadCase): string | null {
  // Settled heat under a spot falls off over some radii, or over D/v where the spot outruns it.
  if (thickness < Math.min(5 * radius, (4 * radius) / Math.sqrt(peclet)))
    return "The metal is thinner than heat spreads under this spot: peak temperature and melt depth will be higher than computed.";
  if (boils)
    return "The surface boils: metal is thrown out, which is not computed, and the melt depth is an order of magnitude only.";
  if (over > 1 && over < 1.3)
    return "Melting has only just begun: the melt depth may be off by two fifths, and a few per cent of power decide whether it melts at all.";
  if (over > 3.2) return "More than three times the melting power: melt depth was not checked that far.";
  if (peclet < 0.04 || peclet > 300)
    return "So slow or fast a spot was not checked against the three-dimensional solver.";
  return null;
}
