import type { LayerSample, StackSample } from "#terms";
import { charNodes } from "./char-node.ts";
import { conversionTemperature } from "./conversion-temperature.ts";
import type { InnerFace, Kernel, KernelNode } from "./kernel-types.ts";
import { solveLinear, stackGrid } from "./solve-stack.ts";
import { remainingLayers, stripOf } from "./strip.ts";

/** Thicknesses at which the law is tabulated: bare, just under the residue limit, then geometric to the thickest pit. */
export function remainingNodes(
  strip: { thickness: number; residueThickness: number },
  pitDepthRatio: number,
): number[] {
  const full = strip.thickness;
  const least = Math.min(0.6 * strip.residueThickness, 0.5 * full);
  const nodes = [0, least];
  const steps = 4;
  for (let i = 1; i <= steps; i++) nodes.push(least * (full / least) ** (i / steps));
  if (pitDepthRatio > 0) nodes.push(full * (1 + pitDepthRatio));
  return nodes;
}

/**
 * Kernel of one version of the physics for one duration: light deposited by two-flux optics, heat by the linear
 * column, at each remaining thickness.
 *
 * Units: duration s. Range: any duration above 0. Errors: none.
 * Source: `#light`, `#heat`; the reaction time near the peak by `conversionTemperature`.
 */
export function buildKernel(sample: StackSample, duration: number, shape: "square" | "gaussian"): Kernel {
  const strip = stripOf(sample);
  const deepestPit = Math.max(0, ...strip.off.map((l) => (l.pitAreaShare > 0 ? l.pitDepthRatio : 0)));
  const remaining = strip.off.length > 0 ? remainingNodes(strip, deepestPit) : [0];
  return {
    duration,
    shape,
    // FWHM of exp(−8 t²/duration²) is √(ln 2/2)·duration.
    reactionTime: shape === "square" ? duration : Math.sqrt(Math.LN2 / 2) * duration,
    nodes: remaining.map((r) => kernelNode(sample, remainingLayers(strip.off, r), strip.stay, r, duration, shape)),
    charNodes: once(() => charNodes(sample, duration, shape)),
  };
}

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

function kernelNode(
  sample: StackSample,
  off: readonly { layer: LayerSample; thickness: number }[],
  stay: readonly LayerSample[],
  remaining: number,
  duration: number,
  shape: "square" | "gaussian",
): KernelNode {
  const all = [...off, ...stay.map((layer) => ({ layer, thickness: layer.thickness }))];
  const { edges, owner, stripCells } = stackGrid(all, off.length, duration);
  const cells = owner.length;
  const { light, column, absorbed } = solveLinear(sample, all, edges, cells, stripCells, duration, shape);
  const depth = new Float64Array(stripCells);
  const eatenAt = new Float64Array(stripCells);
  const char = new Float64Array(stripCells);
  let heatInStay = 0;
  let heatInStrip = 0;
  for (let i = 0; i < cells; i++) {
    if (i >= stripCells) {
      heatInStay += absorbed[i];
      continue;
    }
    heatInStrip += absorbed[i];
    const { layer } = all[owner[i]];
    depth[i] = edges[i + 1];
    eatenAt[i] = eatenTemperature(layer, column.timeNearPeak[i]);
    char[i] = layer.decomposition?.char && layer.decomposition.charFraction > 0 ? 1 : 0;
  }
  const stayRise = cells > stripCells ? column.peak[stripCells] : 0;
  return {
    remaining,
    metalRise: column.metalPeak,
    interfaceRise:
      cells > stripCells ? Math.max(stayRise, stripCells > 0 ? column.peak[stripCells - 1] : 0) : column.metalPeak,
    meanRise: stripCells > 0 ? column.meanPeak : 0,
    depth,
    rise: column.peak.slice(0, stripCells),
    eatenAt,
    char,
    stayRise,
    heatShare: light.metalAbsorbed + heatInStay,
    stripShare: heatInStrip,
    volumetricHeat: off.length > 0 ? off[0].layer.density * off[0].layer.heatCapacity : 0,
    relaxation: relaxationTime(off),
    inner: innerFaces(off, owner, edges, column.peak),
  };
}

/** Faces between the strip layers of one node. */
function innerFaces(
  off: readonly { layer: LayerSample; thickness: number }[],
  owner: readonly number[],
  edges: Float64Array,
  peak: Float64Array,
): InnerFace[] {
  const faces: InnerFace[] = [];
  for (let j = 0; j + 1 < off.length; j++) {
    const cell = owner.lastIndexOf(j);
    let sum = 0;
    for (let i = 0; i <= cell; i++) sum += peak[i] * (edges[i + 1] - edges[i]);
    faces.push({
      above: off.slice(0, j + 1).map(({ layer, thickness }) => ({
        thickness,
        interfaceTemperature: layer.interfaceTemperature,
        interfaceActivationEnergy: layer.interfaceActivationEnergy,
        adhesionStrength: layer.adhesionStrength,
        // The library holds adhesion to metal; nothing is known of how coats hold to each other.
        bondRatio: 1,
        filmStrength: layer.filmStrength,
        softens: layer.decomposition !== null,
      })),
      left: off.slice(j + 1).reduce((total, o) => total + o.thickness, 0),
      rise: 0.5 * (peak[cell] + peak[cell + 1]),
      meanAbove: sum / edges[cell + 1],
    });
  }
  return faces;
}

/** s, slowest decay of heat in layers on a cold metal; (4/π²)·(thermal resistance)·(heat capacity per area). */
function relaxationTime(layers: readonly { layer: LayerSample; thickness: number }[]): number {
  let resistance = 0;
  let capacity = 0;
  for (const { layer, thickness } of layers) {
    resistance += thickness / layer.conductivity;
    capacity += thickness * layer.density * layer.heatCapacity;
  }
  return (4 / Math.PI ** 2) * resistance * capacity;
}

/** Temperature at which a cell is eaten, K, with the heat of the reaction or ablation counted as extra rise. */
function eatenTemperature(layer: LayerSample, time: number): number {
  if (layer.decomposition) {
    const { preExponential, activationEnergy, heat } = layer.decomposition;
    return (
      conversionTemperature(preExponential, activationEnergy, Math.max(time, 1e-12)) + (0.5 * heat) / layer.heatCapacity
    );
  }
  if (layer.ablationTemperature !== null)
    return layer.ablationTemperature + (layer.ablationHeat ?? 0) / layer.heatCapacity;
  return Number.POSITIVE_INFINITY;
}
