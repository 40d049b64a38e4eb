import type { Metre, Second } from "#terms";

/** How the scanner turns round: beyond the patch with the beam off, with the beam left on, or inside the patch. */
export type Turns = "outside, beam off" | "outside, beam on" | "inside, beam on";
/** Where the first pulse of a line falls: shifted by the golden ratio from line to line, free-running, or at its start. */
export type Phase = "golden" | "free-running" | "line start";

export interface ScanLayout {
  /** m */
  readonly width: Metre;
  readonly height: Metre;
  readonly speed: number;
  readonly acceleration: number;
  readonly lineSpacing: Metre;
  /** Hz; null for a beam that is on all along the line */
  readonly frequency: number | null;
  readonly serpentine: boolean;
  readonly turns: Turns;
  readonly phase: Phase;
  /** energy of the first pulses of each line over that of the others */
  readonly firstPulses: readonly number[];
  /** pulses that count as one event */
  readonly multiplicity: number;
}

const GOLDEN = 0.6180339887498949;

/** Way along a line over time: where the beam is on and moving. */
export interface LineWay {
  /** s the beam is on */
  readonly onTime: Second;
  /** m along the line at a time; below 0 and beyond the width when it turns outside with the beam on */
  at(time: Second): Metre;
}

/**
 * Where the spot is along a line, the beam on, with the scanner at constant acceleration at both ends.
 *
 * Equation: s = a·t²/2 up to v²/2a (or half the way where the speed is not reached), then v·t, then the mirror image.
 * Units: layout as in its type; s, m. Range: all above 0. Errors: none. Source: kinematics at constant acceleration.
 */
export function lineWay(layout: Pick<ScanLayout, "width" | "speed" | "acceleration" | "turns">): LineWay {
  const { width, speed, acceleration: a, turns } = layout;
  if (turns === "outside, beam off") return { onTime: width / speed, at: (t) => speed * t };
  const ramp = (speed * speed) / (2 * a);
  const from = turns === "outside, beam on" ? -ramp : 0;
  const whole = width - 2 * from;
  const gained = Math.min(ramp, whole / 2);
  const rampTime = Math.sqrt((2 * gained) / a);
  const onTime = 2 * rampTime + Math.max(0, whole - 2 * gained) / speed;
  return {
    onTime,
    at(t) {
      if (t < rampTime) return from + 0.5 * a * t * t;
      const back = onTime - t;
      return back < rampTime ? from + whole - 0.5 * a * back * back : from + gained + speed * (t - rampTime);
    },
  };
}

/** Events of one pass in time order. */
export interface ScanEvents {
  /** m */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** energy over that of the other pulses */
  readonly gain: Float64Array;
  readonly line: Int32Array;
}

/** Number of lines of a pass, and the place across of each. */
export function lineCount(layout: Pick<ScanLayout, "height" | "lineSpacing">): number {
  return Math.max(1, Math.round(layout.height / layout.lineSpacing));
}

export function lineY(layout: Pick<ScanLayout, "lineSpacing">, line: number): Metre {
  return (line + 0.5) * layout.lineSpacing;
}

/**
 * Every event of one pass where it really falls: lines one above the other, there and back, ramps included.
 *
 * Units: as in `ScanLayout`; the first line lies half a spacing inside the patch. Range: frequency not null.
 * Errors: none. Source: kinematics; golden-ratio phase own.
 */
export function pulsedEvents(layout: ScanLayout): ScanEvents {
  const { width, speed, acceleration, serpentine, firstPulses, multiplicity } = layout;
  const frequency = layout.frequency as number;
  const way = lineWay(layout);
  const lineTime = width / speed + (2 * speed) / acceleration;
  const x: number[] = [];
  const y: number[] = [];
  const gain: number[] = [];
  const line: number[] = [];
  for (let l = 0; l < lineCount(layout); l++) {
    const phase =
      layout.phase === "golden" ? l * GOLDEN : layout.phase === "free-running" ? -l * lineTime * frequency : 0;
    const share = ((phase % 1) + 1) % 1;
    const pulses = Math.max(0, Math.floor(way.onTime * frequency - share) + 1);
    for (let k = 0; k < pulses; k += multiplicity) {
      const together = Math.min(multiplicity, pulses - k);
      let energy = 0;
      for (let m = 0; m < together; m++) energy += firstPulses[k + m] ?? 1;
      if (energy <= 0) continue;
      const s = way.at((k + (together - 1) / 2 + share) / frequency);
      x.push(serpentine && l % 2 === 1 ? width - s : s);
      y.push(lineY(layout, l));
      gain.push(energy / multiplicity);
      line.push(l);
    }
  }
  return {
    x: Float64Array.from(x),
    y: Float64Array.from(y),
    gain: Float64Array.from(gain),
    line: Int32Array.from(line),
  };
}

/**
 * Dose that a place along a line gets over that of the middle of a long line, for a beam that is on all along.
 *
 * Equation: g(s) = v·∫ φ(s − s(t)) dt over the time the beam is on, φ = √(2/π)/w·exp(−2s²/w²) (Gaussian) or 1/(2r)
 * inside r (flat top, the chord through the middle).
 * Units: at m along the line, radius m; result 1. Range: where a line ends g is ½ without ramps. Errors: none.
 * Source: own (superposition along the line).
 */
export function lineDose(layout: ScanLayout, radius: Metre, profile: "gaussian" | "top-hat", at: Metre): number {
  const way = lineWay(layout);
  const steps = Math.max(8, Math.ceil((12 * way.onTime * layout.speed) / radius));
  const dt = way.onTime / steps;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const u = (at - way.at((i + 0.5) * dt)) / radius;
    if (profile === "gaussian") sum += Math.exp(-2 * u * u);
    else if (Math.abs(u) < 1) sum += 1;
  }
  const norm = profile === "gaussian" ? Math.sqrt(2 / Math.PI) : 0.5;
  return (sum * dt * layout.speed * norm) / radius;
}
