import type { LaserSetup, LayerKind, LayerOptics, Metal, Property, TemperatureTable, Trial } from "#terms";

/** A small library of made-up figures: these tests are about shapes, not about materials. */
const property = (value: number, factor = 1): Property => ({
  value,
  low: value / factor,
  high: value * factor,
  distribution: factor === 1 ? "fixed" : "lognormal",
  unit: "1",
  validRange: "test",
  source: "invented",
  fromMemory: false,
});
const table: TemperatureTable = {
  temperature: [300, 900],
  value: [100, 90],
  unit: "1",
  validRange: "test",
  source: "invented",
  fromMemory: false,
  relativeSpread: 0,
};
const optics: LayerOptics = { absorption: property(1e4), scattering: property(1e4) };

const metalOf = (id: string, family: string): Metal => ({
  id,
  name: id,
  family,
  density: property(2700),
  conductivity: table,
  heatCapacity: table,
  meltingTemperature: property(900),
  latentHeatMelting: property(4e5),
  boilingTemperature: property(2700),
  latentHeatBoiling: property(1e7),
  absorptance: property(0.1),
  refractiveIndex: null,
  extinctionCoefficient: null,
  expansion: property(2e-5),
  oxideGrowth: null,
  serviceTemperature: null,
  cautions: [],
});

const kindOf = (id: string, change: Partial<LayerKind>): LayerKind => ({
  id,
  name: id.replace("-", " "),
  group: "coating",
  density: property(1400),
  conductivity: property(0.3),
  heatCapacity: property(1500),
  optics: { white: optics, mid: optics, dark: optics },
  externalReflectance: property(0.04),
  internalReflectance: property(0.6),
  decomposition: null,
  ablationTemperature: null,
  ablationHeat: null,
  interfaceTemperature: property(800),
  interfaceActivationEnergy: property(1.5e5),
  adhesionStrength: property(1e7),
  adhesionScatter: property(0.2),
  filmStrength: property(3e7),
  youngsModulus: property(2e9),
  poissonRatio: property(0.4),
  expansion: property(6e-5),
  incubation: property(0.9),
  usualThickness: property(50e-6, 2),
  pits: null,
  damageTemperature: null,
  fume: [],
  mayHold: [],
  appearance: {},
  ...change,
});

export const shelves = {
  metals: [
    metalOf("aluminium-5083", "aluminium"),
    metalOf("aluminium-6061", "aluminium"),
    metalOf("steel-low-carbon", "steel"),
    metalOf("zinc", "zinc"),
  ],
  layerKinds: [
    kindOf("alkyd", { mayHold: ["lead", "chromate"] }),
    kindOf("epoxy-primer", { mayHold: ["chromate"] }),
    kindOf("clear-lacquer", { optics: { clear: optics } }),
    kindOf("red-rust", { group: "oxide", optics: { natural: optics } }),
  ],
};

const common = {
  wavelength: 1.064e-6,
  beamQualityM2: 1.6,
  profile: "gaussian",
  lenses: [
    { id: "f160", focalLength: 0.16, spotDiameter: 52e-6, rayleighLength: 1.1e-3, fieldSide: 0.11 },
    { id: "f254", focalLength: 0.254, spotDiameter: 83e-6, rayleighLength: 2.8e-3, fieldSide: 0.17 },
  ],
  fibreNumericalAperture: 0.08,
  beamDiameterOnLens: 7.5e-3,
  speedMin: 0.01,
  speedMax: 12,
  acceleration: 15_000,
  lineSpacingMin: 5e-6,
  passesMax: 50,
  defocusMax: 0.01,
  deliveries: ["scanner"],
  handLineWidth: null,
  smallestConcaveRadius: 0.06,
  wallPlugEfficiency: 0.2,
  price: { class: "B", low: 1, high: 2, currency: "EUR" },
  source: "invented",
  fromMemory: false,
} as const;

export const pulsed: LaserSetup = {
  ...common,
  id: "pulsed-100",
  name: "pulsed",
  kind: "pulsed",
  ratedPower: 100,
  pulses: [{ width: 100e-9, energyMax: 1e-3, frequencyMax: 1e6 }],
  frequencyMin: 1e3,
  frequencyMax: 1e6,
  modulation: null,
};

export const continuous: LaserSetup = {
  ...common,
  id: "continuous-1000",
  name: "continuous",
  kind: "continuous",
  ratedPower: 1000,
  pulses: [],
  frequencyMin: 0,
  frequencyMax: 0,
  modulation: { frequencyMin: 50, frequencyMax: 50_000, dutyMin: 0.05 },
};

export const setting = {
  power: 100,
  level: 0.8,
  duty: 1,
  frequency: 100e3,
  pulseWidth: 100e-9,
  speed: 3,
  lineSpacing: 40e-6,
  passes: 2,
  defocus: -0.5e-3,
  lens: "f160",
};

const place = { coupon: 1, x: 5e-3, y: 5e-3, width: 15e-3, height: 15e-3, replicateOf: null };

/** Four patches: 1 to 3 burned, 4 left as it was. */
export const trial: Trial = {
  id: "trial-1",
  enquiryId: "enquiry",
  partId: "part-1",
  setupId: "pulsed-100",
  design: "grid",
  seed: 7,
  coupons: [{ coupon: 1, width: 0.1, height: 0.1, label: "=A1" }],
  patches: [
    { ...place, patch: 1, role: "test", setting, runOrder: 3, predictedClean: 0.5, predictedUndamaged: 0.9 },
    { ...place, patch: 2, role: "test", setting, runOrder: 1, wait: 40, predictedClean: 0.5, predictedUndamaged: 0.9 },
    {
      ...place,
      patch: 3,
      role: "cleaned-reference",
      setting: null,
      runOrder: 2,
      predictedClean: null,
      predictedUndamaged: null,
    },
    {
      ...place,
      patch: 4,
      role: "untouched",
      setting: null,
      runOrder: 0,
      predictedClean: null,
      predictedUndamaged: null,
    },
  ],
  spacing: { gap: 5e-3, gapNeeded: null, wait: 40, limit: 15, warmest: 14.5, couponRise: 21, words: "invented" },
  reasons: ["invented"],
  modelVersion: "test",
};
