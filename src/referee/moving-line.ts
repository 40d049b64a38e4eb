import { requirePositive } from "#units";
import { coldField, type Field } from "./field.ts";
import { axisOf, growingEdges, twoSidedEdges } from "./grid.ts";
import { materialTable, type RefereeLayer, type RefereeMetal } from "./material.ts";
import { heatLeaving, type Reading, readField } from "./reading.ts";
import { type Balance, relaxSweep } from "./relax.ts";
import { depthShares, type Spot, spotShares } from "./spot.ts";
import { layeredDepth } from "./depth.ts";

/** A spot that moves steadily over a thick body (or a plate insulated at its back). */
export interface LineCase {
  readonly metal: RefereeMetal;
  /** one absorbing layer on top, or none */
  readonly layer?: RefereeLayer | null;
  readonly spot: Spot;
  /** W, taken up by the body */
  readonly power: number;
  /** m/s */
  readonly speed: number;
  /** K */
  readonly startTemperature: number;
  /** m, plate thickness; left out: as thick as heat reaches */
  readonly thickness?: number;
}

/** How finely and how long the referee works. */
export interface LineOptions {
  /** cells per spot radius along and across the line; default 8 */
  readonly cells?: number;
  /** growth of cell widths beyond the spot; default 1.2 */
  readonly growth?: number;
  /** largest change of enthalpy per sweep over that of melting at which the crest counts as steady; default 5e-7 */
  readonly tolerance?: number;
  /** sweeps after which to give up; default 1800 */
  readonly sweepsMax?: number;
}

export interface LineReading extends Reading {
  /** heat carried and conducted away over heat taken up; 1 when all is accounted for */
  readonly energyRatio: number;
  readonly sweeps: number;
  readonly converged: boolean;
  readonly cellCount: number;
}

/**
 * Steady crest of a line: temperatures seen from the moving spot, in three dimensions, with melting and boiling.
 *
 * Equation: v·∂H/∂x = ∇²θ(H) + source in finite volumes; the metal streams along +x; stream faces take H from two
 * cells upstream (second order); the surface takes the light up or a layer on top does, by Beer-Lambert.
 * Units: SI, see the types. Range: speed, power, radius above 0; start at most at melting.
 * Errors: `InvalidInput`. Source: enthalpy method, Voller and Cross 1981; own finite volumes.
 */
export function solveMovingLine(line: LineCase, options: LineOptions = {}): LineReading {
  const { field, flux, balance, over } = steadyField(line, options);
  const tolerance = (options.tolerance ?? 5e-7) * Math.max(field.table.meltFrom, 0.1 * field.table.meltTo);
  const sweepsMax = options.sweepsMax ?? 1800;
  let sweeps = 0;
  let change = Number.POSITIVE_INFINITY;
  while (sweeps < sweepsMax && !(change < tolerance)) {
    // Fronts that dance between two cells under over-relaxation settle under plain sweeps.
    change = relaxSweep(field, balance, sweeps < 0.4 * sweepsMax ? over : sweeps < 0.7 * sweepsMax ? 1.3 : 1);
    sweeps++;
  }
  const carried = line.speed * outflow(field);
  return {
    ...readField(field, flux, line.metal.boilingTemperature),
    energyRatio: (carried + heatLeaving(field)) / (line.power / 2),
    sweeps,
    converged: change < tolerance,
    cellCount: field.x.width.length * field.y.width.length * field.z.width.length,
  };
}

/** Cold field of a line with its light and its stream. */
function steadyField(
  line: LineCase,
  options: LineOptions,
): { field: Field; flux: Float64Array; balance: Balance; over: number } {
  const speed = requirePositive("speed", line.speed, "m/s");
  const radius = requirePositive("radius", line.spot.radius, "m");
  requirePositive("absorbed power", line.power, "W");
  const layer = line.layer ?? null;
  const table = materialTable(line.metal, layer, line.startTemperature);
  // Two diffusivities: the largest says how far heat gets, the mean how thin the heated skin is.
  let largest = 0;
  for (let p = 0; p < table.layerPiece; p++)
    if (table.temperatureSlope[p] > 0) largest = Math.max(largest, table.potentialSlope[p]);
  const cells = options.cells ?? 8;
  const growth = options.growth ?? 1.2;
  const cell = radius / cells;
  const peclet = (speed * radius) / largest;
  const reach = radius * (4 + 26 / (1 + peclet));
  const skin = Math.min(radius, Math.sqrt((largest * radius) / speed));
  const x = axisOf(twoSidedEdges(cell, 1.3 * radius, 3 * radius, growth, reach));
  const y = axisOf(growingEdges(cell, 1.3 * radius, growth, reach));
  const depth = layeredDepth(
    layer,
    (0.4 * skin) / cells,
    0.5 * skin,
    1 + 0.7 * (growth - 1),
    line.thickness ?? null,
    reach,
  );
  const outer = { front: reach, back: reach, side: reach, bottom: line.thickness === undefined ? reach : null };
  const field = coldField({ x, y, z: depth.axis }, table, outer, depth.contact(line.metal, line.startTemperature));
  const shares = spotShares(line.spot, x, y);
  const byDepth = depthShares(depth.axis, field.layerCells, layer?.absorption ?? 0);
  const flux = new Float64Array(shares.length);
  for (let i = 0; i < x.width.length; i++)
    for (let j = 0; j < y.width.length; j++) {
      const incident = (shares[i * y.width.length + j] * line.power) / (x.width[i] * y.width[j]);
      flux[i * y.width.length + j] = incident * byDepth[field.layerCells];
      for (let k = 0; k <= field.layerCells; k++)
        field.base[field.first + i * field.strideX + j * field.strideY + k] =
          (incident * byDepth[k]) / depth.axis.width[k];
    }
  // The slower the stream, the longer heat takes to find its way through the cells in sweeps.
  const over = peclet < 0.2 ? 1.95 : peclet < 2 ? 1.92 : 1.8;
  return { field, flux, balance: stream(x.width, speed), over };
}

/** Second-order stream: H at a cell's far face is its own plus half a cell of the slope from upstream. */
function stream(width: Float64Array, speed: number): Balance {
  const n = width.length;
  const lean = (i: number) => (i === 0 ? 0 : width[i] / (width[i] + width[i - 1]));
  const own = new Float64Array(n);
  const upstream = new Float64Array(n);
  const farUpstream = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const rate = speed / width[i];
    own[i] = rate * (1 + lean(i));
    if (i > 0) upstream[i] = rate * (lean(i) + 1 + lean(i - 1));
    if (i > 1) farUpstream[i] = -rate * lean(i - 1);
  }
  return { own, upstream, farUpstream, conduction: 1 };
}

/** J/m, heat per length in what streams out of the last cells. */
function outflow(field: Field): number {
  const { x, y, z, enthalpy, strideX, strideY, first } = field;
  const n = x.width.length;
  const lean = x.width[n - 1] / (x.width[n - 1] + x.width[n - 2]);
  let sum = 0;
  for (let j = 0; j < y.width.length; j++)
    for (let k = 0; k < z.width.length; k++) {
      const c = first + (n - 1) * strideX + j * strideY + k;
      sum += y.width[j] * z.width[k] * (enthalpy[c] + lean * (enthalpy[c] - enthalpy[c - strideX]));
    }
  return sum;
}
