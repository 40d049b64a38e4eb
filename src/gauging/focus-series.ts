import { fitNonlinear, fromRows, NumericalError, qrSolve } from "#numerics";
import type { Metre } from "#terms";
import { invalid, requireFinite, requirePositive } from "#units";
import { type Estimate, knownErrors, logEstimate, plainEstimate } from "./estimate.ts";

export interface SpotReading {
  /** place along the beam, either sign */
  readonly defocus: Metre;
  /** 1/e² radius there */
  readonly radius: Metre;
  readonly standardError: Metre;
}

export interface FocusFit {
  /** 1/e² radius of the waist, m */
  readonly waist: Estimate;
  /** place of the waist on the scale of the readings, m */
  readonly position: Estimate;
  /** m */
  readonly rayleighLength: Estimate;
  /** times-diffraction-limit factor M² */
  readonly beamQuality: Estimate;
  /** correlations of the errors of waist, position and half angle, in the order wz, wa, za */
  readonly correlations: readonly [number, number, number];
  readonly residuals: readonly Metre[];
  readonly cautions: readonly string[];
}

/**
 * Waist of a beam from radii along it: w(z) = √(w0² + θ²(z − z0)²), z_R = w0/θ, M² = π·w0·θ/λ. Weighted nonlinear least
 * squares, begun at the parabola w² over z; errors with covariance, widened by the residuals where these are larger.
 * @param readings at least 4, radius and standard error in m above 0, at three places or more
 * @param wavelength m
 * @param behind degrees of freedom (1) that the errors were found from, all readings together, for Student's quantile
 * @returns waist, place and Rayleigh length (m), M² (1)
 * Valid: paraxial beam without aberrations, radii by one method throughout.
 * Throws InvalidInput for too few readings and where the radii show no waist.
 * Source: ISO 11146-1, propagation of widths; NIST-tested fit.
 */
export function fitFocus(readings: readonly SpotReading[], wavelength: Metre, behind = knownErrors): FocusFit {
  requirePositive("wavelength", wavelength, "m");
  if (readings.length < 4) invalid("places along the beam", readings.length, "", "at least 4 for a focus series");
  for (const r of readings) {
    requireFinite("defocus", r.defocus, "m");
    requirePositive("radius", r.radius, "m");
    requirePositive("standard error of a radius", r.standardError, "m");
  }
  const places = new Set(readings.map((r) => r.defocus)).size;
  if (places < 3) invalid("places along the beam", places, "", "at least 3 different ones");
  const start = parabola(readings);
  const fit = settled(readings, start);
  const [w0, z0, angle] = fit.parameters as unknown as [number, number, number];
  const df = fit.degreesOfFreedom;
  // Errors that were given are believed unless the residuals say more.
  const widening = Math.max(1, fit.sumOfSquares / df) / (fit.sumOfSquares / df || 1);
  const v = (i: number, k: number): number => fit.covariance[i * 3 + k]! * widening;
  const vLogW = v(0, 0) / w0 ** 2;
  const vLogA = v(2, 2) / angle ** 2;
  const both = v(0, 2) / (w0 * angle);
  const rayleigh = w0 / angle;
  const beamQuality = logEstimate(
    Math.log((Math.PI * w0 * angle) / wavelength),
    Math.sqrt(Math.max(0, vLogW + vLogA + 2 * both)),
    behind,
  );
  const correlation = (i: number, k: number): number => v(i, k) / Math.sqrt(v(i, i) * v(k, k));
  return {
    waist: logEstimate(Math.log(w0), Math.sqrt(vLogW), behind),
    position: plainEstimate(z0, Math.sqrt(v(1, 1)), behind),
    rayleighLength: logEstimate(Math.log(rayleigh), Math.sqrt(Math.max(0, vLogW + vLogA - 2 * both)), behind),
    beamQuality,
    correlations: [correlation(0, 1), correlation(0, 2), correlation(1, 2)],
    residuals: readings.map((r) => r.radius - Math.hypot(w0, angle * (r.defocus - z0))),
    cautions: cautionsOf(readings, z0, rayleigh, beamQuality),
  };
}

/** w² = c + b·z + a·z² by QR; the waist, its place and the half angle that follow. */
function parabola(readings: readonly SpotReading[]): readonly [number, number, number] {
  const reach = Math.max(...readings.map((r) => Math.abs(r.defocus)));
  const rows = readings.map((r) => {
    const u = r.defocus / reach;
    const weight = 1 / (2 * r.radius * r.standardError);
    return [weight, weight * u, weight * u * u];
  });
  const sides = readings.map((r) => r.radius ** 2 / (2 * r.radius * r.standardError));
  const [c, b, a] = qrSolve(fromRows(rows), rows.length, 3, sides).coefficients as unknown as [number, number, number];
  if (!(a > 0)) invalid("focus series", "no waist", "", "the radii must grow away from one place");
  const least = Math.min(...readings.map((r) => r.radius)) ** 2;
  const waist = Math.sqrt(Math.max(c - (b * b) / (4 * a), least / 4));
  return [waist, (-b / (2 * a)) * reach, Math.sqrt(a) / reach];
}

function settled(readings: readonly SpotReading[], start: readonly [number, number, number]) {
  try {
    const fit = fitNonlinear({
      points: readings.length,
      start,
      sizes: [start[0], start[0] / start[2], start[2]],
      residuals: ([w0, z0, angle], out) => {
        readings.forEach((r, i) => {
          out[i] = (Math.hypot(w0!, angle! * (r.defocus - z0!)) - r.radius) / r.standardError;
        });
      },
    });
    // The radius knows neither sign: the positive ones are meant.
    fit.parameters[0] = Math.abs(fit.parameters[0]!);
    fit.parameters[2] = Math.abs(fit.parameters[2]!);
    return fit;
  } catch (error) {
    if (!(error instanceof NumericalError)) throw error;
    return invalid("focus series", "no waist", "", "the radii must grow away from one place");
  }
}

function cautionsOf(readings: readonly SpotReading[], z0: Metre, rayleigh: Metre, quality: Estimate): string[] {
  const away = readings.map((r) => (r.defocus - z0) / rayleigh);
  const cautions: string[] = [];
  if (!(Math.min(...away) < 0 && Math.max(...away) > 0))
    cautions.push("The waist lies beyond the places that were burned: its place and size are extrapolated.");
  if (away.filter((u) => Math.abs(u) < 1).length < 2 || away.filter((u) => Math.abs(u) > 2).length < 2)
    cautions.push(
      "Burn at least two places within one Rayleigh length of the waist and two beyond two of them: M² rests on both.",
    );
  if (quality.high < 1) cautions.push("M² below 1 is impossible: check the readings, their units and the wavelength.");
  return cautions;
}
