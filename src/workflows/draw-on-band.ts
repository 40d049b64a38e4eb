import type { PatchPlan } from "#patch";
import type { Acceptance, PatchResult } from "#terms";
import { isClean, isUndamaged } from "./scores.ts";

/**
 * A block without an edge at its corners is left alone when each corner is farther from the limit than this share of
 * the change over the block.
 */
const CAUTION = 0.35;
/** Residue below which there is nothing to tell apart, and ln margins beyond which a verdict is simply far. */
const RESIDUE_FLOOR = 2e-3;
const FAR = 1.5;

/** One version of the physics over one band. */
export class DrawOnBand {
  readonly clean: Uint8Array;
  readonly undamaged: Uint8Array;
  evaluations = 0;
  readonly #columns: number;
  readonly #acceptance: Acceptance;
  readonly #seen: Uint8Array;
  /** distance to the limit of residue and of damage, positive on the good side */
  readonly #cleanBy: Float64Array;
  readonly #undamagedBy: Float64Array;
  readonly #predict: (plan: PatchPlan) => PatchResult;

  constructor(columns: number, rows: number, acceptance: Acceptance, predict: (plan: PatchPlan) => PatchResult) {
    this.#columns = columns;
    this.#acceptance = acceptance;
    this.#predict = predict;
    this.#seen = new Uint8Array(columns * rows);
    this.clean = new Uint8Array(columns * rows);
    this.undamaged = new Uint8Array(columns * rows);
    this.#cleanBy = new Float64Array(columns * rows);
    this.#undamagedBy = new Float64Array(columns * rows);
  }

  /** Gives every place of a block its verdicts, corners included. */
  settle(left: number, top: number, right: number, bottom: number, planAt: (at: number) => PatchPlan): void {
    const corners = [this.#at(left, top), this.#at(right, top), this.#at(left, bottom), this.#at(right, bottom)];
    for (const at of corners) if (this.#seen[at] === 0) this.#evaluate(at, planAt(at));
    if (right - left <= 1 && bottom - top <= 1) return;
    if (this.#agree(corners)) {
      for (let y = top; y <= bottom; y++) {
        for (let x = left; x <= right; x++) {
          const at = this.#at(x, y);
          if (this.#seen[at] === 1) continue;
          this.clean[at] = this.clean[corners[0]];
          this.undamaged[at] = this.undamaged[corners[0]];
        }
      }
      return;
    }
    if (right - left <= 2 && bottom - top <= 2) {
      this.#finish(left, top, right, bottom, planAt);
      return;
    }
    const x = right - left > 1 ? (left + right) >> 1 : right;
    const y = bottom - top > 1 ? (top + bottom) >> 1 : bottom;
    this.settle(left, top, x, y, planAt);
    if (x < right) this.settle(x, top, right, y, planAt);
    if (y < bottom) this.settle(left, y, x, bottom, planAt);
    if (x < right && y < bottom) this.settle(x, y, right, bottom, planAt);
  }

  /** The places inside a smallest block: those that an edge can reach are evaluated, the others say what their ends say. */
  #finish(left: number, top: number, right: number, bottom: number, planAt: (at: number) => PatchPlan): void {
    const between = (at: number, one: number, other: number) => {
      if (this.#seen[at] === 1) return;
      if (this.#agree([one, other])) {
        this.clean[at] = this.clean[one];
        this.undamaged[at] = this.undamaged[one];
      } else this.#evaluate(at, planAt(at));
    };
    const x = left + 1;
    const y = top + 1;
    if (x < right)
      for (const row of [top, bottom]) between(this.#at(x, row), this.#at(left, row), this.#at(right, row));
    if (y < bottom)
      for (const col of [left, right]) between(this.#at(col, y), this.#at(col, top), this.#at(col, bottom));
    if (x === right || y === bottom || this.#seen[this.#at(x, y)] === 1) return;
    this.#evaluate(this.#at(x, y), planAt(this.#at(x, y)));
  }

  #agree(places: readonly number[]): boolean {
    return agree(this.#cleanBy, this.clean, places) && agree(this.#undamagedBy, this.undamaged, places);
  }

  #at(x: number, y: number): number {
    return y * this.#columns + x;
  }

  #evaluate(at: number, plan: PatchPlan): void {
    const acceptance = this.#acceptance;
    const result = this.#predict(plan);
    this.evaluations++;
    this.#seen[at] = 1;
    this.clean[at] = isClean(result, acceptance) ? 1 : 0;
    this.undamaged[at] = isUndamaged(result, acceptance) ? 1 : 0;
    this.#cleanBy[at] = far(
      Math.log((acceptance.residueMax + RESIDUE_FLOOR) / (result.residueFraction + RESIDUE_FLOOR)),
    );
    this.#undamagedBy[at] = far(result.damageMargin);
  }
}

/** True where evaluated places say the same and none lies near its limit for the change between them. */
function agree(by: Float64Array, verdict: Uint8Array, places: readonly number[]): boolean {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const at of places) {
    if (verdict[at] !== verdict[places[0]]) return false;
    least = Math.min(least, by[at]);
    most = Math.max(most, by[at]);
  }
  const nearest = least > 0 ? least : most < 0 ? -most : 0;
  return nearest >= CAUTION * (most - least);
}

function far(by: number): number {
  return Math.max(-FAR, Math.min(FAR, by));
}
