import type { LaserSetup } from "#terms";

/** Invented set-ups with round figures, so that expected values can be worked out by hand. */
export const pulsed: LaserSetup = {
  id: "pulsed-100",
  name: "pulsed 100 W",
  kind: "pulsed",
  wavelength: 1.064e-6,
  ratedPower: 100,
  beamQualityM2: 1.5,
  profile: "gaussian",
  lenses: [
    { id: "f160", focalLength: 0.16, spotDiameter: 50e-6, rayleighLength: 1.2e-3, fieldSide: 0.1 },
    { id: "f254", focalLength: 0.254, spotDiameter: 80e-6, rayleighLength: 3e-3, fieldSide: 0.16 },
  ],
  fibreNumericalAperture: 0.1,
  beamDiameterOnLens: 7e-3,
  pulses: [
    { width: 60e-9, energyMax: 0.5e-3, frequencyMax: 1e6 },
    { width: 100e-9, energyMax: 1e-3, frequencyMax: 600e3 },
    { width: 200e-9, energyMax: 1.5e-3, frequencyMax: 400e3 },
  ],
  frequencyMin: 20e3,
  frequencyMax: 1e6,
  modulation: null,
  speedMin: 0.01,
  speedMax: 10,
  acceleration: 5000,
  lineSpacingMin: 10e-6,
  passesMax: 50,
  defocusMax: 0.01,
  deliveries: ["scanner", "hand"],
  handLineWidth: { min: 0.01, max: 0.1 },
  smallestConcaveRadius: 0.05,
  wallPlugEfficiency: 0.3,
  price: { class: "B", low: 20000, high: 40000, currency: "EUR" },
  source: "test",
  fromMemory: true,
};

export const continuous: LaserSetup = {
  ...pulsed,
  id: "continuous-2000",
  name: "continuous 2 kW",
  kind: "continuous",
  ratedPower: 2000,
  profile: "top-hat",
  lenses: [{ id: "f300", focalLength: 0.3, spotDiameter: 300e-6, rayleighLength: 8e-3, fieldSide: 0.2 }],
  pulses: [],
  frequencyMin: 0,
  frequencyMax: 0,
  modulation: { frequencyMin: 100, frequencyMax: 10e3, dutyMin: 0.1 },
  speedMax: 20,
};
