import { type CharLaw, charYield, type InnerLaw } from "#removal";
import { burnChar } from "./point-char.ts";
import { CLASS_COUNT, CLASSES, type PointSpec } from "./point-spec.ts";
import { afterThrow, afterwards, clamp01, FAINTEST, lightOnPoint, NOTHING, read } from "./point-law.ts";

/** s, time in which a film that was thrown off has left the beam: some tens of µm at about 100 m/s (from memory). */
const FLIGHT_TIME = 1e-6;

/**
 * The history of one point under the events of all passes, in time order.
 *
 * The remaining layer is eaten from above event by event; the largest adhesion overcome so far decides which share of
 * the place (log-normal adhesion) has come off as a whole; fluence that meets bare metal afterwards is remembered per
 * share, also the rest of the event that took the last of the layer off from above. Incubation enters as F·N^(1−S) with
 * N the events so far, each counted by its share of the peak. Heat that an event leaves in the layer adds to the next:
 * it is kept as a fluence, at most the one at which the top is eaten (what is above goes with the fumes), and decays
 * with the layer's relaxation time. What is eaten leaves char: little where one short event does it, the slow share
 * where kept heat does; the char shades the metal until it has burnt off or sublimated, and counts as residue.
 * Units: as in `PointSpec`. Source: own derivation.
 */
export class PointHistory {
  /** J/m², highest fluence that met bare metal, per adhesion class */
  readonly after = new Float64Array(CLASS_COUNT);
  /** m of layer left from above, and of char, which keeps the room of the layer that it came from */
  left = 0;
  char = 0;
  /** ln of the largest adhesion overcome so far */
  best = 0;
  bestByStress = false;
  /** classes of adhesion that are bare */
  open = 0;
  ateAll = false;
  eatenFirst = false;
  /** K, highest linear rise of metal under layer or char */
  covered = 0;
  /** events of the first pass with at least half of the peak fluence */
  strong = 0;
  readonly #spec: PointSpec;
  readonly #scatter: number;
  readonly #sure: number;
  readonly #lnPeak: number;
  /** m below which layer and char count as gone */
  readonly #nothing: number;
  /** what the events of a pass bring to the point: ln of their share of the peak, and fluence J/m² */
  #lnShape = new Float64Array(64);
  #fluence = new Float64Array(64);
  /** per node, the share of kept heat that is left at the next event of a line, and at the next line */
  readonly #keptPulse: Float64Array;
  readonly #keptLine: Float64Array;
  /** share of what one event eats by itself that chars, where slow heating chars all */
  readonly #quick: number;

  constructor(spec: PointSpec) {
    this.#spec = spec;
    this.#scatter = Math.max(spec.adhesionScatter, 0.01);
    this.#sure = 4 * this.#scatter; // all but 3e-5 of the area has let go
    this.#lnPeak = Math.log(spec.fluence);
    this.#nothing = NOTHING * spec.residueThickness;
    this.#quick = charYield(spec.law.reactionTime);
    const { relaxation } = spec.law;
    this.#keptPulse = new Float64Array(relaxation.length);
    this.#keptLine = new Float64Array(relaxation.length);
    for (let i = 0; i < relaxation.length; i++) {
      this.#keptPulse[i] = Math.exp(-spec.pulseGap / (relaxation[i] + 1e-12));
      this.#keptLine[i] = Math.exp(-spec.lineGap / (relaxation[i] + 1e-12));
    }
  }

  /** ln adhesion, in standard deviations: share of the place that is still held is 1 − Φ(this). */
  get freed(): number {
    return this.best / this.#scatter;
  }

  /** Whether all of the place but a trace has let go as a whole. */
  get letGo(): boolean {
    return this.best > this.#sure;
  }

