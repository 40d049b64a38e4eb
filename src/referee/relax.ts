import type { Field } from "./field.ts";

/** How the balance of one cell hangs on time and on what streams in; per row along x. */
export interface Balance {
  /** weight of the cell's own enthalpy: 1 (time step) or 1/s (stream) */
  readonly own: Float64Array;
  /** weights of the enthalpies one and two cells upstream */
  readonly upstream: Float64Array;
  readonly farUpstream: Float64Array;
  /** s (time step) or 1 (stream): weight of conduction */
  readonly conduction: number;
}

/**
 * One sweep over all cells in the direction of the stream: each cell's balance
 * own·H − upstream·H₋₁ − farUpstream·H₋₂ + conduction·Σ(flow out) = base
 * is solved exactly for its H through the straight pieces of θ(H), then over-relaxed where it stays in its piece.
 *
 * Units: H J/m³; base in the unit of own·H. Result: largest change of H in J/m³. Range: own above 0, over 1 to 2.
 * Every sweep runs the same way: over-relaxation needs one order, and the stream wants its own.
 * Errors: none. Source: Elliott and Ockendon 1982 (over-relaxed enthalpy balance), from memory.
 */
export function relaxSweep(field: Field, balance: Balance, over: number): number {
  const { x, y, z, table, enthalpy, potential, temperature, piece, base, faceX, faceY, faceZ } = field;
  const { strideX, strideY, layerCells, contact } = field;
  const { start, potential: p0, temperature: t0, potentialSlope, temperatureSlope, layerPiece } = table;
  const [nx, ny, nz] = [x.width.length, y.width.length, z.width.length];
  const weight = balance.conduction;
  const margin = 1e-13 * start[layerPiece - 1];
  let largest = 0;
  for (let i = 0; i < nx; i++) {
    const own = balance.own[i];
    const up = balance.upstream[i];
    const far = balance.farUpstream[i];
    const xLow = (weight * faceX[i]) / x.width[i];
    const xHigh = (weight * faceX[i + 1]) / x.width[i];
    const streaming = up === 0 ? 0 : own / potentialSlope[0];
    for (let j = 0; j < ny; j++) {
      const yLow = (weight * faceY[j]) / y.width[j];
      const yHigh = (weight * faceY[j + 1]) / y.width[j];
      const around = xLow + xHigh + yLow + yHigh;
      const row = field.first + i * strideX + j * strideY;
      for (let k = 0; k < nz; k++) {
        const c = row + k;
        const dz = weight / z.width[k];
        const zLow = dz * faceZ[k];
        const zHigh = dz * faceZ[k + 1];
        const g = around + zLow + zHigh;
        let r =
          base[c] +
          up * enthalpy[c - strideX] +
          far * enthalpy[c - 2 * strideX] +
          xLow * potential[c - strideX] +
          xHigh * potential[c + strideX] +
          yLow * potential[c - strideY] +
          yHigh * potential[c + strideY] +
          zLow * potential[c - 1] +
          zHigh * potential[c + 1];
        let byTemperature = 0;
        if (layerCells > 0 && (k === layerCells || k === layerCells - 1)) {
          byTemperature = dz * contact;
          r += byTemperature * temperature[k === layerCells ? c - 1 : c + 1];
        }
        const old = enthalpy[c];
        let s = piece[c];
        const lowest = s >= layerPiece ? layerPiece : 0;
        const highest = s >= layerPiece ? layerPiece : layerPiece - 1;
        let h = 0;
        for (;;) {
          const a = potentialSlope[s];
          const b = temperatureSlope[s];
          h =
            (r - g * (p0[s] - a * start[s]) - byTemperature * (t0[s] - b * start[s])) /
            (own + g * a + byTemperature * b);
          // The margin keeps rounding from handing a cell at the corner of two pieces to and fro.
          if (s > lowest && h < start[s] - margin) s--;
          else if (s < highest && h > start[s + 1] + margin) s++;
          else break;
        }
        if (s === piece[c]) {
          // Over-relaxing what merely streams by would only let errors grow on their way down.
          const overHere = 1 + (over - 1) / (1 + streaming / g);
          const further = old + overHere * (h - old);
          // Past a corner the balance bends: there the plain step is kept, which always settles.
          if ((s === lowest || further >= start[s]) && (s === highest || further <= start[s + 1])) h = further;
        }
        piece[c] = s;
        enthalpy[c] = h;
        potential[c] = p0[s] + potentialSlope[s] * (h - start[s]);
        temperature[c] = t0[s] + temperatureSlope[s] * (h - start[s]);
        const change = Math.abs(h - old);
        if (!(change <= largest)) largest = change;
      }
    }
  }
  return largest;
}
