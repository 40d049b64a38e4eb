import { erf } from "#numerics";
import { invalid, requireNonNegative, requirePositive } from "#units";

/**
 * Factor by which heat of one age stays warmer near an insulated straight edge than far from it, at the place where it
 * was laid down: 1 + exp(−8d²/(w² + 8Dt)), the image of the Gaussian behind the edge. distance d: m, ≥ 0; radius w: m,
 * 1/e²; diffusivity D: m²/s; age t: s, ≥ 0. Result: 1 to 2. Range: vertical insulated edge face, constant properties.
 * Throws `InvalidInput`. Source: method of images, Carslaw & Jaeger, 2nd ed., 10.10.
 */
export function edgeFactor(distance: number, radius: number, diffusivity: number, age: number): number {
  const wide =
    requirePositive("radius", radius, "m") ** 2 +
    8 * requirePositive("diffusivity", diffusivity, "m²/s") * requireNonNegative("age", age, "s");
  return 1 + Math.exp((-8 * requireNonNegative("distance", distance, "m") ** 2) / wide);
}

/**
 * The same near a convex 90° corner in the plane of the plate, distances to its two insulated edges: the product of both
 * edge factors (three images), 1 to 4. Units, range, errors, source: as `edgeFactor`.
 */
export function cornerFactor(
  distanceX: number,
  distanceY: number,
  radius: number,
  diffusivity: number,
  age: number,
): number {
  return edgeFactor(distanceX, radius, diffusivity, age) * edgeFactor(distanceY, radius, diffusivity, age);
}

/**
 * Factor by which a line scanned along an insulated edge, long ago against its own length, or an old pass whose heat
 * spreads over the half-plane, is warmer at distance d than in an endless plate: a strip of heat from the edge inwards
 * of breadth b after t, (erf((b − d)/s) + erf((b + d)/s))/(erf((b − d)/s) + erf(d/s)), s = √((w² + 8Dt)/2).
 * distance d: m, 0 to b; breadth b: m; radius m; diffusivity m²/s; age s. Result: 1 to 2. Throws `InvalidInput`.
 * Source: images of a uniform strip, Carslaw & Jaeger, 2nd ed., 2.2.
 */
export function edgeStripFactor(
  distance: number,
  breadth: number,
  radius: number,
  diffusivity: number,
  age: number,
): number {
  requirePositive("breadth", breadth, "m");
  requireNonNegative("distance", distance, "m");
  if (distance > breadth) invalid("distance", distance, "m", `must be 0 to ${breadth} m`);
  const wide =
    requirePositive("radius", radius, "m") ** 2 +
    8 * requirePositive("diffusivity", diffusivity, "m²/s") * requireNonNegative("age", age, "s");
  const s = Math.sqrt(0.5 * wide);
  const inside = erf((breadth - distance) / s);
  return (inside + erf((breadth + distance) / s)) / (inside + erf(distance / s));
}

/** Lowest and highest factor that a shape can put on the warming far from it. */
export interface ShapeBound {
  readonly low: number;
  readonly high: number;
}

/**
 * Bounds on the factor of the surface rise where two thick flats meet at an angle θ of metal: π a flat, π/2 a sharp
 * outer edge, 3π/2 an inner corner. Heat laid on the edge spreads in a wedge with insulated faces as in a half-space
 * with θ/π of its room, and by reciprocity heat laid anywhere on the faces reaches the edge so: π/θ exactly on the edge
 * itself. Away from it the factor is taken to lie between π/θ and 1 (exact for π/2, where it is the image's). A fillet
 * lies between an inner corner and a flat, so an inner corner's bounds hold for it: heat runs off better there.
 * angle: rad, π/4 to 2π. Result: 1. Range: flats thicker than the heat has spread; not for the edge of a thin sheet
 * (`edgeFactor`). Throws `InvalidInput`. Source: point source in a wedge, Carslaw & Jaeger, 2nd ed., 14.14; bounds own.
 */
export function wedgeBound(angle: number): ShapeBound {
  if (!(angle >= Math.PI / 4 && angle <= 2 * Math.PI)) invalid("angle", angle, "rad", "must be 0.785 to 6.283 rad");
  const factor = Math.PI / angle;
  return { low: Math.min(1, factor), high: Math.max(1, factor) };
}
