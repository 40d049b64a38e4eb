import type { ShelfKey } from "../api/library.ts";
import { isTree, type Path, readAt, type Tree } from "./tree.ts";
import { figure, type Group, maybe, number, plain, share, table, text } from "./field-kinds.ts";

export type { Field, Group } from "./field-kinds.ts";

const metalGroups: readonly Group[] = [
  { key: "name", fields: [text(["name"]), text(["family"])] },
  {
    key: "heat",
    fields: [
      figure(["density"], "kg/m³"),
      table(["conductivity"], "W/(m·K)"),
      table(["heatCapacity"], "J/(kg·K)"),
      figure(["expansion"], "1/K"),
    ],
  },
  {
    key: "melting",
    fields: [
      figure(["meltingTemperature"], "K"),
      figure(["latentHeatMelting"], "J/kg"),
      figure(["boilingTemperature"], "K"),
      figure(["latentHeatBoiling"], "J/kg"),
      maybe(["serviceTemperature"], "K"),
    ],
  },
  {
    key: "light",
    fields: [share(["absorptance"]), maybe(["refractiveIndex"], "1"), maybe(["extinctionCoefficient"], "1")],
  },
  {
    key: "oxideGrowth",
    block: ["oxideGrowth"],
    fields: [
      text(["oxideGrowth", "oxide"]),
      figure(["oxideGrowth", "preExponential"], "m²/s"),
      figure(["oxideGrowth", "activationEnergy"], "J/mol"),
      number(["oxideGrowth", "fittedFrom"], "K", "degC"),
      number(["oxideGrowth", "fittedTo"], "K", "degC"),
      plain(["oxideGrowth", "refractiveIndex"]),
    ],
  },
  { key: "cautions", fields: [{ kind: "lines", path: ["cautions"] }] },
];

export const colourClasses = ["white", "mid", "dark", "clear", "natural"] as const;

const colourGroups = (entry: Tree): Group[] =>
  colourClasses
    .filter((colour) => isTree(readAt(entry, ["optics", colour])))
    .map((colour) => ({
      key: "optics",
      of: colour,
      fields: [
        figure(["optics", colour, "absorption"], "1/m"),
        figure(["optics", colour, "scattering"], "1/m"),
        { kind: "colour", path: ["appearance", colour] },
      ],
    }));

const layerGroups = (entry: Tree): readonly Group[] => [
  {
    key: "name",
    fields: [
      text(["name"]),
      { kind: "choice", path: ["group"], values: ["coating", "oxide", "contaminant", "metallic"] },
      figure(["usualThickness"], "m"),
    ],
  },
  ...colourGroups(entry),
  { key: "surface", fields: [share(["externalReflectance"]), share(["internalReflectance"])] },
  {
    key: "heat",
    fields: [
      figure(["density"], "kg/m³"),
      figure(["conductivity"], "W/(m·K)"),
      figure(["heatCapacity"], "J/(kg·K)"),
      figure(["expansion"], "1/K"),
    ],
  },
  {
    key: "decomposition",
    block: ["decomposition"],
    fields: [
      figure(["decomposition", "preExponential"], "1/s"),
      figure(["decomposition", "activationEnergy"], "J/mol"),
      figure(["decomposition", "heat"], "J/kg"),
      share(["decomposition", "charFraction"]),
    ],
  },
  ...(isTree(entry.decomposition)
    ? [
        {
          key: "char",
          block: ["decomposition", "char"],
          fields: [
            figure(["decomposition", "char", "absorption"], "1/m"),
            figure(["decomposition", "char", "preExponential"], "1/s"),
            figure(["decomposition", "char", "activationEnergy"], "J/mol"),
          ],
        },
      ]
    : []),
  {
    key: "ablation",
    fields: [
      maybe(["ablationTemperature"], "K"),
      maybe(["ablationHeat"], "J/kg"),
      maybe(["damageTemperature"], "K"),
      figure(["incubation"], "1"),
    ],
  },
  {
    key: "bond",
    fields: [
      figure(["interfaceTemperature"], "K"),
      figure(["interfaceActivationEnergy"], "J/mol"),
      figure(["adhesionStrength"], "Pa", "MPa"),
      figure(["adhesionScatter"], "1"),
      figure(["filmStrength"], "Pa", "MPa"),
      figure(["youngsModulus"], "Pa", "GPa"),
      figure(["poissonRatio"], "1"),
    ],
  },
  {
    key: "pits",
    block: ["pits"],
    fields: [share(["pits", "areaShare"]), figure(["pits", "depthRatio"], "1")],
  },
  {
    key: "hazards",
    fields: [
      { kind: "choices", path: ["fume"], values: [] },
      { kind: "choices", path: ["mayHold"], values: ["lead", "chromate", "cadmium", "asbestos"] },
    ],
  },
];