  /**
   * Runs all passes over the point. distances: squared distances over squared radius of the events of one pass, in time
   * order; starts: 1 where an event is the first of its line here.
   */
  run(distances: Float64Array, starts: Uint8Array, inverse: number): void {
    const { passes, thickness } = this.#spec;
    this.left = thickness;
    this.char = 0;
    this.best = -1e9;
    this.bestByStress = false;
    this.ateAll = thickness <= 0;
    this.open = this.ateAll ? CLASS_COUNT : 0;
    this.eatenFirst = false;
    this.covered = 0;
    this.after.fill(0);
    if (this.#lnShape.length < distances.length) {
      this.#lnShape = new Float64Array(2 * distances.length);
      this.#fluence = new Float64Array(2 * distances.length);
    }
    this.strong = lightOnPoint(this.#spec, distances, inverse, this.#lnShape, this.#fluence);
    let count = 1;
    for (let pass = 0; pass < passes; pass++) {
      const leftBefore = this.left + this.char;
      const countBefore = count;
      const bareBefore = this.ateAll || this.letGo;
      count = this.#pass(starts, distances.length, count);
      if (bareBefore) break; // bare all along: later passes repeat this one
      if (!this.ateAll && !this.letGo && this.left + this.char === leftBefore && pass < passes - 2) {
        // Nothing was eaten: only the count of events goes on, so the passes between are skipped.
        count += (passes - 2 - pass) * (count - countBefore);
        pass = passes - 2;
      }
    }
  }

  /** One pass; returns the count of events so far. */
  #pass(starts: Uint8Array, events: number, countSoFar: number): number {
    const spec = this.#spec;
    const { law, multiplicity } = spec;
    const { columns, remaining, strength, byStress, lnFluenceFirst, lnFluenceStep, metalRise, firstEaten } = law;
    const { after } = this;
    const nodes = remaining.length;
    const soften = 1 - spec.incubation;
    const scatter = this.#scatter;
    const lnShapes = this.#lnShape;
    const fluences = this.#fluence;
    const base = this.#lnPeak - lnFluenceFirst;
    let count = countSoFar;
    let lnCount = Math.log(count);
    let lnCountOf = count;
    // J/m², heat left in the layer by earlier events, as a fluence. A pass over a whole patch lasts many relaxation
    // times, so each starts with none.
    let held = 0;
    // The nodes around what is left, and what only changes with them: looked up again when something was eaten.
    let seenLeft = -1;
    let row = 1;
    let next = 1;
    let wy = 0;
    let rise = 0;
    let top = 0;
    let highest = -1e9;
    // share of the event at hand that is left after the coat has parted under it
    let carried = 1;
    for (let e = 0; e < events; e++) {
      if (lnShapes[e] < FAINTEST) continue;
      const fluence = fluences[e] * carried;
      const lnShape = carried === 1 ? lnShapes[e] : lnShapes[e] + Math.log(carried);
      for (let k = this.open - 1; k >= 0; k--) if (after[k] < fluence) after[k] = fluence;
      if (this.ateAll || this.best > this.#sure) continue;
      if (this.left <= 0) {
        this.#others(law.char(), fluence, multiplicity);
        continue;
      }
      if (this.left !== seenLeft) {
        seenLeft = this.left;
        row = 1;
        while (row < nodes - 2 && seenLeft > remaining[row + 1]) row++;
        next = nodes > 2 ? row + 1 : row;
        wy = nodes > 2 ? clamp01((seenLeft - remaining[row]) / (remaining[next] - remaining[row])) : 0;
        law.need(row);
        law.need(next);
        rise = metalRise[row] + wy * (metalRise[next] - metalRise[row]);
        top = Math.min(firstEaten[row], firstEaten[next]);
        highest = -1e9;
      }
      if (fluence * rise > this.covered) this.covered = fluence * rise;
      if (soften > 0 && count > 1.002 * lnCountOf) {
        lnCount = Math.log(count);
        lnCountOf = count;
      }
      const at = (base + lnShape + soften * lnCount) / lnFluenceStep;
      // The adhesion overcome rises with the fluence: a weaker event on the same layer adds nothing.
      if (at > highest) {
        highest = at;
        const s = read(strength, columns, row, next, wy, at);
        if (law.inner && this.#part(law.inner, s, row, next, wy, at)) {
          // The heat that earlier events had left in the film went with it.
          held = 0;
          // A long event goes on: what is left of it meets what lies below.
          // So do the other events of a group, which meet it whole.
          const rest = multiplicity > 1 ? 1 : this.#restAfterPart(law.inner, row, next, wy, at);
          if (rest > 0) {
            carried *= rest;
            e--;
          } else carried = 1;
          continue;
        }
        if (s > this.best) {
          this.best = s;
          this.bestByStress = byStress[row * columns + Math.min(columns - 1, Math.max(0, Math.round(at)))] === 1;
          const freed = this.open;
          while (this.open < CLASS_COUNT && s > (CLASSES[this.open] as number) * scatter) this.open++;
          // The other events of the group already meet what this one bared.
          if (multiplicity > 1) for (let k = freed; k < this.open; k++) after[k] = fluence;
          if (this.open > freed && law.reactionTime > FLIGHT_TIME) {
            const slope = (s - read(strength, columns, row, next, wy, at - 1)) / lnFluenceStep;
            const flight = FLIGHT_TIME / law.reactionTime;
            for (let k = freed; k < this.open; k++) {
              const over = s - (CLASSES[k] as number) * scatter;
              after[k] = Math.max(after[k], fluence * afterThrow(over, slope, flight, metalRise[row] / metalRise[0]));
            }
          }
        }
      }
      held *= starts[e] === 1 ? this.#keptLine[row] : this.#keptPulse[row];
      if (multiplicity === 1 && fluence + held <= top) held += fluence;
      else held = this.#eat(fluence, held, top, row, next, wy);
      count += (multiplicity * fluence) / spec.fluence;
      carried = 1;
    }
    return count;
  }

  /** Whether the coat parts between two layers, more easily than it leaves the metal: what is above goes, char and all. */
  #part(inner: InnerLaw, strength: number, row: number, next: number, wy: number, at: number): boolean {
    const { columns } = this.#spec.law;
    const parting = read(inner.strength, columns, row, next, wy, at);
    if (parting <= 0 || parting <= strength) return false;
    const column = Math.min(columns - 1, Math.max(0, Math.round(at)));
    const left = inner.left[(wy < 0.5 ? row : next) * columns + column];
    if (left <= 0 || left >= this.left) return false;
    this.left = left;
    this.char = 0;
    return true;
  }

