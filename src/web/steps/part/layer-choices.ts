import { layerKinds, metals } from "#library";
import type { LayerKind } from "#terms";
import { fromSI } from "#units";
import type { LayerDoc } from "../../enquiry/doc.ts";
import { words } from "../../words/index.ts";

const kindById: ReadonlyMap<string, LayerKind> = new Map(layerKinds.map((kind) => [kind.id, kind]));

export const metalChoices = metals.map((metal) => ({ value: metal.id, label: metal.name }));

export const noMetals = ["stone", "wood", "composite", "concrete", "brick", "glass", "plastic", "ceramic"];

export function metalName(id: string | undefined): string {
  return metals.find((metal) => metal.id === id)?.name ?? id ?? words.frame.unknown;
}

const groups = ["coating", "oxide", "contaminant", "metallic"] as const;

/** Choices of what a layer is; the unknown of each group first. */
export const kindChoices = groups.map((group) => ({
  group: words.groups[group] ?? group,
  items: [
    { value: `unknown:${group}`, label: words.part.kindUnknown(words.groups[group] ?? group) },
    ...layerKinds.filter((kind) => kind.group === group).map((kind) => ({ value: kind.id, label: kind.name })),
  ],
}));

export function kindValue(layer: LayerDoc): string {
  return layer.kind && layer.kind !== "unknown" ? layer.kind : `unknown:${layer.group ?? "coating"}`;
}

export function kindChange(value: string): Partial<LayerDoc> {
  if (value.startsWith("unknown:")) {
    return { kind: "unknown", group: value.slice(8) as NonNullable<LayerDoc["group"]>, colour: "unknown" };
  }
  const kind = kindById.get(value);
  const only = kind ? Object.keys(kind.optics) : [];
  return {
    kind: value,
    ...(kind ? { group: kind.group } : {}),
    colour: (only.length === 1 ? only[0] : "unknown") as NonNullable<LayerDoc["colour"]>,
  };
}

export function colourChoices(layer: LayerDoc): { value: string; label: string }[] {
  const kind = kindById.get(layer.kind ?? "");
  const known = kind ? Object.keys(kind.optics) : ["white", "mid", "dark", "clear"];
  const choices = known.length === 1 ? known : ["unknown", ...known];
  return choices.map((value) => ({ value, label: words.colours[value] ?? value }));
}

export function colourValue(layer: LayerDoc): string {
  const choices = colourChoices(layer).map((choice) => choice.value);
  return layer.colour && choices.includes(layer.colour) ? layer.colour : (choices[0] ?? "unknown");
}

export function layerName(layer: LayerDoc): string {
  const kind = kindById.get(layer.kind ?? "");
  if (kind) return kind.name;
  if (layer.kind && layer.kind !== "unknown") return layer.kind;
  return words.part.kindUnknown(words.groups[layer.group ?? "coating"] ?? "");
}

/** The colour a layer is drawn in. */
export function layerColour(layer: LayerDoc): string {
  const kind = kindById.get(layer.kind ?? "");
  const shown = kind ? (kind.appearance[colourValue(layer) as "mid"] ?? Object.values(kind.appearance)[0]) : undefined;
  return shown ?? "var(--rule-strong)";
}

/** µm, what the library takes where nobody knows. */
export function usualThicknessOf(layer: LayerDoc): number {
  const kind = kindById.get(layer.kind ?? "");
  return kind ? fromSI(kind.usualThickness.value, "um") : 60;
}
