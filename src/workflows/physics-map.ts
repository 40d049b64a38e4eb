import { predictPatch, type PatchPlan } from "#patch";
import type { LaserSetup, PatchResult } from "#terms";
import { runs } from "./candidates.ts";
import { checkSpec, type MapSpec, settingAt } from "./map-spec.ts";
import type { PartModel } from "./part-model.ts";
import { planOf } from "./predict.ts";
import { isClean, isUndamaged } from "./scores.ts";

/** Places between the coarse nodes of a map, a power of two: islands much smaller than this go unseen. */
export const MAP_STRIDE = 8;
/**
 * A block without an edge at its corners is left alone when each corner is farther from the limit than this share of
 * the change over the block.
 */
const CAUTION = 0.35;
/** Residue below which there is nothing to tell apart, and ln margins beyond which a verdict is simply far. */
const RESIDUE_FLOOR = 2e-3;
const FAR = 1.5;

/** One band of rows of a map: versions of the physics that are clean, undamaged, at each place; row major. */
export interface MapBand {
  /** first row, and the row after the last */
  readonly from: number;
  readonly to: number;
  readonly clean: Uint16Array;
  readonly undamaged: Uint16Array;
  /** 1 where the machine can be set so */
  readonly allowed: Uint8Array;
  /** full evaluations of one draw at one place */
  readonly evaluations: number;
}

/** Bands that a map is worked in; each can be worked by itself. */
export function bandCount(spec: MapSpec): number {
  return Math.max(1, Math.ceil((spec.y.values.length - 1) / MAP_STRIDE));
}

/**
 * Works one band of a map from physics alone. Every draw is evaluated at coarse nodes; a block whose corners disagree, or
 * lie near a limit, is cut in four again and again, so that each draw's edges are evaluated place by place and what lies
 * between takes the verdict of its corners. Throws InvalidInput on axes without meaning.
 */
export function mapBand(model: PartModel, setup: LaserSetup, spec: MapSpec, band: number): MapBand {
  checkSpec(setup, spec);
  const columns = spec.x.values.length;
  const last = spec.y.values.length - 1;
  const from = band * MAP_STRIDE;
  const bottom = Math.min(from + MAP_STRIDE, last);
  // The row shared with the next band is counted there; the last band keeps it.
  const to = bottom === last ? last + 1 : bottom;
  const rows = bottom - from + 1;
  const { acceptance } = model.part;
  const draws = model.draws.map(
    (draw) => new DrawOnBand(columns, rows, (plan) => predictPatch(draw, plan, acceptance)),
  );
  const plans = new Array<PatchPlan | undefined>(columns * rows);
  const planAt = (at: number): PatchPlan => {
    const known = plans[at];
    if (known) return known;
    const made = planOf(model, setup, settingAt(spec, at % columns, from + Math.floor(at / columns)));
    plans[at] = made;
    return made;
  };
  for (let left = 0; left < columns - 1; left += MAP_STRIDE) {
    const right = Math.min(left + MAP_STRIDE, columns - 1);
    for (const draw of draws) draw.settle(left, 0, right, rows - 1, planAt, acceptance);
    // Raster cells are large: those that no later block asks for are let go.
    for (let at = 0; at < plans.length; at++) if (at % columns < right) plans[at] = undefined;
  }
  const size = columns * (to - from);
  const clean = new Uint16Array(size);
  const undamaged = new Uint16Array(size);
  const allowed = new Uint8Array(size);
  for (let at = 0; at < size; at++) {
    for (const draw of draws) {
      clean[at] += draw.clean[at];
      undamaged[at] += draw.undamaged[at];
    }
    allowed[at] = runs(setup, settingAt(spec, at % columns, from + Math.floor(at / columns))) ? 1 : 0;
  }
  return { from, to, clean, undamaged, allowed, evaluations: draws.reduce((sum, d) => sum + d.evaluations, 0) };
}

/** One version of the physics over one band. */
class DrawOnBand {
  readonly clean: Uint8Array;
  readonly undamaged: Uint8Array;
  evaluations = 0;
  readonly #columns: number;
  readonly #seen: Uint8Array;
  /** distance to the limit of residue and of damage, positive on the good side */
  readonly #cleanBy: Float64Array;
  readonly #undamagedBy: Float64Array;
  readonly #predict: (plan: PatchPlan) => PatchResult;

  constructor(columns: number, rows: number, predict: (plan: PatchPlan) => PatchResult) {
    this.#columns = columns;
    this.#predict = predict;
    this.#seen = new Uint8Array(columns * rows);
    this.clean = new Uint8Array(columns * rows);
    this.undamaged = new Uint8Array(columns * rows);
    this.#cleanBy = new Float64Array(columns * rows);
    this.#undamagedBy = new Float64Array(columns * rows);
  }

  /** Gives every place of a block its verdicts, corners included. */
  settle(
    left: number,
    top: number,
    right: number,
    bottom: number,
    planAt: (at: number) => PatchPlan,
    acceptance: PartModel["part"]["acceptance"],
  ): void {
    const corners = [this.#at(left, top), this.#at(right, top), this.#at(left, bottom), this.#at(right, bottom)];
    for (const at of corners) if (this.#seen[at] === 0) this.#evaluate(at, planAt(at), acceptance);
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
      this.#finish(left, top, right, bottom, planAt, acceptance);
      return;
    }
    const x = right - left > 1 ? (left + right) >> 1 : right;
    const y = bottom - top > 1 ? (top + bottom) >> 1 : bottom;
    this.settle(left, top, x, y, planAt, acceptance);
    if (x < right) this.settle(x, top, right, y, planAt, acceptance);
    if (y < bottom) this.settle(left, y, x, bottom, planAt, acceptance);
    if (x < right && y < bottom) this.settle(x, y, right, bottom, planAt, acceptance);
  }

  /** The places inside a smallest block: those that an edge can reach are evaluated, the others say what their ends say. */
  #finish(
    left: number,
    top: number,
    right: number,
    bottom: number,
    planAt: (at: number) => PatchPlan,
    acceptance: PartModel["part"]["acceptance"],
  ): void {
    const between = (at: number, one: number, other: number) => {
      if (this.#seen[at] === 1) return;
      if (this.#agree([one, other])) {
        this.clean[at] = this.clean[one];
        this.undamaged[at] = this.undamaged[one];
      } else this.#evaluate(at, planAt(at), acceptance);
    };
    const x = left + 1;
    const y = top + 1;
    if (x < right)
      for (const row of [top, bottom]) between(this.#at(x, row), this.#at(left, row), this.#at(right, row));
    if (y < bottom)
      for (const col of [left, right]) between(this.#at(col, y), this.#at(col, top), this.#at(col, bottom));
    if (x === right || y === bottom || this.#seen[this.#at(x, y)] === 1) return;
    this.#evaluate(this.#at(x, y), planAt(this.#at(x, y)), acceptance);
  }

  #agree(places: readonly number[]): boolean {
    return agree(this.#cleanBy, this.clean, places) && agree(this.#undamagedBy, this.undamaged, places);
  }

  #at(x: number, y: number): number {
    return y * this.#columns + x;
  }

  #evaluate(at: number, plan: PatchPlan, acceptance: PartModel["part"]["acceptance"]): void {
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
