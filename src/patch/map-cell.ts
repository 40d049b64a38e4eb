import type { PatchPlan } from "./patch-plan.ts";
import type { RasterCell } from "./raster.ts";

const CUTOFF = 1.5;
const GOLDEN = 0.6180339887498949;
/** Lines after which mirrored golden-ratio phases have met most ways of lying beside each other. */
const LINES = 8;
const POINTS = 6;
const LINE_POINTS = 64;

/**
 * The repeating cell of a plan on more points, with the phases that a scan there and back really has.
 *
 * On a line that runs backwards the phase counts from the other end, so neighbours lie beside each other in ever new
 * ways; a cell whose phases all step the same way is more even than any real scan. Eight lines of 6 × 6 points for pulses
 * farther apart than 0.4 radii; 64 points across the spacing for a beam that is on along the line.
 * Units: m² as in `RasterCell`. Range: any plan. Errors: none. Source: own; measured in tests/slow/patch-agreement.test.ts.
 */
export function fineCell(plan: PatchPlan): RasterCell {
  const radius = plan.beam.spotDiameter / 2;
  const { lineSpacing } = plan.setting;
  const { multiplicity } = plan.cell;
  const train = plan.events === "train";
  const step = train ? (plan.beam.pulsePitch as number) * multiplicity : 1;
  const reach = CUTOFF * radius;
  const around = Math.ceil(reach / lineSpacing) + 1;
  const count = train ? (pulsesApart(plan) ? LINES : 1) : 1;
  const down = train ? Math.max(POINTS, Math.min(12, Math.ceil((6 * lineSpacing) / radius))) : LINE_POINTS;
  const along = train ? POINTS : 1;
  const points: Float64Array[] = [];
  const lineStarts: Uint8Array[] = [];
  for (let p = 0; p < count * down * along; p++) {
    const x = (((p % along) + 0.5) / along) * step;
    const y = ((Math.floor(p / along) + 0.5) / down) * lineSpacing;
    const events: number[] = [];
    const starts: number[] = [];
    for (let line = -around; line <= around + count; line++) {
      const dy = line * lineSpacing - y;
      if (Math.abs(dy) > reach) continue;
      if (!train) {
        events.push(dy * dy);
        starts.push(1);
        continue;
      }
      const turned = line % 2 === 0 ? line * GOLDEN : 0.37 - line * GOLDEN;
      const phase = ((turned % 1) + 1) % 1;
      const half = Math.sqrt(reach * reach - dy * dy);
      const first = Math.ceil((x - half) / step - phase);
      for (let i = first; i <= (x + half) / step - phase; i++) {
        const dx = (i + phase) * step - x;
        events.push(dx * dx + dy * dy);
        starts.push(i === first ? 1 : 0);
      }
    }
    points.push(Float64Array.from(events));
    lineStarts.push(Uint8Array.from(starts));
  }
  return { points, lineStarts, multiplicity };
}

/** Whether single pulses show: events farther apart than 0.4 radii along the line. */
function pulsesApart(plan: PatchPlan): boolean {
  const radius = plan.beam.spotDiameter / 2;
  return (plan.beam.pulsePitch as number) * plan.cell.multiplicity > 0.4 * radius;
}

/** Residue between these shares depends on how the events lie beside each other. */
const PARTLY = [0.003, 0.997] as const;

/**
 * Whether an answer from a plan's own repeating cell is approximate: its residue may then differ from the full map by
 * more than 0.02. So it is where something but not all is left, and everywhere once gaps open, for pulses farther apart
 * than 0.4 radii (their phase from line to line decides what is met twice) on a cell of fewer points than `fineCell`,
 * and for lines farther apart than half a radius (sharp stripes) on fewer than 64 points.
 *
 * Units: residue 1, as predicted on the plan's cell. Range: any plan. Errors: none.
 * Source: own rule; measured on 200 seeded settings (tests/slow/patch-agreement.test.ts).
 */
export function isApproximateCell(plan: PatchPlan, residue: number): boolean {
  const diameter = plan.beam.spotDiameter;
  const train = plan.events === "train";
  const spacing = train ? (plan.beam.pulsePitch as number) : plan.setting.lineSpacing;
  const coarse = train
    ? pulsesApart(plan) && plan.cell.points.length < LINES * POINTS * POINTS
    : spacing > 0.25 * diameter && plan.cell.points.length < LINE_POINTS;
  const gaps = spacing > (train ? 1 : 0.6) * diameter;
  return coarse && (gaps || (residue > PARTLY[0] && residue < PARTLY[1]));
}
