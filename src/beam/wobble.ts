import type { Hertz, Metre, MetrePerSecond, Ratio, Second } from "#terms";
import { invalid, requireInteger, requireNonNegative, requireOneOf, requirePositive } from "#units";

export type WobbleShape = "across" | "circle" | "eight";

/** A spot that swings about a point which moves along x. */
export interface Wobble {
  /** "across": a sine across the line; "circle"; "eight": a lying eight, twice as quick along the line */
  readonly shape: WobbleShape;
  /** m/s of the middle along x, above 0 */
  readonly speed: MetrePerSecond;
  /** m, half the full swing across the line */
  readonly amplitude: Metre;
  /** Hz, swings per second */
  readonly frequency: Hertz;
}

function checked(w: Wobble): Wobble {
  requireOneOf("wobble shape", w.shape, ["across", "circle", "eight"]);
  requirePositive("speed", w.speed, "m/s");
  requireNonNegative("wobble amplitude", w.amplitude, "m");
  requirePositive("wobble frequency", w.frequency, "Hz");
  return w;
}

/**
 * Where the spot is: y = A·sin ωt; x = v·t, for a circle + A·cos ωt, for an eight + (A/2)·sin 2ωt; ω = 2π·f_w.
 * @param w the wobble
 * @param time s
 * @returns x along the line and y across it, m
 * Throws InvalidInput for values outside their ranges. Source: kinematics.
 */
export function wobblePosition(w: Wobble, time: Second): { readonly x: Metre; readonly y: Metre } {
  const { shape, speed, amplitude, frequency } = checked(w);
  const phase = 2 * Math.PI * frequency * time;
  const along = shape === "circle" ? Math.cos(phase) : shape === "eight" ? Math.sin(2 * phase) / 2 : 0;
  return { x: speed * time + amplitude * along, y: amplitude * Math.sin(phase) };
}

/**
 * Positions of pulses 0 … count − 1, interleaved x, y, m (time of pulse i: i/f).
 * @param w the wobble
 * @param pulseFrequency Hz
 * @param count whole number, 0 to 1e7
 * Throws InvalidInput for values outside their ranges. Source: kinematics.
 */
export function wobblePulses(w: Wobble, pulseFrequency: Hertz, count: number): Float64Array {
  requirePositive("frequency", pulseFrequency, "Hz");
  requireInteger("pulses", count, 0, 1e7);
  const result = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) {
    const { x, y } = wobblePosition(w, i / pulseFrequency);
    result[2 * i] = x;
    result[2 * i + 1] = y;
  }
  return result;
}

/** What a wobble does to overlap and dose. */
export interface WobbleLoad {
  /** m/s, quickest and slowest motion of the spot */
  readonly speedMax: MetrePerSecond;
  readonly speedMin: MetrePerSecond;
  /** share of the diameter that successive pulses overlap where the spot is quickest; null for a continuous beam */
  readonly pulseOverlapLeast: Ratio | null;
  /** share of the diameter by which successive swings overlap along the line: 1 − v/(f_w·d) */
  readonly swingOverlap: Ratio;
  /** s, mean over the swept width 2A + d: the time for which full power in the middle of a still spot gives the dose */
  readonly dwellMean: Second;
  /** s, the same at the hottest place across the line */
  readonly dwellPeak: Second;
  /** m across the line, to either side, where that is */
  readonly peakAt: Metre;
}

const TURN = 512;

/**
 * Dose across the line of a Gaussian spot that wobbles, as time at the irradiance in the middle of the still spot.
 *
 * Equation: t(y) = √(π/2)·(r/v)·mean over a swing of exp(−2(y − A·sin φ)²/r²): the energy over the peak irradiance
 * 2P/(πr²). Motion along the line only shifts energy along it, so all shapes share this.
 * Units: y m across the line, radius r m (1/e²); result s.
 * Range: swings that overlap along the line (`swingOverlap` above about 0.5); else the dose varies along it as well.
 * Errors: InvalidInput for values outside their ranges.
 * Source: own derivation; for A = 0 the plain line, √(π/2)·r/v. Mean by equal phases, exact to rounding for A below 60 r.
 */
export function wobbleDwell(w: Wobble, radius: Metre, y: Metre): Second {
  const { amplitude, speed } = checked(w);
  requirePositive("spot radius", radius, "m");
  let sum = 0;
  for (let i = 0; i < TURN; i++)
    sum += Math.exp(-2 * ((y - amplitude * Math.sin((2 * Math.PI * (i + 0.5)) / TURN)) / radius) ** 2);
  return (Math.sqrt(Math.PI / 2) * radius * sum) / (TURN * speed);
}

/** Quickest and slowest speed over one swing: quick enough to be read off 512 phases. */
function speedRange({ shape, speed, amplitude, frequency }: Wobble): readonly [number, number] {
  const swing = 2 * Math.PI * frequency * amplitude;
  let most = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < TURN; i++) {
    const phase = (2 * Math.PI * i) / TURN;
    const along = shape === "circle" ? -Math.sin(phase) : shape === "eight" ? Math.cos(2 * phase) : 0;
    const at = Math.hypot(speed + swing * along, swing * Math.cos(phase));
    most = Math.max(most, at);
    least = Math.min(least, at);
  }
  return [most, least];
}

/**
 * Overlaps and dwell of a wobbled line.
 *
 * Equation: speeds from the derivative of the path; dwell by `wobbleDwell`; mean dwell = (π·r²/2)/(v·(2A + d)) (the energy
 * P/v over the swept width 2A + d, as time at the peak irradiance).
 * Units: spotDiameter m (1/e²), pulseFrequency Hz or null; results as in `WobbleLoad`.
 * Range: as `wobbleDwell`; amplitude below 60 radii.
 * Errors: InvalidInput for values outside their ranges. Source: own derivation.
 */
export function wobbleLoad(w: Wobble, spotDiameter: Metre, pulseFrequency: Hertz | null): WobbleLoad {
  const { amplitude, speed, frequency } = checked(w);
  const radius = requirePositive("spot diameter", spotDiameter, "m") / 2;
  if (amplitude > 60 * radius) invalid("wobble amplitude", amplitude, "m", `at most ${60 * radius} m on this spot`);
  const [speedMax, speedMin] = speedRange(w);
  let dwellPeak = 0;
  let peakAt = 0;
  for (let i = 0; i <= 200; i++) {
    const y = (amplitude * i) / 200;
    const at = wobbleDwell(w, radius, y);
    if (at > dwellPeak) [dwellPeak, peakAt] = [at, y];
  }
  return {
    speedMax,
    speedMin,
    pulseOverlapLeast:
      pulseFrequency === null
        ? null
        : 1 - speedMax / (requirePositive("frequency", pulseFrequency, "Hz") * spotDiameter),
    swingOverlap: 1 - speed / (frequency * spotDiameter),
    dwellMean: (Math.PI * radius * radius) / (2 * speed * (2 * amplitude + spotDiameter)),
    dwellPeak,
    peakAt,
  };
}
