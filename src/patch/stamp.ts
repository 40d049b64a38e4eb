import { normalCdf } from "#numerics";
import type { LawTable } from "#removal";
import type { RasterCell } from "./raster.ts";

/** What one draw leaves at the sample points of a raster cell. */
export interface Stamped {
  /** share of the area with more than the residue thickness left */
  readonly residue: number;
  /** J/m², highest fluence that met bare metal, by share of area: ascending quantile classes over points and adhesion */
  readonly bareFluence: Float64Array;
  /** K, highest linear rise of metal under remaining layer, per point */
  readonly coveredRise: Float64Array;
  /** share of points cleaned by eating from above, and of points where the stress route led */
  readonly eatenShare: number;
  readonly stressShare: number;
  /** mean number of events per point with at least half of the peak fluence */
  readonly strongEvents: number;
}

/** Adhesion from place to place: eight equal shares of area, weakest first (standard normal quantiles). */
const CLASSES = [
  -1.5341205443525463, -0.887146559018876, -0.4887764111146695, -0.1573106846101707, 0.1573106846101707,
  0.4887764111146695, 0.887146559018876, 1.5341205443525463,
];
export const CLASS_COUNT = CLASSES.length;

export interface StampSpec {
  readonly cell: RasterCell;
  readonly law: LawTable;
  /** J/m² at the spot's centre */
  readonly fluence: number;
  /** m, 1/e² radius or flat radius */
  readonly radius: number;
  readonly profile: "gaussian" | "top-hat";
  /** continuous line over a flat-top spot: the chord decides the fluence */
  readonly lineEvents: boolean;
  readonly passes: number;
  /** m */
  readonly thickness: number;
  readonly residueThickness: number;
  readonly adhesionScatter: number;
  /** exponent S of F_N = F_1·N^(S−1) */
  readonly incubation: number;
  /** s between two events of one line at a point, and between the same place on two lines */
  readonly pulseGap: number;
  readonly lineGap: number;
}

/**
 * Stamps the events of all passes on the sample points of a raster cell, in time order.
 *
 * At each point the remaining layer is eaten from above event by event; the largest adhesion overcome so far decides
 * which share of the place (log-normal adhesion) has come off as a whole; fluence that meets bare metal afterwards is
 * remembered per share. Incubation enters as F·N^(1−S) with N the events so far, each counted by its share of the peak.
 * Heat that an event leaves in the layer adds to the next: it is kept as a fluence, at most the one at which the top is
 * eaten (what is above goes with the fumes), and decays with the layer's relaxation time.
 * Units: as in `StampSpec`. Range: passes a whole number from 1. Errors: none. Source: own derivation.
 */
