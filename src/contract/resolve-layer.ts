import { coloursOf as coloursOfKind, type LayerFamily, unknownLayerMixture } from "#library";
import type { ColourClass, LayerKind, Property, StackLayer } from "#terms";
import { formatRange, InvalidInput } from "#units";
import type { Alternative } from "./alternatives.ts";
import type { LayerFile } from "./enquiry-schema.ts";
import { into } from "./wire-numbers.ts";

/** Share by which a stated thickness scatters when the file names no spread; common practice, no source. */
const usualSpread = 0.15;

/** Stretch of the logarithmic spread of a usual thickness when nobody has measured it. */
const widening = 1.5;

/** Thickness as stated: lognormal, its 95 % point `spread` above the median. */
function statedThickness(median: number, spread: number): Property {
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
function assumedThickness(kind: LayerKind): Property {
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

/** Guesses of the library by group, where it has any: common practice, no source. */
const guessedFamily: Readonly<Partial<Record<LayerFile["group"], LayerFamily>>> = { coating: "paint", oxide: "rust" };

/** Shares of the kinds that an unknown layer may be: the library's guess, or equal shares where it has none. */
function unknownKinds(layer: LayerFile, field: string, kinds: readonly LayerKind[], ferrous: boolean): KindShare[] {
  const { colour, group } = layer;
  const ironOnly = new Set(unknownLayerMixture("rust").map((guess) => guess.kind.id));
  const fitting = kinds.filter(
    (k) =>
      k.group === group &&
      (ferrous || !ironOnly.has(k.id)) &&
      (colour === undefined || colour === "unknown" || k.optics[colour] !== undefined),
  );
  if (fitting.length === 0) {
    const rule = `no ${group} of the library fits this colour and metal`;
    throw new InvalidInput(`${field}.colour`, colour ?? "unknown", "", rule);
  }
  const family = guessedFamily[group];
  const guesses = family === undefined ? [] : unknownLayerMixture(family);
  const shares = fitting.map((k) => guesses.find((guess) => guess.kind.id === k.id)?.weight ?? 0);
  const total = shares.reduce((sum, weight) => sum + weight, 0);
  if (total === 0) return fitting.map((kind) => ({ kind, weight: 1 / fitting.length }));
  return fitting.map((kind, i) => ({ kind, weight: shares[i]! / total })).filter(({ weight }) => weight > 0);
}

interface KindShare {
  readonly kind: LayerKind;
  readonly weight: number;
}

function kindsOf(layer: LayerFile, field: string, kinds: readonly LayerKind[], ferrous: boolean): KindShare[] {
  if (layer.kind === "unknown") return unknownKinds(layer, field, kinds, ferrous);
  const kind = kinds.find((k) => k.id === layer.kind);
  if (kind !== undefined) return [{ kind, weight: 1 }];
  const rule = `unknown layer kind; known: ${kinds.map((k) => k.id).join(", ")}, unknown`;
  throw new InvalidInput(`${field}.kind`, layer.kind, "", rule);
}

function coloursOf(layer: LayerFile, kind: LayerKind, field: string): ColourClass[] {
  const { colour } = layer;
  if (colour === undefined || colour === "unknown") return coloursOfKind(kind);
  if (kind.optics[colour] === undefined) {
    const rule = `${kind.id} is known as ${coloursOfKind(kind).join(", ")}`;
    throw new InvalidInput(`${field}.colour`, colour, "", rule);
  }
  return [colour];
}

/**
 * What one layer of the file may be. `position` counts from 1 at the top; `field` is its place in the file; `ferrous`
 * says whether the metal can rust, so that nobody is offered rust on aluminium.
 */
export function resolveLayer(
  layer: LayerFile,
  position: number,
  field: string,
  kinds: readonly LayerKind[],
  ferrous: boolean,
): Alternative<StackLayer>[] {
  return kindsOf(layer, field, kinds, ferrous).flatMap(({ kind, weight }) => {
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
        weight: weight / shades.length,
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
