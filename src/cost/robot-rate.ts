import type { Metre, MetrePerSecond, Ratio, Second } from "#terms";
import { invalid, requireInteger, requireNonNegative, requirePositive } from "#units";
import { type JobRate, jobRateOf } from "./job-rate.ts";

/** An order cleaned in straight strokes of a head on a robot. */
export interface RobotTask {
  /** m, along the strokes, of one part */
  readonly width: Metre;
  /** m, across the strokes */
  readonly height: Metre;
  readonly count: number;
  /** m, cleaned by one stroke */
  readonly lineWidth: Metre;
  /** m/s that the setting asks for (travelSpeedFor) */
  readonly travelSpeed: MetrePerSecond;
  /** m/s that the robot keeps on this path */
  readonly travelSpeedMax: MetrePerSecond;
  readonly passes: number;
  /** share of the line width that one stroke lays over the last, 0 or more and below 1 */
  readonly strokeOverlap: Ratio;
  /** s at the end of each stroke: slow down, move over, speed up */
  readonly strokeEnd: Second;
  /** s, moves between faces of one part, 0 when not given */
  readonly moves?: Second;
  /** s, waits for cooling for each part */
  readonly coolingPerPart?: Second;
  /** s for each part: take away, place, clamp */
  readonly handling?: Second;
  /** s to program and prove the path, once for each kind of part */
  readonly programming: Second;
  /** kinds of part in the order, 1 when not given */
  readonly kinds?: number;
}

/**
 * Time and rate on a robot: strokes n = ceil((h − o·w)/(w·(1 − o))), at least 1; beam = passes·n·width/min(v, v_max);
 * turns = (passes·n − 1)·stroke end; programming once for each kind of part.
 * @param task see RobotTask: m, m/s, s
 * @returns see JobRate (s, m²/s); a note where the robot's limit holds the travel back
 * Throws InvalidInput when a size or speed is not positive, a time negative, passes, kinds or count not whole, or kinds
 * exceed the count. Source: counting.
 */
export function robotRate(task: RobotTask): JobRate {
  const { width, height, lineWidth, strokeOverlap } = task;
  requirePositive("width", width, "m");
  requirePositive("height", height, "m");
  requirePositive("line width", lineWidth, "m");
  if (!(strokeOverlap >= 0 && strokeOverlap < 1))
    invalid("overlap of strokes", strokeOverlap, "", "0 or more and below 1");
  const passes = requireInteger("passes", task.passes, 1);
  const count = requireInteger("count", task.count, 1);
  const kinds = requireInteger("kinds of part", task.kinds ?? 1, 1, count);
  const wanted = requirePositive("travel speed", task.travelSpeed, "m/s");
  const most = requirePositive("largest travel speed", task.travelSpeedMax, "m/s");
  const pitch = lineWidth * (1 - strokeOverlap);
  const strokes = passes * Math.max(1, Math.ceil((height - lineWidth * strokeOverlap) / pitch - 1e-9));
  const notes =
    wanted > most
      ? [
          `The robot keeps ${most} m/s and the setting asks for ${wanted} m/s: at this speed the part gets more dose; choose another setting or a wider line.`,
        ]
      : [];
  const time = {
    beam: (count * strokes * width) / Math.min(wanted, most),
    turns: count * (strokes - 1) * requireNonNegative("time at the end of a stroke", task.strokeEnd, "s"),
    steps: count * requireNonNegative("time of moves", task.moves ?? 0, "s"),
    waits: count * requireNonNegative("cooling time for each part", task.coolingPerPart ?? 0, "s"),
    pauses: 0,
    handling: count * requireNonNegative("handling time", task.handling ?? 0, "s"),
    preparation: kinds * requireNonNegative("programming time", task.programming, "s"),
  };
  return jobRateOf("robot", width * height, count, time, notes);
}
