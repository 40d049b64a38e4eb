import { erf } from "#numerics";
import { invalid, requireNonNegative, requirePositive } from "#units";
import type { ColumnPulse } from "./column-spec.ts";

/** A pulse as the solver uses it: energy delivered up to a time, so that no energy is lost between steps. */
export interface PulseEnergy {
  /** J/m² delivered up to t (s) */
  energyTo(t: number): number;
  /** W/m² at t (s), inside the pulse */
  power(t: number): number;
  /** s, time after which nothing comes any more */
  readonly end: number;
  /** whether the power is constant inside the pulse */
  readonly constant: boolean;
}

const halfMaximum = 2 * Math.sqrt(Math.LN2);

/**
 * Gaussian pulse cut to three durations: I(t) ∝ exp(−4·ln2·(t − 1.5τ)²/τ²), scaled so that the cut loses nothing.
 * fluence: J/m²; duration τ: s, full width at half maximum. Source: own.
 */
function gaussianPulse(fluence: number, duration: number): PulseEnergy {
  const reach = erf(halfMaximum * 1.5);
  const peak = (fluence * halfMaximum) / (Math.sqrt(Math.PI) * reach * duration);
  return {
    energyTo: (t) =>
      t <= 0 ? 0 : t >= 3 * duration ? fluence : (fluence / 2) * (1 + erf(halfMaximum * (t / duration - 1.5)) / reach),
    power: (t) => (t < 0 || t > 3 * duration ? 0 : peak * Math.exp(-((halfMaximum * (t / duration - 1.5)) ** 2))),
    end: 3 * duration,
    constant: false,
  };
}

function tablePulse(fluence: number, time: Float64Array, power: Float64Array): PulseEnergy {
  const n = time.length;
  if (n < 2 || power.length !== n) invalid("pulse table", n, "points", "needs at least two times, one power each");
  if (time[0] !== 0) invalid("pulse table", time[0], "s", "must begin at 0");
  const sum = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    requireNonNegative("pulse power", power[i]);
    if (i === 0) continue;
    if (!(time[i]! > time[i - 1]!)) invalid("pulse table", time[i], "s", "times must ascend");
    sum[i] = sum[i - 1]! + 0.5 * (power[i]! + power[i - 1]!) * (time[i]! - time[i - 1]!);
  }
  const scale = fluence / requirePositive("pulse energy", sum[n - 1]);
  const end = time[n - 1]!;
  const find = (t: number): number => {
    let low = 0;
    let high = n - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (time[middle]! <= t) low = middle;
      else high = middle;
    }
    return low;
  };
  const at = (i: number, t: number): number =>
    power[i]! + ((power[i + 1]! - power[i]!) * (t - time[i]!)) / (time[i + 1]! - time[i]!);
  return {
    energyTo: (t) => {
      if (t <= 0) return 0;
      if (t >= end) return fluence;
      const i = find(t);
      return scale * (sum[i]! + 0.5 * (power[i]! + at(i, t)) * (t - time[i]!));
    },
    power: (t) => (t < 0 || t > end ? 0 : scale * at(find(t), t)),
    end,
    constant: false,
  };
}

/**
 * Energy per area of a pulse over time. fluence: J/m², ≥ 0; duration: s, > 0. Throws `InvalidInput`. Source: own.
 */
export function pulseEnergy(pulse: ColumnPulse): PulseEnergy {
  const fluence = requireNonNegative("fluence", pulse.fluence, "J/m²");
  const duration = requirePositive("pulse duration", pulse.duration, "s");
  if (pulse.shape === "gaussian") return gaussianPulse(fluence, duration);
  if (pulse.shape !== "square") return tablePulse(fluence, pulse.shape.time, pulse.shape.power);
  return {
    energyTo: (t) => fluence * Math.min(1, Math.max(0, t / duration)),
    power: (t) => (t < 0 || t > duration ? 0 : fluence / duration),
    end: duration,
    constant: true,
  };
}
