import type { Hertz, Joule, Metre, MetrePerSecond, MetrePerSecondSquared, Ratio, Second, Watt } from "./quantities.ts";

export type SourceKind = "pulsed" | "continuous";
export type BeamProfile = "gaussian" | "top-hat";
export type Delivery = "scanner" | "hand" | "robot";

/** A focusing lens with the spot that this source makes through it. */
export interface Lens {
  readonly id: string;
  readonly focalLength: Metre;
  /** 1/e² diameter in focus, or the flat width of a top-hat. */
  readonly spotDiameter: Metre;
  readonly rayleighLength: Metre;
  /** Side of the square scan field. */
  readonly fieldSide: Metre;
}

/** What a pulsed source can emit at one of its pulse widths. */
export interface PulseChoice {
  /** FWHM */
  readonly width: Second;
  readonly energyMax: Joule;
  readonly frequencyMax: Hertz;
}

/** A laser set-up: source, delivery, focusing optics, scanner, with limits and prices. Generic and unbranded. */
export interface LaserSetup {
  readonly id: string;
  readonly name: string;
  readonly kind: SourceKind;
  readonly wavelength: Metre;
  /** Rated mean power (pulsed) or rated continuous power. */
  readonly ratedPower: Watt;
  readonly beamQualityM2: Ratio;
  readonly profile: BeamProfile;
  readonly lenses: readonly Lens[];
  /** Numerical aperture of the delivery fibre, for hazard distances. */
  readonly fibreNumericalAperture: Ratio;
  /** 1/e² beam diameter on the focusing lens. */
  readonly beamDiameterOnLens: Metre;
  readonly pulses: readonly PulseChoice[];
  readonly frequencyMin: Hertz;
  readonly frequencyMax: Hertz;
  /** Modulation of a continuous source; null for a pulsed one. */
  readonly modulation: { readonly frequencyMin: Hertz; readonly frequencyMax: Hertz; readonly dutyMin: Ratio } | null;
  readonly speedMin: MetrePerSecond;
  readonly speedMax: MetrePerSecond;
  readonly acceleration: MetrePerSecondSquared;
  readonly lineSpacingMin: Metre;
  readonly passesMax: number;
  readonly defocusMax: Metre;
  readonly deliveries: readonly Delivery[];
  /** Width of a hand-held line, m: smallest and largest, or null when not offered for hand use. */
  readonly handLineWidth: { readonly min: Metre; readonly max: Metre } | null;
  /** Smallest concave radius that the head can reach into. */
  readonly smallestConcaveRadius: Metre;
  readonly wallPlugEfficiency: Ratio;
  /** Price class as a range, in the price list's currency. */
  readonly price: {
    readonly class: "A" | "B" | "C" | "D" | "E";
    readonly low: number;
    readonly high: number;
    readonly currency: string;
  };
  readonly source: string;
  readonly fromMemory: boolean;
}