const setupGroups = (entry: Tree): readonly Group[] => [
  {
    key: "name",
    fields: [
      text(["name"]),
      { kind: "choice", path: ["kind"], values: ["pulsed", "continuous"] },
      number(["wavelength"], "m", "nm"),
      number(["ratedPower"], "W", "W"),
    ],
  },
  {
    key: "beam",
    fields: [
      plain(["beamQualityM2"]),
      { kind: "choice", path: ["profile"], values: ["gaussian", "top-hat"] },
      plain(["fibreNumericalAperture"]),
      number(["beamDiameterOnLens"], "m", "mm"),
      {
        kind: "rows",
        path: ["lenses"],
        columns: [
          { key: "id", panel: null },
          { key: "focalLength", panel: "mm" },
          { key: "spotDiameter", panel: "um" },
          { key: "rayleighLength", panel: "mm" },
          { key: "fieldSide", panel: "mm" },
        ],
      },
    ],
  },
  {
    key: "pulses",
    fields: [
      {
        kind: "rows",
        path: ["pulses"],
        columns: [
          { key: "width", panel: "ns" },
          { key: "energyMax", panel: "mJ" },
          { key: "frequencyMax", panel: "kHz" },
        ],
      },
      number(["frequencyMin"], "Hz", "kHz"),
      number(["frequencyMax"], "Hz", "kHz"),
    ],
  },
  ...(entry.kind === "continuous"
    ? [
        {
          key: "modulation",
          block: ["modulation"],
          fields: [
            number(["modulation", "frequencyMin"], "Hz", "kHz"),
            number(["modulation", "frequencyMax"], "Hz", "kHz"),
            number(["modulation", "dutyMin"], "1", "%"),
          ],
        },
      ]
    : []),
  {
    key: "scanner",
    fields: [
      number(["speedMin"], "m/s", "mm/s"),
      number(["speedMax"], "m/s", "mm/s"),
      number(["acceleration"], "m/s2", "m/s2"),
      number(["lineSpacingMin"], "m", "um"),
      { kind: "number", path: ["passesMax"], si: "1", panel: "", whole: true },
      number(["defocusMax"], "m", "mm"),
    ],
  },
  {
    key: "delivery",
    fields: [
      { kind: "choices", path: ["deliveries"], values: ["scanner", "hand", "robot"] },
      number(["smallestConcaveRadius"], "m", "mm"),
    ],
  },
  {
    key: "handLineWidth",
    block: ["handLineWidth"],
    fields: [number(["handLineWidth", "min"], "m", "mm"), number(["handLineWidth", "max"], "m", "mm")],
  },
  {
    key: "price",
    fields: [
      { kind: "choice", path: ["price", "class"], values: ["A", "B", "C", "D", "E"] },
      plain(["price", "low"]),
      plain(["price", "high"]),
      text(["price", "currency"]),
      number(["wallPlugEfficiency"], "1", "%"),
    ],
  },
];

/** What an entry of a shelf consists of, in the order of its page. Blocks that it leaves out are listed too. */
export function groupsOf(shelf: ShelfKey, entry: Tree): readonly Group[] {
  return shelf === "metals" ? metalGroups : shelf === "layers" ? layerGroups(entry) : setupGroups(entry);
}

/** True for a group that stands in the entry, or that every entry has. */
export const groupThere = (entry: Tree, group: Group): boolean =>
  group.block === undefined || isTree(readAt(entry, group.block));

/** Name of a field in the words of the page: its path without the colour class or the row. */
export const fieldKey = (path: Path): string =>
  path.filter((step) => typeof step === "string" && !(colourClasses as readonly string[]).includes(step)).join(".");
