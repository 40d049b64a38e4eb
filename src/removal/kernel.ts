import { layerEdges, linearColumn } from "#heat";
import { depositLight } from "#light";
import type { LayerSample, StackSample } from "#terms";
import { CARBON_HEAT_CAPACITY } from "./char.ts";
import { conversionTemperature } from "./conversion-temperature.ts";
import { effectiveMetal } from "./effective-metal.ts";
import { remainingLayers, stripOf } from "./strip.ts";

/** What one event (a pulse, or a line pass over a point) does per unit of fluence, for one remaining thickness. */
export interface KernelNode {
  /** m of strip layers left */
  readonly remaining: number;
  /** K·m²/J, peak rise of the metal's surface */
  readonly metalRise: number;
  /** K·m²/J, peak rise at the interface under the strip layers (the metal's surface, or the layer that stays) */
  readonly interfaceRise: number;
  /** K·m²/J, peak of the thickness-averaged rise of the strip layers */
  readonly meanRise: number;
  /** cells of the strip layers from the top: lower edge m, peak rise K·m²/J, temperature at which the cell is eaten K */
  readonly depth: Float64Array;
  readonly rise: Float64Array;
  readonly eatenAt: Float64Array;
  /** 1 where a cell chars when it is heated slowly, 0 where it does not */
  readonly char: Float64Array;
  /** K·m²/J, peak rise at the top of the layer that stays; 0 when none stays */
  readonly stayRise: number;
  /** share of the light that ends up as heat in metal and staying layers, and in the strip layers */
  readonly heatShare: number;
  readonly stripShare: number;
  /** J/(m³·K) of the topmost layer */
  readonly volumetricHeat: number;
  /** s, time in which the strip layers lose the heat they hold to the metal: (4/π²)·(Σh/k)·(Σρch) */
  readonly relaxation: number;
}

export interface Kernel {
  /** s, as handed to the column: square length, or 1/e² full width of a Gaussian in time */
  readonly duration: number;
  readonly shape: "square" | "gaussian";
  /** s, the time that goes into the interface criterion (FWHM for a Gaussian) */
  readonly reactionTime: number;
  /** ascending in `remaining`; the first node is the bare face */
  readonly nodes: readonly KernelNode[];
  /** the strip layers turned to char, by what is left of it; empty where no layer chars; worked out when first asked */
  readonly charNodes: () => readonly CharNode[];
}

/** What one event does to a char that is left on the metal (or on the layer that stays), per unit of fluence. */
export interface CharNode {
  /** m of char, in the room of the layer that it came from; ascending from node to node */
  readonly remaining: number;
  /** kg/m³ */
  readonly density: number;
  /** cells from the top: thickness m, peak rise K·m²/J, time near the peak s */
  readonly width: Float64Array;
  readonly rise: Float64Array;
  readonly time: Float64Array;
  /** share of the light that the char takes */
  readonly share: number;
  /** K·m²/J, peak rise of the metal's surface */
  readonly metalRise: number;
}

/** s: no neighbouring pulse is waited for longer than this when a layer goes on reacting after the pulse. */
const LONGEST_FOLLOW = 20e-6;
const CELLS_ONE_LAYER = 22;
const CELLS_OF_MANY = 14;

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

/** Shares of the room of all charring layers at which the char law is tabulated. */
const CHAR_SHARES = [0.1, 0.3, 1];
const CHAR_CELLS = 14;

/**
 * The char of the whole strip keeps the room of the layers that it came from, at a share of their density: the light is
 * taken near its top, and little heat comes through.
 */
function charNodes(sample: StackSample, duration: number, shape: "square" | "gaussian"): CharNode[] {
  const { off, stay } = stripOf(sample);
  const charring = off.filter((l) => l.decomposition?.char && l.decomposition.charFraction > 0);
  if (charring.length === 0) return [];
  const room = charring.reduce((sum, l) => sum + l.thickness, 0);
  const mean = (of: (l: LayerSample) => number) => charring.reduce((sum, l) => sum + l.thickness * of(l), 0) / room;
  const fraction = mean((l) => l.decomposition?.charFraction ?? 0);
  const char: LayerSample = {
    ...charring[charring.length - 1],
    density: fraction * mean((l) => l.density),
    // Heat runs through a porous solid in proportion to how much of it there is.
    conductivity: fraction * mean((l) => l.conductivity),
    heatCapacity: CARBON_HEAT_CAPACITY,
    absorption: mean((l) => l.decomposition?.char?.absorption ?? 0),
    scattering: 0,
    externalReflectance: 0,
    internalReflectance: 0,
    decomposition: null,
    ablationTemperature: null,
    ablationHeat: null,
  };
  return CHAR_SHARES.map((share) => {
    const layers = [
      { layer: char, thickness: share * room },
      ...stay.map((l) => ({ layer: l, thickness: l.thickness })),
    ];
    const { edges, owner } = grid(layers, 1, duration, CHAR_CELLS);
    const { column, absorbed } = solveLinear(sample, layers, edges, owner.length, owner.length, duration, shape);
    const cells = owner.filter((o) => o === 0).length;
    return {
      remaining: share * room,
      density: char.density,
      width: Float64Array.from({ length: cells }, (_, i) => edges[i + 1] - edges[i]),
      rise: column.peak.slice(0, cells),
      time: column.timeNearPeak.slice(0, cells),
      share: absorbed.subarray(0, cells).reduce((a, b) => a + b, 0),
      metalRise: column.metalPeak,
    };
  });
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
  const { edges, owner, stripCells } = grid(all, off.length, duration);
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
  };
}

/** Light and linear heat of one arrangement of layers on the metal. */
function solveLinear(
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

/** Cooling is followed until the heated layer has relaxed into the metal, but not past a usual pulse period. */
function followFor(layers: readonly { layer: LayerSample; thickness: number }[], duration: number): number {
  let relax = 0;
  for (const { layer, thickness } of layers)
    relax += (thickness * thickness * layer.density * layer.heatCapacity) / layer.conductivity;
  return Math.max(duration, Math.min(relax, LONGEST_FOLLOW));
}

/** Cell edges of all layers from the top, which layer owns each cell, and how many cells belong to the strip. */
function grid(
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
