import type { Metal, Property, Stack, StackLayer } from "#terms";
import { opticsOf } from "./layer-optics.ts";
import { conversionEnergy, conversionRate, plumeFactor } from "./removal-priors.ts";

type Named = readonly (readonly [name: string, property: Property | null])[];

/** The kind that heat turns to magnetite; on any other the kinetics of conversion are without effect. */
const CONVERTS = "red-rust";

const uncertain = (p: Property | null): boolean => p !== null && p.distribution !== "fixed" && p.low !== p.high;

/** Names in the order of `drawMetal`, null where nothing can move. */
function metalNames(metal: Metal): (string | null)[] {
  const growth = metal.oxideGrowth;
  const own: Named = [
    ["absorptance", metal.absorptance],
    ["melting-temperature", metal.meltingTemperature],
    ["melting-heat", metal.latentHeatMelting],
    ["boiling-temperature", metal.boilingTemperature],
    ["boiling-heat", metal.latentHeatBoiling],
    ["density", metal.density],
    ["expansion", metal.expansion],
    ["service-temperature", metal.serviceTemperature],
    ["oxide-rate", growth?.preExponential ?? null],
    ["oxide-energy", growth?.activationEnergy ?? null],
  ];
  const names = own.map(([name, p]) => (uncertain(p) ? `metal:${metal.id}:${name}` : null));
  const table = (name: string, spread: number) => (spread > 0 ? `metal:${metal.id}:${name}` : null);
  // Tables are drawn second and fourth, each by one factor.
  names.splice(1, 0, table("conductivity", metal.conductivity.relativeSpread));
  names.splice(3, 0, table("heat-capacity", metal.heatCapacity.relativeSpread));
  return names;
}

/** What one layer draws, in the order of `drawLayer`. */
function layerProperties({ kind, colour, thickness }: StackLayer): Named {
  const optics = opticsOf(kind, colour);
  const d = kind.decomposition;
  return [
    ["thickness", thickness],
    ["absorption", optics.absorption],
    ["scattering", optics.scattering],
    ["interface-temperature", kind.interfaceTemperature],
    ["adhesion-strength", kind.adhesionStrength],
    ["conductivity", kind.conductivity],
    ["heat-capacity", kind.heatCapacity],
    ["density", kind.density],
    ["interface-energy", kind.interfaceActivationEnergy],
    ["adhesion-scatter", kind.adhesionScatter],
    ["external-reflectance", kind.externalReflectance],
    ["internal-reflectance", kind.internalReflectance],
    ["decomposition-rate", d?.preExponential ?? null],
    ["decomposition-energy", d?.activationEnergy ?? null],
    ["decomposition-heat", d?.heat ?? null],
    ["char-fraction", d?.charFraction ?? null],
    ["ablation-temperature", kind.ablationTemperature],
    ["ablation-heat", kind.ablationHeat],
    ["film-strength", kind.filmStrength],
    ["youngs-modulus", kind.youngsModulus],
    ["poisson-ratio", kind.poissonRatio],
    ["expansion", kind.expansion],
    ["incubation", kind.incubation],
    ["pit-area", kind.pits?.areaShare ?? null],
    ["pit-depth", kind.pits?.depthRatio ?? null],
    ["damage-temperature", kind.damageTemperature],
  ];
}

function charProperties({ kind }: StackLayer): Named {
  const char = kind.decomposition?.char;
  return [
    ["char-absorption", char?.absorption ?? null],
    ["char-burn-off-rate", char?.preExponential ?? null],
    ["char-burn-off-energy", char?.activationEnergy ?? null],
  ];
}

/** Every layer of one kind and colour as often as it came before: the second alkyd of a stack is not the first. */
function earlierTwins(layers: readonly StackLayer[]): number[] {
  return layers.map(
    (layer, i) => layers.slice(0, i).filter((l) => l.kind.id === layer.kind.id && l.colour === layer.colour).length,
  );
}

/**
 * Names of the shares of one draw of a stack, in the order of `DrawnStack.shares`; null where the property is absent,
 * fixed or without effect in this stack. A name holds for every stack with the same kind and colour or the same metal:
 * `layer:<kind>:<colour>:<property>`, from the second such layer of a stack on with `#2`, `#3` …;
 * `metal:<id>:<property>`; `machine:spot`, `machine:power`, `plume`, `conversion:rate`, `conversion:energy`.
 * @throws InvalidInput when a colour class is unknown to its kind
 */
export function coordinateNames(stack: Stack): readonly (string | null)[] {
  const { layers } = stack;
  const twins = earlierTwins(layers);
  const named = (list: Named, layer: StackLayer, i: number) =>
    list.map(([name, p]) =>
      uncertain(p) ? `layer:${layer.kind.id}:${layer.colour}:${name}${twins[i]! > 0 ? `#${twins[i]! + 1}` : ""}` : null,
    );
  const converts = layers.some((l) => l.kind.id === CONVERTS);
  return [
    "machine:spot",
    "machine:power",
    ...metalNames(stack.metal),
    ...layers.flatMap((layer, i) => named(layerProperties(layer), layer, i)),
    ...layers.flatMap((layer, i) => named(charProperties(layer), layer, i)),
    uncertain(plumeFactor) ? "plume" : null,
    converts && uncertain(conversionRate) ? "conversion:rate" : null,
    converts && uncertain(conversionEnergy) ? "conversion:energy" : null,
  ];
}
