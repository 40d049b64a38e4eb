import { interpolateLinear } from "#numerics";
import { invalid } from "#units";

/** What the referee needs to know of a metal. A `MetalSample` fits as it is. */
export interface RefereeMetal {
  /** kg/m³ */
  readonly density: number;
  /** K, ascending */
  readonly temperature: Float64Array;
  /** W/(m·K) at those temperatures */
  readonly conductivity: Float64Array;
  /** J/(kg·K) at those temperatures */
  readonly heatCapacity: Float64Array;
  /** K */
  readonly meltingTemperature: number;
  /** J/kg */
  readonly latentHeatMelting: number;
  /** K */
  readonly boilingTemperature: number;
  /** J/kg */
  readonly latentHeatBoiling: number;
}

/** One layer on top that takes up light and keeps its properties. */
export interface RefereeLayer {
  /** m */
  readonly thickness: number;
  /** kg/m³ */
  readonly density: number;
  /** W/(m·K) */
  readonly conductivity: number;
  /** J/(kg·K) */
  readonly heatCapacity: number;
  /** 1/m, of light that runs straight down; what gets through is taken up at the metal */
  readonly absorption: number;
}

/**
 * Straight pieces of temperature and heat potential over enthalpy. H: J/m³ above the start; θ = ∫k dT: W/m above the
 * start; both 0 at the start, so that cold surroundings are all zeros. Piece p holds H from start[p] to start[p + 1].
 */
export interface MaterialTable {
  readonly start: Float64Array;
  readonly temperature: Float64Array;
  readonly potential: Float64Array;
  readonly temperatureSlope: Float64Array;
  readonly potentialSlope: Float64Array;
  /** first piece of the layer; pieces below it are the metal's */
  readonly layerPiece: number;
  readonly startTemperature: number;
  /** J/m³ at which melting begins and ends */
  readonly meltFrom: number;
  readonly meltTo: number;
  readonly boilFrom: number;
  readonly boilTo: number;
}

/** K, widest stretch over which c and k are taken constant. */
const WIDEST = 40;

/**
 * Tables H(T) and θ(T) of a metal, with jumps of H at melting and boiling, followed by those of a layer.
 *
 * Equation: H = ρ·∫c dT + ρ·L_m + ρ·L_b, θ = ∫k dT, trapezoids between nodes at most 40 K apart.
 * Units: as in the types; startTemperature K. Range: start at or below melting, melting below boiling.
 * Errors: `InvalidInput` outside it. Source: enthalpy method, Voller and Cross 1981; Kirchhoff's transformation.
 */
export function materialTable(
  metal: RefereeMetal,
  layer: RefereeLayer | null,
  startTemperature: number,
): MaterialTable {
  const { meltingTemperature: melt, boilingTemperature: boil, density } = metal;
  if (!(startTemperature > 0 && startTemperature <= melt))
    invalid("start temperature", startTemperature, "K", "must be above 0 and at most the melting temperature");
  if (!(boil > melt)) invalid("boiling temperature", boil, "K", "must be above the melting temperature");
  const stops = [startTemperature, melt, boil, boil + 400, ...metal.temperature].filter((t) => t >= startTemperature);
  const corners = [...new Set(stops)].sort((a, b) => a - b);
  const h = [0];
  const t = [startTemperature];
  const p = [0];
  const marks = { meltFrom: 0, meltTo: 0, boilFrom: 0, boilTo: 0 };
  const push = (dh: number, temperature: number, dp: number): number => {
    if (dh > 0) {
      h.push(h[h.length - 1] + dh);
      t.push(temperature);
      p.push(p[p.length - 1] + dp);
    }
    return h[h.length - 1];
  };
  const jump = (corner: number): void => {
    if (corner === melt) {
      marks.meltFrom = h[h.length - 1];
      marks.meltTo = push(density * metal.latentHeatMelting, melt, 0);
    } else if (corner === boil) {
      marks.boilFrom = h[h.length - 1];
      marks.boilTo = push(density * metal.latentHeatBoiling, boil, 0);
    }
  };
  jump(corners[0]);
  for (let i = 1; i < corners.length; i++) {
    const parts = Math.ceil((corners[i] - corners[i - 1]) / WIDEST);
    for (let j = 0; j < parts; j++) {
      const a = corners[i - 1] + ((corners[i] - corners[i - 1]) * j) / parts;
      const b = j + 1 === parts ? corners[i] : corners[i - 1] + ((corners[i] - corners[i - 1]) * (j + 1)) / parts;
      const mean = (table: Float64Array) =>
        0.5 * (interpolateLinear(metal.temperature, table, a) + interpolateLinear(metal.temperature, table, b));
      push(density * mean(metal.heatCapacity) * (b - a), b, mean(metal.conductivity) * (b - a));
    }
    jump(corners[i]);
  }
  const pieces = h.length - 1;
  const slope = (values: number[]) => values.slice(1).map((v, i) => (v - values[i]) / (h[i + 1] - h[i]));
  const [temperatureSlope, potentialSlope] = [slope(t), slope(p)];
  const start = h.slice(0, pieces);
  if (layer) {
    const capacity = layer.density * layer.heatCapacity;
    temperatureSlope.push(1 / capacity);
    potentialSlope.push(layer.conductivity / capacity);
    t[pieces] = startTemperature;
    p[pieces] = 0;
    start.push(0);
  }
  return {
    start: Float64Array.from(start),
    temperature: Float64Array.from(t.slice(0, start.length)),
    potential: Float64Array.from(p.slice(0, start.length)),
    temperatureSlope: Float64Array.from(temperatureSlope),
    potentialSlope: Float64Array.from(potentialSlope),
    layerPiece: pieces,
    startTemperature,
    ...marks,
  };
}

/** K, temperature of the metal at a heat potential W/m above the start. */
export function temperatureAtPotential(table: MaterialTable, potential: number): number {
  let piece = table.layerPiece - 1;
  // Pieces on which the potential stands still are skipped: the one below them ends at the same temperature.
  while (piece > 0 && (table.potential[piece] > potential || table.potentialSlope[piece] === 0)) piece--;
  const slope = table.potentialSlope[piece];
  if (slope === 0) return table.temperature[piece];
  return table.temperature[piece] + (table.temperatureSlope[piece] / slope) * (potential - table.potential[piece]);
}
