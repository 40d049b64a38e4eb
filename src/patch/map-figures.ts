import type { Kelvin, Metre, MetalConditionGrade, Ratio } from "#terms";
import { conditionLimits, metalConditionGrade } from "./condition.ts";
import { lineCount, lineY, type ScanLayout } from "./map-events.ts";
import type { MapGrid } from "./map-grid.ts";

/** What the maps say over an area. */
export interface AreaFigures {
  /** cells counted; shares of their area */
  readonly cells: number;
  readonly residue: Ratio;
  readonly melted: Ratio;
  readonly discoloured: Ratio;
  readonly peak: Kelvin;
  readonly meltDepth: Metre;
  readonly oxide: Metre;
  readonly metalCondition: MetalConditionGrade;
}

/** How uneven a map is: standard deviation of the means of rows (seen across the lines) and of columns (along them). */
export interface Streaks {
  /** share of area still covered */
  readonly coveredAcross: number;
  readonly coveredAlong: number;
  /** highest bare fluence over its mean */
  readonly fluenceAcross: number;
  readonly fluenceAlong: number;
}

export interface MapFigures {
  readonly whole: AreaFigures;
  /** at least 1.5 radii from every edge of the patch; null when the map shows none of it */
  readonly interior: AreaFigures | null;
  /** one diameter from where lines begin and where they end; null when out of the map */
  readonly lineStarts: AreaFigures | null;
  readonly lineEnds: AreaFigures | null;
  readonly streaks: Streaks | null;
}

interface Maps {
  readonly covered: Float32Array;
  readonly bareFluence: Float32Array;
  readonly peak: Float32Array;
  readonly meltDepth: Float32Array;
  readonly melted: Float32Array;
  readonly oxide: Float32Array;
  readonly startTemperature: Float32Array;
}

/**
 * Area fractions, bands at starts and ends of lines, and streaks of a map.
 *
 * Equation: shares are means over cells; streaks are √mean((m_j − m)²) of row or column means m_j (over m for fluence).
 * Units: radius m, melting K; results as in their types. Range: any map. Errors: none. Source: own convention.
 */
export function mapFigures(maps: Maps, grid: MapGrid, layout: ScanLayout, radius: Metre, melting: Kelvin): MapFigures {
  const rim = 1.5 * radius;
  const lines = lineCount(layout);
  const x = (i: number) => grid.x0 + i * grid.step;
  const y = (j: number) => grid.y0 + j * grid.step;
  const inside = (i: number, j: number) =>
    x(i) >= rim &&
    x(i) <= layout.width - rim &&
    y(j) >= lineY(layout, 0) + rim &&
    y(j) <= lineY(layout, lines - 1) - rim;
  const forth = (j: number) => {
    const line = Math.round((y(j) - lineY(layout, 0)) / layout.lineSpacing);
    return !layout.serpentine || Math.abs(line) % 2 === 0;
  };
  const band = (first: boolean) => (i: number, j: number) => {
    const along = forth(j) === first ? x(i) : layout.width - x(i);
    return along >= 0 && along <= 2 * radius;
  };
  const interior = areaFigures(maps, grid, melting, inside);
  return {
    whole: areaFigures(maps, grid, melting, () => true) as AreaFigures,
    interior,
    lineStarts: areaFigures(maps, grid, melting, band(true)),
    lineEnds: areaFigures(maps, grid, melting, band(false)),
    streaks: interior && streaks(maps, grid, inside),
  };
}

function areaFigures(
  maps: Maps,
  grid: MapGrid,
  melting: Kelvin,
  counts: (i: number, j: number) => boolean,
): AreaFigures | null {
  let cells = 0;
  let residue = 0;
  let melted = 0;
  let discoloured = 0;
  let peak = 0;
  let meltDepth = 0;
  let oxide = 0;
  let warmest = 0;
  for (let j = 0; j < grid.rows; j++)
    for (let i = 0; i < grid.columns; i++) {
      if (!counts(i, j)) continue;
      const at = j * grid.columns + i;
      cells++;
      residue += maps.covered[at]!;
      melted += maps.melted[at]!;
      if (maps.oxide[at]! > conditionLimits.oxide) discoloured++;
      peak = Math.max(peak, maps.peak[at]!);
      meltDepth = Math.max(meltDepth, maps.meltDepth[at]!);
      oxide = Math.max(oxide, maps.oxide[at]!);
      warmest = Math.max(warmest, maps.startTemperature[at]!);
    }
  if (cells === 0) return null;
  const grade = metalConditionGrade(meltDepth, melted / cells, oxide);
  return {
    cells,
    residue: residue / cells,
    melted: melted / cells,
    discoloured: discoloured / cells,
    peak,
    meltDepth,
    oxide,
    metalCondition: warmest >= melting ? 3 : grade,
  };
}

function streaks(maps: Maps, grid: MapGrid, counts: (i: number, j: number) => boolean): Streaks {
  const deviation = (map: Float32Array, across: boolean, relative: boolean) => {
    const means: number[] = [];
    const [outer, inner] = across ? [grid.rows, grid.columns] : [grid.columns, grid.rows];
    for (let a = 0; a < outer; a++) {
      let sum = 0;
      let n = 0;
      for (let b = 0; b < inner; b++) {
        const [i, j] = across ? [b, a] : [a, b];
        if (!counts(i, j)) continue;
        sum += map[j * grid.columns + i]!;
        n++;
      }
      if (n > 0) means.push(sum / n);
    }
    const mean = means.reduce((p, q) => p + q, 0) / means.length;
    const spread = Math.sqrt(means.reduce((p, q) => p + (q - mean) ** 2, 0) / means.length);
    return relative ? (mean > 0 ? spread / mean : 0) : spread;
  };
  return {
    coveredAcross: deviation(maps.covered, true, false),
    coveredAlong: deviation(maps.covered, false, false),
    fluenceAcross: deviation(maps.bareFluence, true, true),
    fluenceAlong: deviation(maps.bareFluence, false, true),
  };
}