  /** Share of a long event that is left when the coat has parted and the film has left; 0 for a short one. */
  #restAfterPart(inner: InnerLaw, row: number, next: number, wy: number, at: number): number {
    const { columns, lnFluenceStep, reactionTime } = this.#spec.law;
    const parting = read(inner.strength, columns, row, next, wy, at);
    const slope = (parting - read(inner.strength, columns, row, next, wy, at - 1)) / lnFluenceStep;
    return Math.max(0, 1 - Math.exp(-parting / Math.max(slope, 1e-3)) - FLIGHT_TIME / reactionTime);
  }

  /** Eats from above by one listed event; returns the heat it leaves, J/m². */
  #eat(fluence: number, heldBefore: number, top: number, row: number, next: number, wy: number): number {
    const { law, multiplicity } = this.#spec;
    const { columns, eaten, lnFluenceFirst, lnFluenceStep } = law;
    let held = heldBefore;
    for (let m = 0; m < multiplicity; m++) {
      const total = fluence + held;
      if (total <= top) {
        // All events that only warm the layer at once.
        const quiet = Math.min(multiplicity - m, Math.max(1, Math.floor((top - held) / fluence)));
        held += quiet * fluence;
        m += quiet - 1;
        continue;
      }
      const off = read(eaten, columns, row, next, wy, (Math.log(total) - lnFluenceFirst) / lnFluenceStep);
      if (off <= 0) {
        held = total;
        continue;
      }
      held = Math.min(total, top);
      const before = this.left;
      const alone = fluence > top ? this.#quick : 1;
      this.left = Math.max(0, before - off);
      this.char += (before - this.left) * law.chars[row] * alone;
      if (this.left <= this.#nothing) {
        this.left = 0;
        // The rest of the event goes on to what lies below, at the same power for the rest of its time.
        const spent = Math.min(1, before / off);
        const charLaw = this.char > this.#nothing ? law.char() : null;
        if (charLaw) burnChar(this, this.#spec, charLaw, fluence, 1 - spent, 1);
        else this.char = 0;
        this.#finish(fluence * afterwards(1 - spent, law.metalRise[row] / law.metalRise[0]));
        this.#others(charLaw, fluence, multiplicity - 1 - m);
        break;
      }
    }
    return held;
  }

  /** So many whole events where the layer is gone: on char, and on bare metal once there is none. */
  #others(charLaw: CharLaw | null, fluence: number, events: number): void {
    let left = events;
    if (left > 0 && charLaw && !this.ateAll) {
      left = burnChar(this, this.#spec, charLaw, fluence, 1, left);
      // The char goes little by little: the metal has been warmed under it all along.
      this.#finish((fluence * charLaw.metalRise[0]) / this.#spec.law.metalRise[0]);
    }
    if (left > 0 && this.ateAll)
      for (let k = 0; k < CLASS_COUNT; k++) if (this.after[k] < fluence) this.after[k] = fluence;
  }

  /** Bare by eating once layer and char are gone; `fluence` is what then still meets the metal. */
  #finish(fluence: number): void {
    if (this.left + this.char > this.#nothing) return;
    this.left = 0;
    this.char = 0;
    this.ateAll = true;
    this.eatenFirst = this.open < CLASS_COUNT;
    for (let k = this.open; k < CLASS_COUNT; k++) this.after[k] = fluence;
    this.open = CLASS_COUNT;
  }
}
