import type { Metal, MetalSample, Metre } from "#terms";
import { drawProperty } from "./property-quantile.ts";
import { commonTemperatures, scaleTable, spreadProperty } from "./scale-table.ts";

/** Shares used up by one metal. */
export const metalDimensions = 12;

/** A metal with every property read at its own share of `u`, from `offset` on. */
export function drawMetal(metal: Metal, thickness: Metre, u: ArrayLike<number>, offset: number): MetalSample {
  const at = (k: number) => u[offset + k]!;
  const { conductivity, heatCapacity, oxideGrowth } = metal;
  const factor = (spread: number, source: string, k: number) => drawProperty(spreadProperty(spread, source), at(k));
  const temperature = commonTemperatures(conductivity, heatCapacity);
  const melting = drawProperty(metal.meltingTemperature, at(2));
  const service = metal.serviceTemperature === null ? null : drawProperty(metal.serviceTemperature, at(9));
  return {
    metalId: metal.id,
    thickness,
    temperature,
    absorptance: drawProperty(metal.absorptance, at(0), "share"),
    conductivity: scaleTable(conductivity, temperature, factor(conductivity.relativeSpread, conductivity.source, 1)),
    meltingTemperature: melting,
    heatCapacity: scaleTable(heatCapacity, temperature, factor(heatCapacity.relativeSpread, heatCapacity.source, 3)),
    latentHeatMelting: drawProperty(metal.latentHeatMelting, at(4)),
    // Wide user ranges could cross: a metal boils above its melting point and is harmed no later than it melts.
    boilingTemperature: Math.max(1.01 * melting, drawProperty(metal.boilingTemperature, at(5))),
    latentHeatBoiling: drawProperty(metal.latentHeatBoiling, at(6)),
    density: drawProperty(metal.density, at(7)),
    expansion: drawProperty(metal.expansion, at(8)),
    serviceTemperature: service === null ? null : Math.min(melting, service),
    oxide:
      oxideGrowth === null
        ? null
        : {
            preExponential: drawProperty(oxideGrowth.preExponential, at(10)),
            activationEnergy: drawProperty(oxideGrowth.activationEnergy, at(11)),
            refractiveIndex: oxideGrowth.refractiveIndex,
          },
  };
}
