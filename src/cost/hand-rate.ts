import { handAreaRate } from "#beam";
import type { Metre, MetrePerSecond, Ratio, Second, SquareMetre } from "#terms";
import { invalid, requireInteger, requireNonNegative } from "#units";
import { type JobRate, jobRateOf } from "./job-rate.ts";

/** m/s; faster strokes leave gaps in most hands (common practice, no source) */
export const steadyHandSpeed: MetrePerSecond = 0.3;

/** An order cleaned by hand. */
export interface HandTask {
  /** m², one part */
  readonly area: SquareMetre;
  readonly count: number;
  /** m, of the oscillating line */
  readonly lineWidth: Metre;
  /** m/s at which the hand travels (travelSpeedFor says what a setting needs) */
  readonly handSpeed: MetrePerSecond;
  readonly passes: number;
  /** share of the line width that one stroke lays over the last, 0 or more and below 1 */
  readonly strokeOverlap: Ratio;
  /** share of the time at the part with the beam on it, above 0 and up to 1; the rest goes into moving and looking */
  readonly beamOnShare: Ratio;
  /** share of the paid time in which the operator rests, 0 or more and below 1 */
  readonly pauseShare: Ratio;
  /** s, waits for cooling for each part, 0 when not given */
  readonly coolingPerPart?: Second;
  /** s for each part */
  readonly handling?: Second;
  /** s once: area cleared and screened, extraction, first look */
  readonly preparation?: Second;
}

/**
 * Time and rate by hand: beam = area·passes/(w·(1 − o)·v); moves = beam·(1/b − 1) with b the share of the time at the
 * part with the beam on; pauses = everything else·p/(1 − p).
 * @param task see HandTask: m, m/s, s, shares
 * @returns see JobRate (s, m²/s)
 * Valid: accessible faces; shares are the user's own, from watching the work. Throws InvalidInput outside these ranges.
 * Source: definition.
 */
export function handRate(task: HandTask): JobRate {
  const { strokeOverlap, beamOnShare, pauseShare } = task;
  if (!(strokeOverlap >= 0 && strokeOverlap < 1))
    invalid("overlap of strokes", strokeOverlap, "", "0 or more and below 1");
  if (!(beamOnShare > 0 && beamOnShare <= 1))
    invalid("share of time with the beam on", beamOnShare, "", "above 0 and up to 1");
  if (!(pauseShare >= 0 && pauseShare < 1)) invalid("share of pauses", pauseShare, "", "0 or more and below 1");
  const count = requireInteger("count", task.count, 1);
  const rate = handAreaRate(task.lineWidth, task.handSpeed, task.passes) * (1 - strokeOverlap);
  const beam = (task.area * count) / rate;
  const steps = beam * (1 / beamOnShare - 1);
  const waits = count * requireNonNegative("cooling time for each part", task.coolingPerPart ?? 0, "s");
  const handling = count * requireNonNegative("handling time", task.handling ?? 0, "s");
  const preparation = requireNonNegative("preparation time", task.preparation ?? 0, "s");
  const pauses = ((beam + steps + waits + handling + preparation) * pauseShare) / (1 - pauseShare);
  const notes = ["The operator stands within the hazard distances: the laser safety officer decides on the work."];
  if (task.handSpeed > steadyHandSpeed)
    notes.push(
      `A hand travels steadily up to about ${steadyHandSpeed} m/s (common practice, no source): faster strokes leave gaps.`,
    );
  const time = { beam, turns: 0, steps, waits, pauses, handling, preparation };
  return jobRateOf("hand", task.area, count, time, notes);
}
