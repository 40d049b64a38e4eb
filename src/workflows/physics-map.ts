import { type PatchPlan, predictPatch } from "#patch";
import type { LaserSetup } from "#terms";
import { runs } from "./candidates.ts";
import { DrawOnBand } from "./draw-on-band.ts";
import { checkSpec, type MapSpec, settingAt } from "./map-spec.ts";
import type { PartModel } from "./part-model.ts";
import { planOf } from "./predict.ts";

/** Places between the coarse nodes of a map, a power of two: islands much smaller than this go unseen. */
export const MAP_STRIDE = 8;
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
    (draw) => new DrawOnBand(columns, rows, acceptance, (plan) => predictPatch(draw, plan, acceptance)),
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
    for (const draw of draws) draw.settle(left, 0, right, rows - 1, planAt);
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
