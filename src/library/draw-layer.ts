import type { Char, LayerSample, Property, StackLayer } from "#terms";
import { opticsOf } from "./layer-optics.ts";
import { drawProperty } from "./property-quantile.ts";

/** Shares used up by one layer, whatever it lacks: draws of other properties must not move when one is absent. */
export const layerDimensions = 26;

function drawChar(char: Char, u: ArrayLike<number>, offset: number) {
  return {
    absorption: drawProperty(char.absorption, u[offset]!),
    preExponential: drawProperty(char.preExponential, u[offset + 1]!),
    activationEnergy: drawProperty(char.activationEnergy, u[offset + 2]!),
  };
}

/** Shares used up by the char of one layer. They stand behind those of all layers, which were there first. */
export const charDimensions = 3;

/**
 * One layer with every property read at its own share of `u`: its own from `offset` on, those of its char from
 * `charOffset` on.
 */
export function drawLayer(layer: StackLayer, u: ArrayLike<number>, offset: number, charOffset: number): LayerSample {
  const { kind, thickness } = layer;
  const optics = opticsOf(kind, layer.colour);
  const positive = (property: Property, k: number) => drawProperty(property, u[offset + k]!);
  const share = (property: Property, k: number) => drawProperty(property, u[offset + k]!, "share");
  const maybe = (property: Property | null, k: number) => (property === null ? null : positive(property, k));
  const d = kind.decomposition;
  return {
    kindId: kind.id,
    mustStay: layer.mustStay,
    thickness: positive(thickness, 0),
    absorption: positive(optics.absorption, 1),
    scattering: positive(optics.scattering, 2),
    interfaceTemperature: positive(kind.interfaceTemperature, 3),
    adhesionStrength: positive(kind.adhesionStrength, 4),
    conductivity: positive(kind.conductivity, 5),
    heatCapacity: positive(kind.heatCapacity, 6),
    density: positive(kind.density, 7),
    interfaceActivationEnergy: positive(kind.interfaceActivationEnergy, 8),
    adhesionScatter: positive(kind.adhesionScatter, 9),
    externalReflectance: share(kind.externalReflectance, 10),
    internalReflectance: share(kind.internalReflectance, 11),
    decomposition:
      d === null
        ? null
        : {
            preExponential: positive(d.preExponential, 12),
            activationEnergy: positive(d.activationEnergy, 13),
            heat: drawProperty(d.heat, u[offset + 14]!, "signed"),
            charFraction: share(d.charFraction, 15),
            ...(d.char === undefined ? {} : { char: drawChar(d.char, u, charOffset) }),
          },
    ablationTemperature: maybe(kind.ablationTemperature, 16),
    ablationHeat: maybe(kind.ablationHeat, 17),
    filmStrength: positive(kind.filmStrength, 18),
    youngsModulus: positive(kind.youngsModulus, 19),
    poissonRatio: Math.min(0.499, positive(kind.poissonRatio, 20)),
    expansion: positive(kind.expansion, 21),
    incubation: Math.min(1, positive(kind.incubation, 22)),
    pitAreaShare: kind.pits === null ? 0 : share(kind.pits.areaShare, 23),
    pitDepthRatio: kind.pits === null ? 0 : positive(kind.pits.depthRatio, 24),
    damageTemperature: maybe(kind.damageTemperature, 25),
  };
}
