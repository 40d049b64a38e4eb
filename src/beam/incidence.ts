import type { Metre, Radian, Ratio } from "#terms";
import { invalid, requireNonNegative, requirePositive } from "#units";
import { incidenceFactor } from "./focus.ts";

/** Footprint of a round beam on a tilted face: an ellipse. */
export interface ObliqueSpot {
  /** m, along the tilt: d/cos θ */
  readonly along: Metre;
  /** m, across it: d */
  readonly across: Metre;
  /** factor on fluence and irradiance: cos θ */
  readonly fluenceFactor: Ratio;
}

/**
 * Footprint of a round beam at oblique incidence.
 *
 * Equation: along = d/cos θ, across = d, fluence × cos θ (their product with the area stays).
 * @param diameter m
 * @param angle rad from the surface normal, 0 to below π/2
 * @returns ellipse axes m, factor on the fluence
 * Valid: spot small against the radius of the face. Throws InvalidInput outside these ranges. Source: geometry.
 */
export function obliqueSpot(diameter: Metre, angle: Radian): ObliqueSpot {
  const across = requirePositive("spot diameter", diameter, "m");
  const fluenceFactor = incidenceFactor(angle);
  return { along: across / fluenceFactor, across, fluenceFactor };
}

/** Share absorbed by a smooth bare metal, by polarisation. */
export interface FresnelAbsorptance {
  /** electric field across the plane of incidence */
  readonly s: Ratio;
  /** electric field in the plane of incidence */
  readonly p: Ratio;
  /** light without a preferred polarisation: the mean of both */
  readonly unpolarised: Ratio;
}

/**
 * Absorptance of a smooth, bare, opaque metal at an angle.
 *
 * Equation: A = 1 − |r|², r_s = (cos θ − q)/(cos θ + q), r_p = (N²·cos θ − q)/(N²·cos θ + q), q = √(N² − sin²θ), N = n + ik;
 * at θ = 0 both are 4n/((n + 1)² + k²).
 * @param n refractive index, above 0
 * @param k extinction coefficient, 0 or more
 * @param angle rad from the surface normal, 0 to below π/2
 * @returns shares
 * Valid: polished faces; a rough one averages over angles. Throws InvalidInput outside these ranges.
 * Source: Fresnel equations, Born and Wolf, Principles of Optics.
 */
export function fresnelAbsorptance(n: Ratio, k: Ratio, angle: Radian): FresnelAbsorptance {
  requirePositive("refractive index", n);
  requireNonNegative("extinction coefficient", k);
  const c = incidenceFactor(angle);
  const [re, im] = [n * n - k * k, 2 * n * k];
  // q = √(N² − sin²θ), the root with both parts positive
  const under = re - (1 - c * c);
  const size = Math.hypot(under, im);
  const [qr, qi] = [Math.sqrt((size + under) / 2), Math.sqrt(Math.max(0, size - under) / 2)];
  // 1 − |(a − q)/(a + q)|² = 4·Re(a·q*)/|a + q|²
  const absorbed = (ar: number, ai: number) => (4 * (ar * qr + ai * qi)) / ((ar + qr) ** 2 + (ai + qi) ** 2);
  const s = absorbed(c, 0);
  const p = absorbed(re * c, im * c);
  return { s, p, unpolarised: (s + p) / 2 };
}

/** Range of defocus over a face, m; positive away from the head. */
export interface DefocusBand {
  readonly low: Metre;
  readonly high: Metre;
}

/**
 * Fall of an arc below its chord: R − √(R² − (W/2)²).
 * @param radius m, of the face
 * @param width m, chord: width of the field across the curved direction, at most 2R
 * @returns m
 * Throws InvalidInput outside these ranges. Source: geometry, written without the difference of two large numbers.
 */
export function sagitta(radius: Metre, width: Metre): Metre {
  requirePositive("radius of the face", radius, "m");
  const half = requireNonNegative("field width", width, "m") / 2;
  if (half > radius) invalid("field width", width, "m", `at most the ${2 * radius} m across the face`);
  return (half * half) / (radius + Math.sqrt(radius * radius - half * half));
}

/**
 * Range of defocus over a field on a flat or curved face, with the head held only so well.
 *
 * Equation: at the middle of the field z₀ ± j; at its rim a convex face lies s farther from the head, a concave one s
 * nearer (s the sagitta of the field width).
 * Units: middle z₀ m (the setting's defocus), standOffError j m to either side, radius m (null for a flat face), field m.
 * Range: focus of the lens in a plane (f-theta). Hand-held heads swing by 2 to 5 mm (common practice, no source).
 * Errors: InvalidInput for a negative error or a field wider than the face. Source: geometry.
 */
export function defocusBand(face: {
  readonly kind: "flat" | "convex" | "concave";
  readonly radius: Metre | null;
  readonly field: Metre;
  readonly middle: Metre;
  readonly standOffError: Metre;
}): DefocusBand {
  const error = requireNonNegative("stand-off error", face.standOffError, "m");
  const fall = face.kind === "flat" || face.radius === null ? 0 : sagitta(face.radius, face.field);
  const near = face.kind === "concave" ? fall : 0;
  const far = face.kind === "convex" ? fall : 0;
  return { low: face.middle - near - error, high: face.middle + far + error };
}

/**
 * Largest angle of incidence on a curved face at the rim of a field: asin(W/(2R)); 0 on a flat one.
 * @param radius m, or null for a flat face
 * @param width m, field across the curved direction, below 2R
 * @returns rad
 * Throws InvalidInput outside these ranges. Source: geometry, light parallel to the axis.
 */
export function rimAngle(radius: Metre | null, width: Metre): Radian {
  requireNonNegative("field width", width, "m");
  if (radius === null) return 0;
  requirePositive("radius of the face", radius, "m");
  if (!(width < 2 * radius)) invalid("field width", width, "m", `below the ${2 * radius} m across the face`);
  return Math.asin(width / (2 * radius));
}

/**
 * Smallest and largest factor on the fluence over a band of defocus and angles, against focus at normal incidence.
 *
 * Equation: cos θ/(1 + (z/z_R)²): largest at the |z| nearest to focus and θ = 0, smallest at the |z| farthest and θ_rim.
 * Units: band m, rayleigh m, angle rad; result factors, low ≤ high ≤ 1.
 * Range: Gaussian caustic. Errors: InvalidInput for a Rayleigh length that is not positive, a band upside down, or an
 * angle outside 0 to π/2. Source: ISO 11146-1 definitions; geometry.
 */
export function fluenceBand(
  band: DefocusBand,
  rayleigh: Metre,
  angle: Radian,
): { readonly low: Ratio; readonly high: Ratio } {
  requirePositive("Rayleigh length", rayleigh, "m");
  if (!(band.low <= band.high)) invalid("defocus band", `${band.low} to ${band.high}`, "m", "low not above high");
  const factor = (z: number) => 1 / (1 + (z / rayleigh) ** 2);
  const farthest = Math.max(Math.abs(band.low), Math.abs(band.high));
  const nearest = band.low <= 0 && band.high >= 0 ? 0 : Math.min(Math.abs(band.low), Math.abs(band.high));
  return { low: factor(farthest) * incidenceFactor(angle), high: factor(nearest) };
}
