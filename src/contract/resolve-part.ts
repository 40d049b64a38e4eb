import type { Face, LayerKind, Metal, PartEnquiry, StackLayer, WeightedStack } from "#terms";
import { formatQuantity, InvalidInput } from "#units";
import { type Alternative, combine, equalShares } from "./alternatives.ts";
import { nonMetals, type PartFile } from "./enquiry-schema.ts";
import { resolveLayer, unknownsOfLayer } from "./resolve-layer.ts";
import { into, intoOrNull } from "./wire-numbers.ts";

/** What the resolver needs of the library. */
export interface LibraryShelves {
  readonly metals: readonly Metal[];
  readonly layerKinds: readonly LayerKind[];
}

/** Metal thicknesses tried when none is stated, with shares; common practice, no source. */
const usualMetalThickness: readonly (readonly [number, number])[] = [
  [0.0015, 0.25],
  [0.004, 0.5],
  [0.01, 0.25],
];

const isNonMetal = (material: string): boolean => (nonMetals as readonly string[]).includes(material);

function metalsOf(material: string, field: string, shelf: readonly Metal[]): Alternative<Metal>[] {
  if (material !== "unknown") {
    const metal = shelf.find((m) => m.id === material);
    if (metal === undefined) {
      const ids = [...shelf.map((m) => m.id), "unknown", ...nonMetals];
      throw new InvalidInput(`${field}.material`, material, "", `unknown material; known: ${ids.join(", ")}`);
    }
    return [{ value: metal, weight: 1, assumption: "" }];
  }
  // A layer of zinc has its own kind, and massive zinc is rare enough to be named by whoever sends it.
  const solid = shelf.filter((m) => m.family !== "zinc");
  const families = [...new Set(solid.map((m) => m.family))];
  return families.flatMap((family) => {
    const members = solid.filter((m) => m.family === family);
    return equalShares(members, (m) => `metal taken as ${m.name}`).map((a) => ({
      ...a,
      weight: a.weight / families.length,
    }));
  });
}

function thicknessesOf(part: PartFile): Alternative<number>[] {
  if (part.thickness_mm !== "unknown") {
    return [{ value: into(part.thickness_mm, "mm"), weight: 1, assumption: "" }];
  }
  return usualMetalThickness.map(([value, weight]) => ({
    value,
    weight,
    assumption: `metal taken as ${formatQuantity(value, "mm")} thick`,
  }));
}

function requireRemovable(part: PartFile, field: string): void {
  const { layers } = part;
  if (layers.length === 0) throw new InvalidInput(`${field}.layers`, "a list of 0", "", "needs at least one layer");
  if (layers.every((layer) => layer.mustStay)) {
    throw new InvalidInput(`${field}.layers`, `a list of ${layers.length}`, "", "at least one layer must come off");
  }
  const firstStay = layers.findIndex((layer) => layer.mustStay);
  const under = layers.findIndex((layer, i) => firstStay >= 0 && i > firstStay && !layer.mustStay);
  if (under >= 0) {
    const rule = "cannot be true above a layer that comes off";
    throw new InvalidInput(`${field}.layers[${firstStay}].mustStay`, "true", "", rule);
  }
}

interface Resolved {
  readonly mixture: WeightedStack[];
  readonly unknowns: string[];
  readonly mayHold: ReadonlySet<string>;
}

