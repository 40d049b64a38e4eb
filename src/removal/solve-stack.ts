import { layerEdges, linearColumn } from "#heat";
import { depositLight } from "#light";
import type { LayerSample, StackSample } from "#terms";
import { effectiveMetal } from "./effective-metal.ts";

/** A layer with the thickness that is left of it. */
export interface LeftLayer {
  readonly layer: LayerSample;
  readonly thickness: number;
}

/** s: no neighbouring pulse is waited for longer than this when a layer goes on reacting after the pulse. */
const LONGEST_FOLLOW = 20e-6;
const CELLS_ONE_LAYER = 22;
const CELLS_OF_MANY = 14;

/** Light and linear heat of one arrangement of layers on the metal. */
export function solveLinear(
  sample: StackSample,
  all: readonly { layer: LayerSample; thickness: number }[],
  edges: Float64Array,
  cells: number,
  stripCells: number,
  duration: number,
  shape: "square" | "gaussian",
) {
  const absorbed = new Float64Array(cells);
  const top = all[0]?.layer;
  const light = depositLight(
    {
      layers: all.map(({ layer, thickness }) => ({
        thickness,
        absorption: layer.absorption,
        scattering: layer.scattering,
      })),
      metalAbsorptance: sample.metal.absorptance,
      externalReflectance: top ? top.externalReflectance : 0,
      internalReflectance: top ? top.internalReflectance : 0,
    },
    edges,
    absorbed,
  );
  const metal = effectiveMetal(sample.metal);
  const column = linearColumn(
    {
      layers: all.map(({ layer, thickness }) => ({
        thickness,
        conductivity: layer.conductivity,
        volumetricHeat: layer.density * layer.heatCapacity,
      })),
      edges,
      absorbed,
      metalAbsorbed: light.metalAbsorbed,
      metalConductivity: metal.conductivity,
      metalVolumetricHeat: metal.volumetricHeat,
      metalThickness: sample.metal.thickness,
      duration,
      shape,
      followFor: followFor(all, duration),
    },
    stripCells,
  );
  return { light, column, absorbed };
}

/** Cooling is followed until the heated layer has relaxed into the metal, but not past a usual pulse period. */
function followFor(layers: readonly { layer: LayerSample; thickness: number }[], duration: number): number {
  let relax = 0;
  for (const { layer, thickness } of layers)
    relax += (thickness * thickness * layer.density * layer.heatCapacity) / layer.conductivity;
  return Math.max(duration, Math.min(relax, LONGEST_FOLLOW));
}

/** Cell edges of all layers from the top, which layer owns each cell, and how many cells belong to the strip. */
export function stackGrid(
  layers: readonly { layer: LayerSample; thickness: number }[],
  offCount: number,
  duration: number,
  perLayer = layers.length > 1 ? CELLS_OF_MANY : CELLS_ONE_LAYER,
) {
  const edges: number[] = [0];
  const owner: number[] = [];
  let from = 0;
  let stripCells = 0;
  layers.forEach(({ layer, thickness }, index) => {
    const skin = Math.sqrt((4 * layer.conductivity * duration) / (layer.density * layer.heatCapacity));
    const local = layerEdges(thickness, 0.2 * skin, perLayer);
    for (let i = 1; i < local.length; i++) {
      edges.push(from + local[i]);
      owner.push(index);
    }
    from += thickness;
    if (index < offCount) stripCells = owner.length;
  });
  return { edges: Float64Array.from(edges), owner, stripCells };
}
