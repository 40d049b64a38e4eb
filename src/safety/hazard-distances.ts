import { lensOf } from "#beam";
import type { BeamState, LaserSetup, Metre, Radian, Ratio, Second, Setting } from "#terms";
import { requireShare } from "#units";
import { type ExposureLimit, exposureLimit, type GoverningLimit } from "./exposure-limit.ts";
import {
  collimatedDistance,
  diameter63,
  diffuseDistance,
  fibreDistance,
  halfSpaceDistance,
  lensDistance,
  roundUpDistance,
} from "./hazard-forms.ts";

export type HazardPath =
  | "direct beam behind the lens"
  | "mirror-like part of the reflection"
  | "diffuse reflection"
  | "scattered evenly"
  | "lens removed, collimated beam"
  | "open fibre end";

export interface HazardDistance {
  readonly path: HazardPath;
  /** m, computed */
  readonly eye: Metre;
  readonly skin: Metre;
  /** m, rounded up for showing */
  readonly eyeShown: Metre;
  readonly skinShown: Metre;
}

export interface HazardDistances {
  readonly limit: ExposureLimit;
  readonly distances: readonly HazardDistance[];
  /** rad, full angle behind the lens within which the direct beam can point (directFan) */
  readonly fan: Radian;
  /** one sentence to stand beside the numbers */
  readonly note: string;
  readonly sources: readonly string[];
}

export interface HazardOptions {
  /** s, 10 when not given */
  readonly duration?: Second;
  /** share of the power in a mirror-like reflection, 0.15 when not given (DGUV Information 203-093 works with it) */
  readonly specularShare?: Ratio;
  /** diffuse reflectance of the part, 1 when not given */
  readonly diffuseReflectance?: Ratio;
}

const NOTE =
  "An aid for the laser safety officer, not a substitute: local law, the standard itself and licensed practice decide. Within these distances the limit can be exceeded; optical aids make them longer.";

/** The on-times of a setting as exposureLimit wants them. */
export function exposureOf(setup: LaserSetup, setting: Setting, beam: BeamState, duration?: Second): ExposureLimit {
  const pulses = beam.onTime !== null && setting.frequency !== null;
  return exposureLimit({
    wavelength: setup.wavelength,
    onTime: pulses ? beam.onTime : null,
    frequency: pulses ? setting.frequency : null,
    ...(duration === undefined ? {} : { duration }),
  });
}

/**
 * Full angle within which a direct beam can point behind the lens: 2·atan(F/(2f)) + D/f, the scan field and the beam's
 * own cone.
 * @param setup beam diameter on the lens D (m, 1/e²)
 * @param lensId which lens: scan field F (m), focal length f (m)
 * @returns rad
 * Valid: f-theta lens, field in the focal plane. Throws InvalidInput on an unknown lens. Source: geometry.
 */
export function directFan(setup: LaserSetup, lensId: string): Radian {
  const { fieldSide, focalLength } = lensOf(setup, lensId);
  return 2 * Math.atan(fieldSide / (2 * focalLength)) + setup.beamDiameterOnLens / focalLength;
}

/**
 * Hazard distances of a setting on every path that light can take, eye and skin, m. Reflection paths take the light to
 * reach a person as if from behind the same lens (mirror-like) or from the spot (diffuse, even).
 * Throws InvalidInput outside 700 to 1400 nm and for shares outside 0 to 1. Sources: see `sources` of the result.
 */
export function hazardDistances(
  setup: LaserSetup,
  setting: Setting,
  beam: BeamState,
  options: HazardOptions = {},
): HazardDistances {
  const limit = exposureOf(setup, setting, beam, options.duration);
  const specular = requireShare("mirror-like share", options.specularShare ?? 0.15);
  const diffuse = requireShare("diffuse reflectance", options.diffuseReflectance ?? 1);
  const { focalLength } = lensOf(setup, setting.lens);
  const onLens = diameter63(setup.beamDiameterOnLens);
  // Full 1/e divergence of the collimated beam, from its quality: 4·M²·λ/(π·D) at 1/e², over √2.
  const divergence = (4 * setup.beamQualityM2 * setup.wavelength) / (Math.PI * setup.beamDiameterOnLens) / Math.SQRT2;
  const energy = beam.onTime === null ? null : (beam.pulseEnergy ?? beam.peakPower * beam.onTime);
  const load = limit.eye.perPulse === null || energy === null ? beam.meanPower : energy;
  const bound = (part: GoverningLimit): number => part.perPulse ?? part.irradiance;
  const forms: [HazardPath, (limit: number) => Metre][] = [
    ["direct beam behind the lens", (l) => lensDistance(load, l, focalLength, onLens)],
    ["mirror-like part of the reflection", (l) => lensDistance(load * specular, l, focalLength, onLens)],
    ["diffuse reflection", (l) => diffuseDistance(load, l, diffuse, 0)],
    ["scattered evenly", (l) => halfSpaceDistance(load, l)],
    ["lens removed, collimated beam", (l) => collimatedDistance(load, l, onLens, divergence)],
    ["open fibre end", (l) => fibreDistance(load, l, setup.fibreNumericalAperture)],
  ];
  const distances = forms.map(([path, form]): HazardDistance => {
    const eye = form(bound(limit.eye));
    const skin = form(bound(limit.skin));
    return { path, eye, skin, eyeShown: roundUpDistance(eye), skinShown: roundUpDistance(skin) };
  });
  return {
    limit,
    distances,
    fan: directFan(setup, setting.lens),
    note: NOTE,
    sources: ["directive-2006-25-ec", "iec-60825-1", "dguv-203-093", "iec-60825-14"],
  };
}
