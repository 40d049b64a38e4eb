import { jumpTime, lensOf, turnTime } from "#beam";
import type { LaserSetup, Metre, MetrePerSecond, MetrePerSecondSquared, Second, Setting } from "#terms";
import { requireInteger, requireNonNegative, requirePositive } from "#units";
import { fieldRow } from "./field-grid.ts";
import { type JobRate, jobRateOf } from "./job-rate.ts";

/** Turn-rounds from the mirrors' acceleration, or as somebody timed them. */
export type TurnRound =
  | { readonly acceleration: MetrePerSecondSquared; readonly speedMax: MetrePerSecond }
  | {
      /** s at the end of each line */
      readonly lineEnd: Second;
      /** s back to the start of the field before the next pass */
      readonly passEnd: Second;
    };

/** An order of equal flat faces under a scanner. */
export interface ScanTask {
  /** m, along the lines, of one part */
  readonly width: Metre;
  /** m, across the lines */
  readonly height: Metre;
  readonly count: number;
  readonly speed: MetrePerSecond;
  readonly lineSpacing: Metre;
  readonly passes: number;
  /** m, largest side of the scan field */
  readonly fieldSide: Metre;
  readonly turnRound: TurnRound;
  /** m that neighbouring fields share, 0 when not given */
  readonly fieldOverlap?: Metre;
  /** s to move head or part to the next field, 1 when not given (common practice, no source) */
  readonly stepTime?: Second;
  /** s, least time between two passes over a field, so that the part cools; the return counts into it */
  readonly coolingBetweenPasses?: Second;
  /** s, least time between two fields; the move counts into it */
  readonly coolingBetweenFields?: Second;
  /** s to place and take away one part */
  readonly handling?: Second;
  /** s once for the order: fixture, focus, first part */
  readonly preparation?: Second;
}

/**
 * Time and rate of a scanned order. One part: fields·passes·lines·(l/v + turn) + fields·(passes − 1)·return +
 * (fields − 1)·step, cooling where return or step are shorter than it, handling; turn 2·v/a.
 * @param task see ScanTask: m, m/s, s
 * @returns see JobRate (s, m²/s)
 * Valid: equal rectangular faces in focus. Throws InvalidInput when a size, speed or spacing is not positive, a time is
 * negative, passes or count not whole, or fields overlap wholly.
 * Source: kinematics at constant acceleration (as #beam areaRate, with which it agrees where both apply).
 */
export function scanRate(task: ScanTask): JobRate {
  const { speed, lineSpacing } = task;
  const passes = requireInteger("passes", task.passes, 1);
  const overlap = task.fieldOverlap ?? 0;
  const across = fieldRow(requirePositive("width", task.width, "m"), task.fieldSide, overlap);
  const along = fieldRow(requirePositive("height", task.height, "m"), task.fieldSide, overlap);
  const fields = across.fields * along.fields;
  requirePositive("line spacing", lineSpacing, "m");
  const lines = fields * passes * Math.max(1, Math.ceil(along.size / lineSpacing - 1e-9));
  const turns = turnsOf(task.turnRound, speed, Math.hypot(across.size, along.size));
  const step = requireNonNegative("time of a move", task.stepTime ?? 1, "s");
  const betweenPasses = requireNonNegative("cooling between passes", task.coolingBetweenPasses ?? 0, "s");
  const betweenFields = requireNonNegative("cooling between fields", task.coolingBetweenFields ?? 0, "s");
  const count = requireInteger("count", task.count, 1);
  const returns = fields * (passes - 1);
  return jobRateOf("scanner", task.width * task.height, count, {
    beam: (count * lines * across.size) / requirePositive("speed", speed, "m/s"),
    turns: count * (lines * turns.lineEnd + returns * turns.passEnd),
    steps: count * (fields - 1) * step,
    waits:
      count * (returns * Math.max(0, betweenPasses - turns.passEnd) + (fields - 1) * Math.max(0, betweenFields - step)),
    pauses: 0,
    handling: count * requireNonNegative("handling time", task.handling ?? 0, "s"),
    preparation: requireNonNegative("preparation time", task.preparation ?? 0, "s"),
  });
}

function turnsOf(turn: TurnRound, speed: MetrePerSecond, diagonal: Metre): { lineEnd: Second; passEnd: Second } {
  if ("acceleration" in turn)
    return {
      lineEnd: turnTime(speed, turn.acceleration),
      passEnd: jumpTime(diagonal, turn.speedMax, turn.acceleration),
    };
  return {
    lineEnd: requireNonNegative("time at the end of a line", turn.lineEnd, "s"),
    passEnd: requireNonNegative("time at the end of a pass", turn.passEnd, "s"),
  };
}

/** A setting on a set-up as a scan task: field of its lens, turn-rounds of its mirrors. Throws on an unknown lens. */
export function scanTaskOf(
  setup: LaserSetup,
  setting: Setting,
  part: Pick<ScanTask, "width" | "height" | "count">,
): ScanTask {
  return {
    ...part,
    speed: setting.speed,
    lineSpacing: setting.lineSpacing,
    passes: setting.passes,
    fieldSide: lensOf(setup, setting.lens).fieldSide,
    turnRound: { acceleration: setup.acceleration, speedMax: setup.speedMax },
  };
}
