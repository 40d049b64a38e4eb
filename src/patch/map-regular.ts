import type { Metre } from "#terms";
import { requireFinite, requireInteger, requirePositive } from "#units";
import type { MapGrid } from "./map-grid.ts";

/** Pulses at one pitch along lines at one spacing. */
export interface RegularRaster {
  readonly pitch: Metre;
  readonly spacing: Metre;
  readonly pulsesPerLine: number;
  readonly lines: number;
  /** m, place of the first pulse of the first line, before its phase */
  readonly x0: Metre;
  readonly y0: Metre;
  /** share of a pitch by which the pulses of each line are shifted; repeats when shorter than the lines; left out: 0 */
  readonly phases?: readonly number[];
}

export function requireRaster(raster: RegularRaster): RegularRaster {
  requirePositive("pitch", raster.pitch, "m");
  requirePositive("line spacing", raster.spacing, "m");
  requireInteger("pulses per line", raster.pulsesPerLine, 1);
  requireInteger("lines", raster.lines, 1);
  requireFinite("x of the first pulse", raster.x0, "m");
  requireFinite("y of the first line", raster.y0, "m");
  for (const phase of raster.phases ?? []) requireFinite("phase", phase);
  return raster;
}

/** m: x of the first pulse of a line. */
export function lineStart(raster: RegularRaster, line: number): Metre {
  const { phases } = raster;
  return raster.x0 + (phases && phases.length > 0 ? phases[line % phases.length]! * raster.pitch : 0);
}

/** Cells: a pattern counts as repeating when it drifts by less than this over a whole line. */
const DRIFT = 1e-6;
const LONGEST = 256;

/** Cells after which the pulses of a line lie on the cells as before; `columns` when they never do within the map. */
function period(pitch: number, columns: number, pulses: number): number {
  for (let q = 1; q <= LONGEST; q++) {
    const cells = Math.round(q * pitch);
    if (cells > columns) break;
    if (cells > 0 && (Math.abs(q * pitch - cells) * pulses) / q < DRIFT) return cells;
  }
  return columns;
}

/** One grid row: the lines that touch it, with their distance and first pulse in cells. */
interface RowPlan {
  readonly key: string;
  readonly lines: readonly { readonly dy: number; readonly x: number }[];
}

/** How a map of a regular raster is made up from rows that repeat. Lengths in cells. */
export interface RegularPlan {
  readonly rows: readonly RowPlan[];
  readonly different: number;
  readonly pitch: number;
  readonly period: number;
  readonly pulses: number;
  /** how many times a hinge will be read */
  readonly work: number;
}

/** Which rows of the map see the same lines at the same distances; lengths are turned into cells. */
export function planRegular(grid: MapGrid, raster: RegularRaster, reach: Metre): RegularPlan {
  const pitch = raster.pitch / grid.step;
  const spacing = raster.spacing / grid.step;
  const top = (raster.y0 - grid.y0) / grid.step;
  const far = reach / grid.step;
  const every = period(pitch, grid.columns, raster.pulsesPerLine);
  const keys = new Set<string>();
  const rows: RowPlan[] = [];
  let work = 0;
  for (let j = 0; j < grid.rows; j++) {
    const first = Math.max(0, Math.ceil((j - far - top) / spacing));
    const last = Math.min(raster.lines - 1, Math.floor((j + far - top) / spacing));
    const lines: { dy: number; x: number }[] = [];
    let key = "";
    for (let l = first; l <= last; l++) {
      const dy = Math.abs(top + l * spacing - j);
      const x = (lineStart(raster, l) - grid.x0) / grid.step;
      lines.push({ dy, x });
      key += `${Math.round(dy * 1e6)},${Math.round(x * 1e6)};`;
    }
    if (!keys.has(key)) {
      keys.add(key);
      work += lines.length * (every * ((2 * far) / pitch + 1) + 0.3 * grid.columns);
    }
    rows.push({ key, lines });
  }
  return { rows, different: keys.size, pitch, period: every, pulses: raster.pulsesPerLine, work };
}

/** Depth of one event at a squared distance in cells. */
function depthAt(hinges: Float64Array, r2: number): number {
  let depth = 0;
  for (let h = 0; h < hinges.length; h += 2) if (hinges[h]! > r2) depth += hinges[h + 1]! * (hinges[h]! - r2);
  return depth;
}

/** Adds one line to a row: the endless line repeats every period, then the pulses beyond its two ends are taken back. */
function addLine(
  row: Float64Array,
  once: Float64Array,
  plan: RegularPlan,
  hinges: Float64Array,
  dy: number,
  x: number,
) {
  let edge = 0;
  for (let h = 0; h < hinges.length; h += 2) edge = Math.max(edge, hinges[h]!);
  const chord = Math.sqrt(Math.max(0, edge - dy * dy));
  const { pitch, period: every, pulses } = plan;
  for (let i = 0; i < every; i++) {
    let depth = 0;
    const last = Math.floor((i - x + chord) / pitch);
    for (let k = Math.ceil((i - x - chord) / pitch); k <= last; k++) {
      const dx = x + k * pitch - i;
      depth += depthAt(hinges, dx * dx + dy * dy);
    }
    once[i] = depth;
  }
  for (let from = 0; from < row.length; from += every) {
    const end = Math.min(every, row.length - from);
    for (let i = 0; i < end; i++) row[from + i] += once[i]!;
  }
  const takeBack = (k: number) => {
    const middle = x + k * pitch;
    const last = Math.min(row.length - 1, Math.floor(middle + chord));
    for (let i = Math.max(0, Math.ceil(middle - chord)); i <= last; i++)
      row[i] -= depthAt(hinges, (i - middle) * (i - middle) + dy * dy);
  };
  for (let k = Math.min(-1, Math.floor((row.length - 1 + chord - x) / pitch)); x + k * pitch >= -chord; k--)
    takeBack(k);
  for (let k = Math.max(pulses, Math.ceil((-chord - x) / pitch)); x + k * pitch <= row.length - 1 + chord; k++)
    takeBack(k);
}

/** Fills the map row by row; a row that repeats an earlier one is copied. `hinges` in cells, depths as the thickness. */
export function fillRegular(
  plan: RegularPlan,
  columns: number,
  hinges: Float64Array,
  thickness: number,
  into: Float32Array,
): void {
  const made = new Map<string, number>();
  const row = new Float64Array(columns);
  const once = new Float64Array(plan.period);
  plan.rows.forEach(({ key, lines }, j) => {
    const earlier = made.get(key);
    if (earlier !== undefined) {
      into.copyWithin(j * columns, earlier * columns, (earlier + 1) * columns);
      return;
    }
    row.fill(0);
    for (const { dy, x } of lines) addLine(row, once, plan, hinges, dy, x);
    for (let i = 0; i < columns; i++) into[j * columns + i] = Math.max(0, thickness - row[i]!);
    made.set(key, j);
  });
}