export function stamp(spec: StampSpec): Stamped {
  const { cell, law, radius, profile, lineEvents, passes } = spec;
  const { multiplicity } = cell;
  const { firstEaten, relaxation } = law;
  const { columns, remaining, eaten, strength, byStress, lnFluenceFirst, lnFluenceStep, metalRise } = law;
  const nodes = remaining.length;
  const inverse = 1 / (radius * radius);
  const lnPeak = Math.log(spec.fluence);
  const soften = 1 - spec.incubation;
  const scatter = Math.max(spec.adhesionScatter, 0.01);
  const sure = 4 * scatter; // all but 3e-5 of the area has let go
  const bareFluence = new Float64Array(cell.points.length * CLASS_COUNT);
  const coveredRise = new Float64Array(cell.points.length);
  const after = new Float64Array(CLASS_COUNT);
  let residue = 0;
  let eatenPoints = 0;
  let stressPoints = 0;
  let strong = 0;

  for (let p = 0; p < cell.points.length; p++) {
    const distances = cell.points[p];
    const starts = cell.lineStarts[p];
    let left = spec.thickness;
    let best = -1e9;
    let bestByStress = false;
    let count = 1;
    let open = left <= 0 ? CLASS_COUNT : 0; // classes that are bare
    let covered = 0;
    let ateAll = left <= 0;
    let eatenFirst = false;
    after.fill(0);
    for (let pass = 0; pass < passes; pass++) {
      // J/m², heat left in the layer by earlier events, as a fluence. A pass over a whole patch lasts many relaxation
      // times, so each starts with none.
      let held = 0;
      const leftBefore = left;
      const countBefore = count;
      const bareBefore = ateAll || best > sure;
      for (let e = 0; e < distances.length; e++) {
        const lnShape = profileLog(distances[e] * inverse, profile, lineEvents);
        if (lnShape < -6) continue;
        const lnFluence = lnPeak + lnShape;
        const fluence = Math.exp(lnFluence);
        if (lnShape > -0.69 && pass === 0) strong += multiplicity;
        for (let k = open - 1; k >= 0 && after[k] < fluence; k--) after[k] = fluence;
        if (ateAll || best > sure) continue;
        // node bracket in remaining thickness
        let row = 1;
        while (row < nodes - 2 && left > remaining[row + 1]) row++;
        const span = nodes > 2 ? remaining[row + 1] - remaining[row] : 1;
        const wy = nodes > 2 ? clamp01((left - remaining[row]) / span) : 0;
        const next = nodes > 2 ? row + 1 : row;
        covered = Math.max(covered, fluence * (metalRise[row] + wy * (metalRise[next] - metalRise[row])));
        const boost = soften * Math.log(count);
        const s = read(strength, columns, row, next, wy, (lnFluence + boost - lnFluenceFirst) / lnFluenceStep);
        if (s > best) {
          best = s;
          bestByStress =
            byStress[
              row * columns +
                Math.min(columns - 1, Math.max(0, Math.round((lnFluence + boost - lnFluenceFirst) / lnFluenceStep)))
            ] === 1;
          while (open < CLASS_COUNT && best > CLASSES[open] * scatter) open++;
        }
        held *= Math.exp(-(starts[e] === 1 ? spec.lineGap : spec.pulseGap) / (relaxation[row] + 1e-12));
        const top = Math.min(firstEaten[row], firstEaten[next]);
        for (let m = 0; m < multiplicity; m++) {
          const total = fluence + held;
          const off =
            total > top ? read(eaten, columns, row, next, wy, (Math.log(total) - lnFluenceFirst) / lnFluenceStep) : 0;
          held = off > 0 ? Math.min(total, top) : total;
          left -= off;
          if (left <= 0.5 * spec.residueThickness) break;
        }
        count += multiplicity * Math.exp(lnShape);
        if (left <= 0.5 * spec.residueThickness) {
          left = Math.max(0, left);
          ateAll = true;
          eatenFirst = open < CLASS_COUNT;
          open = CLASS_COUNT;
        }
      }
      if (bareBefore) break; // bare all along: later passes repeat this one
      if (!ateAll && best <= sure && left === leftBefore && pass < passes - 2) {
        // Nothing was eaten: only the count of events goes on, so the passes between are skipped.
        count += (passes - 2 - pass) * (count - countBefore);
        pass = passes - 2;
      }
    }
    if (left > spec.residueThickness && best <= sure) residue += 1 - normalCdf(best / scatter);
    // The last thin skin usually lets go as a whole; what took off most of the layer names the way.
    if (eatenFirst || (open > 0 && left < 0.5 * spec.thickness)) eatenPoints++;
    else if (open > 0 && bestByStress) stressPoints++;
    coveredRise[p] = covered;
    for (let k = 0; k < CLASS_COUNT; k++) bareFluence[p * CLASS_COUNT + k] = after[k];
  }
  const n = cell.points.length;
  return {
    residue: residue / n,
    bareFluence,
    coveredRise,
    eatenShare: eatenPoints / n,
    stressShare: stressPoints / n,
    strongEvents: strong / n,
  };
}

/**
 * ln of the local share of the peak fluence at a squared distance, r² over radius²: −2r² (Gaussian), 0 inside a flat top;
 * for a line over a flat top the chord √(1 − r²). −100 outside. Source: geometry of the beam profiles, own.
 */
export function profileLog(r2: number, profile: "gaussian" | "top-hat", line: boolean): number {
  if (profile === "gaussian") return -2 * r2;
  if (r2 >= 1) return -100;
  return line ? 0.5 * Math.log(1 - r2) : 0;
}

function clamp01(x: number): number {
  return x < 0 ? 0 : x > 1 ? 1 : x;
}

/** Bilinear read of a node-major table; columns are clamped at both ends. */
function read(table: Float64Array, columns: number, row: number, next: number, wy: number, column: number): number {
  const c = column < 0 ? 0 : column > columns - 1.000001 ? columns - 1.000001 : column;
  const i = Math.floor(c);
  const wx = c - i;
  const a = row * columns + i;
  const b = next * columns + i;
  const lower = table[a] + wx * (table[a + 1] - table[a]);
  return wy === 0 ? lower : lower + wy * (table[b] + wx * (table[b + 1] - table[b]) - lower);
}
