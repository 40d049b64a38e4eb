import type { Library } from "#library";
import type { LayerKind } from "#terms";
import { fromSI } from "#units";
import type { LayerDoc } from "../../enquiry/doc.ts";
import { words } from "../../words/index.ts";

const kindOf = (library: Library, layer: LayerDoc): LayerKind | undefined =>
  library.layerKinds.find((kind) => kind.id === layer.kind);

export const metalChoices = (library: Library) => library.metals.map(({ id, name }) => ({ value: id, label: name }));

export const noMetals = ["stone", "wood", "composite", "concrete", "brick", "glass", "plastic", "ceramic"];

export function metalName(library: Library, id: string | undefined): string {
  return library.metals.find((metal) => metal.id === id)?.name ?? id ?? words.frame.unknown;
}

const groups = ["coating", "oxide", "contaminant", "metallic"] as const;

/** Choices of what a layer is; the unknown of each group first. */
export const kindChoices = ({ layerKinds }: Library) =>
  groups.map((group) => ({
    group: words.groups[group] ?? group,
    items: [
      { value: `unknown:${group}`, label: words.part.kindUnknown(words.groups[group] ?? group) },
      ...layerKinds.filter((kind) => kind.group === group).map((kind) => ({ value: kind.id, label: kind.name })),
    ],
  }));

export function kindValue(layer: LayerDoc): string {
  return layer.kind && layer.kind !== "unknown" ? layer.kind : `unknown:${layer.group ?? "coating"}`;
}

export function kindChange(library: Library, value: string): Partial<LayerDoc> {
  if (value.startsWith("unknown:")) {
    return { kind: "unknown", group: value.slice(8) as NonNullable<LayerDoc["group"]>, colour: "unknown" };
  }
  const kind = kindOf(library, { kind: value });
  const only = kind ? Object.keys(kind.optics) : [];
  return {
    kind: value,
    ...(kind ? { group: kind.group } : {}),
    colour: (only.length === 1 ? only[0] : "unknown") as NonNullable<LayerDoc["colour"]>,
  };
}

export function colourChoices(library: Library, layer: LayerDoc): { value: string; label: string }[] {
  const kind = kindOf(library, layer);
  const known = kind ? Object.keys(kind.optics) : ["white", "mid", "dark", "clear"];
  const choices = known.length === 1 ? known : ["unknown", ...known];
  return choices.map((value) => ({ value, label: words.colours[value] ?? value }));
}

export function colourValue(library: Library, layer: LayerDoc): string {
  const choices = colourChoices(library, layer).map((choice) => choice.value);
  return layer.colour && choices.includes(layer.colour) ? layer.colour : (choices[0] ?? "unknown");
}

export function layerName(library: Library, layer: LayerDoc): string {
  const kind = kindOf(library, layer);
  if (kind) return kind.name;
  if (layer.kind && layer.kind !== "unknown") return layer.kind;
  return words.part.kindUnknown(words.groups[layer.group ?? "coating"] ?? "");
}

/** The colour a layer is drawn in. */
export function layerColour(library: Library, layer: LayerDoc): string {
  const kind = kindOf(library, layer);
  const shown = kind
    ? (kind.appearance[colourValue(library, layer) as "mid"] ?? Object.values(kind.appearance)[0])
    : undefined;
  return shown ?? "var(--rule-strong)";
}

/** µm, what the library takes where nobody knows. */
export function usualThicknessOf(library: Library, layer: LayerDoc): number {
  const kind = kindOf(library, layer);
  return kind ? fromSI(kind.usualThickness.value, "um") : 60;
}
