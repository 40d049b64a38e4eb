import { rasterBeforePulse } from "#heat";
import type { Kelvin } from "#terms";
import type { Draw } from "./draw.ts";
import { lineCount, lineY, type ScanLayout } from "./map-events.ts";
import type { EventPhysics } from "./event-physics.ts";
import { AMBIENT } from "./metal-outcome.ts";
import type { PatchPlan } from "./patch-plan.ts";

/** Pulses that are followed at most; more are put together along the line. */
const MOST = 60_000;

/** Temperature before the events, coarse: places of about a spot along, one line across, over the last pass. */
export interface StartMap {
  readonly columns: number;
  readonly rows: number;
  /** K, row by row */
  readonly before: Float64Array;
}

/**
 * Temperature before each event of the last pass by superposition over the whole raster, averaged over coarse places.
 *
 * Equation: that of `rasterBeforePulse`, pulses put together to about half a spot radius; for a beam that is on along
 * the line the line's own heat is taken off again (its law counts it), by the same sum for one line alone.
 * Units: result K. Range: laterally infinite plate with insulated faces, constant properties; ramps left out.
 * Errors: InvalidInput of `rasterBeforePulse`. Source: Carslaw and Jaeger 1959, 10.3.
 */
export function startMap(draw: Draw, plan: PatchPlan, physics: EventPhysics, layout: ScanLayout): StartMap {
  const lines = lineCount(layout);
  const { passes } = plan.setting;
  const { metal } = draw;
  const real = layout.frequency === null ? 0 : layout.speed / layout.frequency;
  const fewest = (layout.width * lines * passes) / MOST;
  const pitch = Math.max(real, 0.5 * physics.radius, fewest);
  const perLine = Math.max(1, Math.floor(layout.width / pitch));
  const period = pitch / layout.speed;
  const lineTime = Math.max(plan.warming.lineTime, perLine * period);
  const body = {
    conductivity: metal.conductivity,
    volumetricHeat: metal.volumetricHeat,
    plateThickness: draw.sample.metal.thickness,
  };
  const raster = {
    energy: physics.absorbedPower * period,
    radius: physics.radius,
    pitch,
    lineSpacing: layout.lineSpacing,
    pulsesPerLine: perLine,
    linesPerPass: lines,
    period,
    lineTime,
    passTime: lines * lineTime,
    serpentine: layout.serpentine,
  };
  const count = perLine * lines * passes;
  const rise = rasterBeforePulse(body, raster, count);
  const own =
    plan.events === "line"
      ? rasterBeforePulse(body, { ...raster, linesPerPass: 1, passTime: lineTime }, perLine)
      : null;
  const columns = Math.min(perLine, 24);
  const rows = Math.min(lines, 24);
  const before = new Float64Array(columns * rows);
  const seen = new Float64Array(columns * rows);
  for (let n = 0; n < perLine * lines; n++) {
    const line = Math.floor(n / perLine);
    const k = n % perLine;
    const along = layout.serpentine && line % 2 === 1 ? perLine - 1 - k : k;
    const at = Math.floor((line * rows) / lines) * columns + Math.floor((along * columns) / perLine);
    before[at] += AMBIENT + rise[count - perLine * lines + n]! - (own ? own[k]! : 0);
    seen[at]++;
  }
  for (let i = 0; i < before.length; i++) before[i] = seen[i]! > 0 ? before[i]! / seen[i]! : AMBIENT;
  return { columns, rows, before };
}

/** K before the events at a place of the patch. */
export function startAt(map: StartMap, layout: ScanLayout, x: number, y: number): Kelvin {
  const i = Math.floor((x / layout.width) * map.columns);
  const j = Math.floor(((y - lineY(layout, 0)) / layout.height + 0.5 / map.rows) * map.rows);
  const held = (value: number, most: number) => Math.min(most - 1, Math.max(0, value));
  return map.before[held(j, map.rows) * map.columns + held(i, map.columns)]!;
}
