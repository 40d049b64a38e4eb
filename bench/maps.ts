import { logarithmicProfile, type MapGrid, residueMap, type RegularRaster } from "#patch";
import { cpu, type Piece, piece } from "./measure.ts";

/** 14 mm of layer in cells of 10 µm; craters 0.16 mm across under a 1/e² radius of 0.1 mm. */
const grid: MapGrid = { columns: 1400, rows: 1400, step: 10e-6, x0: 5e-6, y0: 5e-6 };
const THICKNESS = 40e-6;
const profile = logarithmicProfile(4e-6, 3.6e4, 1e4, 100e-6);
/** 316 × 316 pulses; 44 µm is 22 cells for 5 pulses, the other pitch never meets the cells again. */
const fitting: RegularRaster = { pitch: 44e-6, spacing: 44e-6, pulsesPerLine: 316, lines: 316, x0: 40e-6, y0: 40e-6 };
const odd: RegularRaster = { ...fitting, pitch: 14e-6 * Math.sqrt(10), spacing: 14e-6 * Math.sqrt(9.9) };

/** The plain nested loop: every pulse over the square around it, in doubles. */
function nested(raster: RegularRaster, columns: number, rows: number): Float64Array {
  const left = new Float64Array(columns * rows).fill(THICKNESS);
  const edge = profile.r2[1]!;
  const reach = Math.sqrt(edge);
  const slope = profile.depth[0]! / edge;
  for (let l = 0; l < raster.lines; l++) {
    const y = raster.y0 + l * raster.spacing;
    const j0 = Math.max(0, Math.ceil((y - reach - grid.y0) / grid.step));
    const j1 = Math.min(rows - 1, Math.floor((y + reach - grid.y0) / grid.step));
    for (let k = 0; k < raster.pulsesPerLine; k++) {
      const x = raster.x0 + k * raster.pitch;
      const i0 = Math.max(0, Math.ceil((x - reach - grid.x0) / grid.step));
      const i1 = Math.min(columns - 1, Math.floor((x + reach - grid.x0) / grid.step));
      for (let j = j0; j <= j1; j++) {
        const dy = grid.y0 + j * grid.step - y;
        for (let i = i0; i <= i1; i++) {
          const dx = grid.x0 + i * grid.step - x;
          const room = edge - dx * dx - dy * dy;
          if (room > 0) left[j * columns + i] -= slope * room;
        }
      }
    }
  }
  for (let i = 0; i < left.length; i++) left[i] = Math.max(0, left[i]!);
  return left;
}

const into = new Float32Array(1400 * 1400);
const against = "plain nested loop, equal to 1e-6 of a crater for each pulse in reach";

export const mapPieces: readonly Piece[] = [
  piece("residue-1400", "<= 0.02 s", against, () => ({
    cpu: cpu(3, 9, () => residueMap(grid, THICKNESS, profile, fitting, { into })),
    reference: cpu(1, 3, () => nested(fitting, 1400, 1400)),
  })),
  piece("residue-any", "<= 0.06 s", against, () => ({
    cpu: cpu(3, 9, () => residueMap(grid, THICKNESS, profile, odd, { into })),
    reference: cpu(1, 3, () => nested(odd, 1400, 1400)),
  })),
];
