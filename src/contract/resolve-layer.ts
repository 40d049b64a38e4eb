import type { ColourClass, LayerKind, Property, StackLayer } from "#terms";
import { formatRange, InvalidInput } from "#units";
import { type Alternative, equalShares } from "./alternatives.ts";
import type { LayerFile } from "./enquiry-schema.ts";
import { into } from "./wire-numbers.ts";

/** Share by which a stated thickness scatters when the file names no spread; common practice, no source. */
const usualSpread = 0.15;

/** Stretch of the logarithmic spread of a usual thickness when nobody has measured it. */
const widening = 1.5;

const colours = (kind: LayerKind): ColourClass[] => Object.keys(kind.optics) as ColourClass[];

/** Thickness as stated: lognormal, its 95 % point `spread` above the median. */
export function statedThickness(median: number, spread: number): Property {
  return {
    value: median,
    low: median / (1 + spread),
    high: median * (1 + spread),
    distribution: spread === 0 ? "fixed" : "lognormal",
    unit: "m",
    validRange: "this part",
    source: "user",
    fromMemory: false,
  };
}

/** The usual thickness of the kind with its spread widened, since nobody has measured this one. */
export function assumedThickness(kind: LayerKind): Property {
  const { value, low, high } = kind.usualThickness;
  return {
    ...kind.usualThickness,
    low: value * (low / value) ** widening,
    high: value * (high / value) ** widening,
    distribution: low === high ? "fixed" : "lognormal",
    validRange: "thickness unknown: usual thickness of the kind, spread widened",
  };
}

function thicknessOf(layer: LayerFile, kind: LayerKind): Property {
  if (layer.thickness_um === "unknown") return assumedThickness(kind);
  const spread = layer.thicknessSpread_percent;
  return statedThickness(into(layer.thickness_um, "um"), spread === undefined ? usualSpread : spread / 100);
}

function kindsOf(layer: LayerFile, field: string, kinds: readonly LayerKind[]): LayerKind[] {
  if (layer.kind !== "unknown") {
    const kind = kinds.find((k) => k.id === layer.kind);
    if (kind === undefined) {
      const rule = `unknown layer kind; known: ${kinds.map((k) => k.id).join(", ")}, unknown`;
      throw new InvalidInput(`${field}.kind`, layer.kind, "", rule);
    }
    return [kind];
  }
  const group = kinds.filter((k) => k.group === layer.group);
  const { colour } = layer;
  const fitting =
    colour === undefined || colour === "unknown" ? group : group.filter((k) => k.optics[colour] !== undefined);
  if (fitting.length === 0) {
    const rule = `no ${layer.group} of the library has this colour`;
    throw new InvalidInput(`${field}.colour`, colour ?? "missing", "", rule);
  }
  return fitting;
}

function coloursOf(layer: LayerFile, kind: LayerKind, field: string): ColourClass[] {
  const { colour } = layer;
  if (colour === undefined || colour === "unknown") return colours(kind);
  if (kind.optics[colour] === undefined) {
    const rule = `${kind.id} is known as ${colours(kind).join(", ")}`;
    throw new InvalidInput(`${field}.colour`, colour, "", rule);
  }
  return [colour];
}

/** What one layer of the file may be. `position` counts from 1 at the top; `field` is its place in the file. */
export function resolveLayer(
  layer: LayerFile,
  position: number,
  field: string,
  kinds: readonly LayerKind[],
): Alternative<StackLayer>[] {
  const candidates = kindsOf(layer, field, kinds);
  return equalShares(candidates, () => "").flatMap((candidate) => {
    const kind = candidate.value;
    const shades = coloursOf(layer, kind, field);
    return shades.map((colour) => {
      const thickness = thicknessOf(layer, kind);
      const assumed: string[] = [];
      if (layer.kind === "unknown") assumed.push(`taken as ${kind.name}`);
      if (shades.length > 1) assumed.push(`taken as ${colour} in colour`);
      if (layer.thickness_um === "unknown") {
        assumed.push(`thickness taken as ${formatRange(thickness.low, thickness.high, "um", 2)}`);
      }
      return {
        value: { kind, colour, thickness, mustStay: layer.mustStay },
        weight: candidate.weight / shades.length,
        assumption: assumed.length === 0 ? "" : `layer ${position} ${assumed.join(", ")}`,
      };
    });
  });
}

/** What is unknown about a layer, in words that begin with the same few phrases everywhere. */
export function unknownsOfLayer(
  layer: LayerFile,
  position: number,
  alternatives: readonly Alternative<StackLayer>[],
): string[] {
  const found: string[] = [];
  if (layer.kind === "unknown") found.push(`layer kind (layer ${position})`);
  const perKind = new Map<string, number>();
  for (const { value } of alternatives) perKind.set(value.kind.id, (perKind.get(value.kind.id) ?? 0) + 1);
  if ([...perKind.values()].some((n) => n > 1)) found.push(`colour (layer ${position})`);
  if (layer.thickness_um === "unknown") found.push(`thickness (layer ${position})`);
  return found;
}