function resolveStacks(part: PartFile, field: string, shelves: LibraryShelves): Resolved {
  requireRemovable(part, field);
  const metals = metalsOf(part.material, field, shelves.metals);
  const thicknesses = thicknessesOf(part);
  const ferrous = metals.some((m) => m.value.family === "steel" || m.value.family === "cast-iron");
  const layers = part.layers.map((l, i) =>
    resolveLayer(l, i + 1, `${field}.layers[${i}]`, shelves.layerKinds, ferrous),
  );
  const unknowns = part.layers.flatMap((l, i) => unknownsOfLayer(l, i + 1, layers[i]!));
  if (metals.length > 1) unknowns.push("metal");
  if (thicknesses.length > 1) unknowns.push("metal thickness");
  const mixture = combine([metals, thicknesses, ...layers]).map(({ choice, weight }): WeightedStack => {
    const metal = metals[choice[0]!]!;
    const thickness = thicknesses[choice[1]!]!;
    const chosen: Alternative<StackLayer>[] = layers.map((axis, i) => axis[choice[i + 2]!]!);
    const assumed = [metal, thickness, ...chosen].map((a) => a.assumption).filter((text) => text !== "");
    return {
      stack: { layers: chosen.map((a) => a.value), metal: metal.value, metalThickness: thickness.value },
      weight,
      assumption: assumed.join("; "),
    };
  });
  const mayHold = new Set(layers.flat().flatMap((a) => a.value.kind.mayHold));
  return { mixture, unknowns, mayHold };
}

function faceOf(face: PartFile["faces"][number]): Face {
  return { kind: face.kind, radius: intoOrNull(face.radius_mm, "mm"), note: face.note };
}

/** One part of the file against the library, in SI. `index` is its place in the file, from 0. */
export function resolvePart(part: PartFile, index: number, shelves: LibraryShelves): PartEnquiry {
  const field = `parts[${index}]`;
  const { mixture, unknowns, mayHold } = isNonMetal(part.material)
    ? { mixture: [], unknowns: [], mayHold: new Set<string>() }
    : resolveStacks(part, field, shelves);
  if (part.area_m2 === undefined) unknowns.push("area");
  if (part.lead === "unknown" && mayHold.has("lead")) unknowns.push("lead content");
  if (part.chromate === "unknown" && mayHold.has("chromate")) unknowns.push("chromate content");
  const { acceptance } = part;
  const id = part.id ?? `part-${index + 1}`;
  return {
    id,
    name: part.name ?? id,
    material: part.material,
    mixture,
    area: part.area_m2 ?? 1,
    count: part.count,
    faces: part.faces.map(faceOf),
    acceptance: {
      residueMax: into(acceptance.residueMax_percent, "%"),
      metalConditionMax: acceptance.metalConditionMax,
      metalTemperatureMax: intoOrNull(acceptance.metalTemperatureMax_degC, "degC"),
      tests: acceptance.tests,
      confidence: into(acceptance.confidence_percent, "%"),
    },
    rateWanted: intoOrNull(part.rateWanted_m2_per_h, "m2/h"),
    lead: part.lead,
    chromate: part.chromate,
    unknowns,
    assumptions: assumptionsOf(part, mixture, unknowns),
  };
}

/** Every assumption once, in words. */
function assumptionsOf(part: PartFile, mixture: readonly WeightedStack[], unknowns: readonly string[]): string[] {
  const said: string[] = [];
  if (unknowns.includes("area")) said.push("area not stated: 1 m2 assumed");
  part.layers.forEach((layer, i) => {
    if (mixture.length === 0) return;
    const kinds = [...new Set(mixture.map((m) => m.stack.layers[i]!.kind.name))];
    const shades = [...new Set(mixture.map((m) => m.stack.layers[i]!.colour))];
    if (layer.kind === "unknown") {
      said.push(`layer ${i + 1}: kind unknown, taken as one of the ${layer.group} kinds ${kinds.join(", ")}`);
    }
    if (unknowns.includes(`colour (layer ${i + 1})`)) {
      said.push(`layer ${i + 1}: colour unknown, equal shares over ${shades.join(", ")}`);
    }
    if (layer.thickness_um === "unknown") {
      said.push(`layer ${i + 1}: thickness unknown, usual thickness of the kind with its spread widened`);
    } else if (layer.thicknessSpread_percent === undefined) {
      said.push(`layer ${i + 1}: spread of the thickness not stated, 15 % assumed`);
    }
  });
  if (unknowns.includes("metal")) said.push("metal unknown: equal shares over the families of the library");
  if (unknowns.includes("metal thickness")) said.push("metal thickness not stated: 1.5, 4 and 10 mm assumed");
  return said;
}
