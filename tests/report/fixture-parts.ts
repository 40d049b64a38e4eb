import type { AcceptanceTest, LayerKind, Metal, PartEnquiry, Property, Stack, TemperatureTable } from "#terms";

/** All of this enquiry is invented; figures are round numbers that no source is claimed for. */
export function fixed(value: number, unit = "1"): Property {
  return {
    value,
    low: value,
    high: value,
    distribution: "fixed",
    unit,
    validRange: "any",
    source: "invented",
    fromMemory: true,
  };
}

export function spread(value: number, low: number, high: number, unit: string): Property {
  return { ...fixed(value, unit), low, high, distribution: "lognormal" };
}

const table = (value: number, unit: string): TemperatureTable => ({
  temperature: [300, 900],
  value: [value, value],
  unit,
  validRange: "300-900 K",
  source: "invented",
  fromMemory: true,
  relativeSpread: 0.05,
});

export function metalOf(id: string, name: string): Metal {
  return {
    id,
    name,
    family: "aluminium",
    density: fixed(2660, "kg/m³"),
    conductivity: table(120, "W/(m·K)"),
    heatCapacity: table(900, "J/(kg·K)"),
    meltingTemperature: fixed(864, "K"),
    latentHeatMelting: fixed(3.9e5, "J/kg"),
    boilingTemperature: fixed(2740, "K"),
    latentHeatBoiling: fixed(1.1e7, "J/kg"),
    absorptance: fixed(0.12),
    refractiveIndex: null,
    extinctionCoefficient: null,
    expansion: fixed(2.4e-5, "1/K"),
    oxideGrowth: null,
    serviceTemperature: null,
    cautions: ["light-metal dust can burn: wet separator or inert filter"],
  };
}

export function kindOf(id: string, name: string, colour: string): LayerKind {
  return {
    id,
    name,
    group: "coating",
    density: fixed(1300, "kg/m³"),
    conductivity: fixed(0.25, "W/(m·K)"),
    heatCapacity: fixed(1500, "J/(kg·K)"),
    optics: { mid: { absorption: fixed(4e3, "1/m"), scattering: fixed(4e4, "1/m") } },
    externalReflectance: fixed(0.04),
    internalReflectance: fixed(0.6),
    decomposition: null,
    ablationTemperature: null,
    ablationHeat: null,
    interfaceTemperature: fixed(900, "K"),
    interfaceActivationEnergy: fixed(2e5, "J/mol"),
    adhesionStrength: fixed(5e6, "Pa"),
    adhesionScatter: fixed(0.2),
    filmStrength: fixed(2e7, "Pa"),
    youngsModulus: fixed(2e9, "Pa"),
    poissonRatio: fixed(0.35),
    expansion: fixed(6e-5, "1/K"),
    incubation: fixed(1),
    usualThickness: fixed(4e-5, "m"),
    pits: null,
    damageTemperature: null,
    fume: ["polyurethane"],
    mayHold: [],
    appearance: { mid: colour },
  };
}

const tests = (pullOff: string | null): AcceptanceTest[] => [
  {
    kind: "pull-off",
    method: "ISO 4624",
    limit: "at least 5 MPa",
    value: pullOff,
    passed: pullOff === null ? null : true,
  },
  { kind: "salts", method: "ISO 8502-6 and -9", limit: "at most 20 mg/m²", value: null, passed: null },
  { kind: "dimension-loss", method: "micrometer", limit: "at most 5 µm", value: null, passed: null },
];

const stackOf = (
  metal: Metal,
  thickness: number,
  layers: readonly (readonly [LayerKind, number, boolean])[],
): Stack => ({
  metal,
  metalThickness: thickness,
  layers: layers.map(([kind, value, mustStay]) => ({
    kind,
    colour: "mid",
    thickness: spread(value, value * 0.7, value * 1.4, "m"),
    mustStay,
  })),
});

const topCoat = kindOf("polyurethane-top-coat", "polyurethane top coat", "#6f8493");
const primer = kindOf("epoxy-primer", "epoxy primer", "#b9a27a");
const rust = kindOf("red-rust", "red rust", "#8a4b2a");
const alkyd = kindOf("alkyd", "old alkyd", "#5c6b4f");

export const hatchCovers: PartEnquiry = {
  id: "hatch-covers",
  name: "Hatch covers",
  material: "aluminium 5083",
  mixture: [
    {
      stack: stackOf(metalOf("aluminium-5083", "aluminium 5083"), 0.004, [
        [topCoat, 6e-5, false],
        [primer, 4e-5, false],
      ]),
      weight: 1,
      assumption: "",
    },
  ],
  area: 1.8,
  count: 24,
  faces: [
    { kind: "flat", radius: null, note: "" },
    { kind: "concave", radius: 0.012, note: "rim" },
  ],
  acceptance: {
    residueMax: 0.02,
    metalConditionMax: 1,
    metalTemperatureMax: 423.15,
    tests: tests("7.2 MPa"),
    confidence: 0.8,
  },
  rateWanted: 2 / 3600,
  lead: "no",
  chromate: "unknown",
  unknowns: ["chromate content of the primer"],
};

const steel = metalOf("carbon-steel", "low-carbon steel");
export const brackets: PartEnquiry = {
  ...hatchCovers,
  id: "brackets",
  name: "Brackets <before welding>",
  material: "low-carbon steel",
  mixture: [
    {
      stack: stackOf(steel, 0.008, [
        [alkyd, 8e-5, false],
        [rust, 5e-5, false],
      ]),
      weight: 0.7,
      assumption: "old alkyd over rust",
    },
    { stack: stackOf(steel, 0.008, [[rust, 9e-5, false]]), weight: 0.3, assumption: "rust alone" },
  ],
  area: 0.05,
  count: 180,
  acceptance: { ...hatchCovers.acceptance, tests: tests(null), metalTemperatureMax: null },
  lead: "unknown",
  unknowns: ["layer kind", "thickness", "lead content"],
};

export const plinth: PartEnquiry = {
  ...hatchCovers,
  id: "plinth",
  name: "Engraved plinth",
  material: "sandstone",
  mixture: [],
  count: 1,
  unknowns: [],
  acceptance: { ...hatchCovers.acceptance, tests: [] },
};
