import { integrate } from "#numerics";
import { requireFinite, requireNonNegative, requirePositive } from "#units";
import { type Conductor, diffusivity } from "./half-space.ts";

/**
 * Highest rise that a stationary Gaussian beam ever reaches on a half-space: ΔT = P/(√(2π)·k·w).
 * power P: W absorbed; radius w: m, 1/e² of intensity. Result: K. Throws `InvalidInput`.
 * Source: Ready 1971; Bäuerle, Laser Processing and Chemistry.
 */
export function stationaryGaussianSteadyRise(body: Conductor, power: number, radius: number): number {
  requireNonNegative("absorbed power", power, "W");
  return (
    power /
    (Math.sqrt(2 * Math.PI) *
      requirePositive("conductivity", body.conductivity, "W/(m·K)") *
      requirePositive("radius", radius, "m"))
  );
}

/**
 * Rise at the centre of a stationary Gaussian beam after t: ΔT = P·√2/(π^(3/2)·k·w)·atan(√(8Dt)/w).
 * power P: W absorbed; radius w: m, 1/e²; time t: s, ≥ 0. Result: K. Throws `InvalidInput`.
 * Source: Ready 1971; Bäuerle, Laser Processing and Chemistry.
 */
export function stationaryGaussianRise(body: Conductor, power: number, radius: number, time: number): number {
  requireNonNegative("time", time, "s");
  const steady = stationaryGaussianSteadyRise(body, power, radius);
  return (2 / Math.PI) * steady * Math.atan(Math.sqrt(8 * diffusivity(body) * time) / radius);
}

/**
 * ∫₀^∞ exp(−2[(ξ + Pe·a²/8)² + η²]/(1 + a²) − 2ζ²/a²)/(1 + a²) da: shape of the moving Gaussian, all arguments and
 * the result dimensionless. peclet Pe = v·w/D ≥ 0; ξ, η, ζ: place over w, ξ ahead of the beam along its travel.
 * Source: Cline & Anthony, J. Appl. Phys. 48 (1977) 3895, written in a = √(8·D·age)/w.
 */
export function movingGaussianShape(peclet: number, xi: number, eta: number, zeta: number): number {
  // The integrand ends near Pe·a²/8 ≈ |ξ| + 2: scaling by that length keeps the fold to infinity well placed.
  const scale = Math.sqrt(
    Math.min(1 + Math.abs(xi) + Math.abs(eta) + zeta, (8 * (1 + Math.abs(xi))) / Math.max(peclet, 1e-12)),
  );
  const f = (b: number): number => {
    const a2 = (b * scale) ** 2;
    const along = xi + (peclet * a2) / 8;
    return (
      Math.exp((-2 * (along * along + eta * eta)) / (1 + a2) - (zeta === 0 ? 0 : (2 * zeta * zeta) / a2)) / (1 + a2)
    );
  };
  return scale * integrate(f, 0, Number.POSITIVE_INFINITY, { relative: 1e-10, absolute: 1e-14 });
}

/** From the shape integral to P/(k·w). */
const shapeFactor = 4 / (Math.PI ** 1.5 * Math.SQRT2 * 2);

/**
 * Steady rise around a Gaussian beam that moves over a half-space, seen from the beam:
 * ΔT = 4P/(π^(3/2)·√8·k·w)·shape(v·w/D, x/w, y/w, z/w).
 * power P: W absorbed; radius w: m, 1/e²; speed v: m/s, ≥ 0; x along the travel (ahead positive), y across, z ≥ 0
 * down: m. Result: K. Throws `InvalidInput`.
 * Source: Cline & Anthony 1977; Eagar & Tsai, Weld. J. 62 (1983) 346s.
 */
export function movingGaussianHalfSpaceRise(
  body: Conductor,
  power: number,
  radius: number,
  speed: number,
  place: { readonly x: number; readonly y: number; readonly z: number },
): number {
  requireNonNegative("absorbed power", power, "W");
  requirePositive("radius", radius, "m");
  requireNonNegative("speed", speed, "m/s");
  requireFinite("x", place.x, "m");
  requireFinite("y", place.y, "m");
  requireNonNegative("z", place.z, "m");
  const peclet = (speed * radius) / diffusivity(body);
  const shape = movingGaussianShape(peclet, place.x / radius, place.y / radius, place.z / radius);
  return (shapeFactor * power * shape) / (body.conductivity * radius);
}

/**
 * Largest value of the shape integral on the path (η = ζ = 0) over ξ, dimensionless. It lies behind the centre,
 * −1.5 < ξ ≤ 0, and the shape has one maximum: golden section. peclet ≥ 0. Source: own.
 */
export function movingGaussianShapeMaximum(peclet: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = -1.5;
  let high = 0;
  let left = high - golden * (high - low);
  let right = low + golden * (high - low);
  let atLeft = movingGaussianShape(peclet, left, 0, 0);
  let atRight = movingGaussianShape(peclet, right, 0, 0);
  while (high - low > 1e-6) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - golden * (high - low);
      atLeft = movingGaussianShape(peclet, left, 0, 0);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + golden * (high - low);
      atRight = movingGaussianShape(peclet, right, 0, 0);
    }
  }
  return Math.max(atLeft, atRight);
}

/**
 * Highest surface rise of a moving Gaussian beam, K. power: W absorbed; radius: m, 1/e²; speed: m/s, ≥ 0.
 * Throws `InvalidInput`. Source: Cline & Anthony 1977; Eagar & Tsai 1983.
 */
export function movingGaussianMaximumRise(body: Conductor, power: number, radius: number, speed: number): number {
  requireNonNegative("absorbed power", power, "W");
  requirePositive("radius", radius, "m");
  const peclet = (requireNonNegative("speed", speed, "m/s") * radius) / diffusivity(body);
  return (shapeFactor * power * movingGaussianShapeMaximum(peclet)) / (body.conductivity * radius);
}

/**
 * c = ΔT_max·k·w·√(v·w/D)/P when the beam is so fast that heat only flows down: dimensionless, 0.650076.
 * It is shapeFactor·max over s of √8·∫₀^∞ exp(−2(b² − s)²) db. Source: own, from Cline & Anthony 1977.
 */
export const fastBeamConstant = 0.650076;

/**
 * Highest surface rise of a fast Gaussian beam, ΔT = c·P/(k·w·√(v·w/D)), c = 0.650076. power: W absorbed; radius: m;
 * speed: m/s, > 0. Result: K. Valid for v·w/D above about 100 (1 % there, always too high). Throws `InvalidInput`.
 * Source: own, from Cline & Anthony 1977.
 */
export function fastGaussianMaximumRise(body: Conductor, power: number, radius: number, speed: number): number {
  requireNonNegative("absorbed power", power, "W");
  const peclet = (requirePositive("speed", speed, "m/s") * requirePositive("radius", radius, "m")) / diffusivity(body);
  return (fastBeamConstant * power) / (body.conductivity * radius * Math.sqrt(peclet));
}
