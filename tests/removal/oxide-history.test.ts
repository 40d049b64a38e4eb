import { describe, expect, it } from "vitest";
import { metal } from "#library";
import { integrate } from "#numerics";
import {
  arrheniusTime,
  GAS_CONSTANT,
  oxideAfterHistory,
  oxideGrowthSquared,
  passReactionTime,
  passShape,
  pulseReactionTime,
  reactionTime,
  sharpPassReactionTime,
  sharpPulseReactionTime,
} from "#removal";
import { InvalidInput } from "#units";

/** Chen and Yuen, Oxid. Met. 59 (2003) 433, from memory: k_p = 6.1·exp(−169452/RT) cm²/s, iron at 700 to 1250 °C. */
const iron = { preExponential: 6.1e-4, activationEnergy: 169452 };
const rate = (e: number, t: number) => Math.exp(-e / (GAS_CONSTANT * t));

describe("oxide over a history", () => {
  it("is the law at one temperature where the temperature stands", () => {
    expect(oxideAfterHistory(iron, [0, 3, 7], [1200, 1200, 1200])).toBeCloseTo(oxideGrowthSquared(iron, 1200, 7), 18);
    // by hand: 6.1e-4·e^(−169452/(8.314463·1273.15))·3600 s, √: 495 µm in an hour at 1000 °C
    expect(Math.sqrt(oxideAfterHistory(iron, [0, 3600], [1273.15, 1273.15])) * 1e6).toBeCloseTo(495, -0.5);
  });

  it("is exact where 1/T runs straight, rising or falling alike", () => {
    const [hot, cold] = [1500, 500];
    const at = (t: number) => 1 / (1 / cold + (1 / hot - 1 / cold) * t);
    const exact = integrate((t) => rate(iron.activationEnergy, at(t)), 0, 1);
    expect(arrheniusTime(iron.activationEnergy, [0, 1], [cold, hot]) / exact).toBeCloseTo(1, 9);
    expect(arrheniusTime(iron.activationEnergy, [0, 1], [hot, cold]) / exact).toBeCloseTo(1, 9);
    expect(arrheniusTime(iron.activationEnergy, [0, 0.2, 0.2, 1], [cold, at(0.2), at(0.2), hot]) / exact).toBeCloseTo(
      1,
      9,
    );
  });

  it("converges on a straight rise of temperature with the square of the step", () => {
    const exact = integrate((t) => rate(iron.activationEnergy, 300 + 1000 * t), 0, 1);
    const error = (n: number) => {
      const times = Array.from({ length: n + 1 }, (_, i) => i / n);
      return (
        arrheniusTime(
          iron.activationEnergy,
          times,
          times.map((t) => 300 + 1000 * t),
        ) /
          exact -
        1
      );
    };
    expect(Math.abs(error(20))).toBeLessThan(0.01);
    expect(error(40) / error(80)).toBeGreaterThan(3.8);
  });

  it("keeps what was there: squares add up, whatever the order of the stretches", () => {
    const first = oxideAfterHistory(iron, [0, 1], [1100, 1100]);
    const both = oxideAfterHistory(iron, [0, 2], [1000, 1000], Math.sqrt(first));
    expect(both).toBeCloseTo(first + oxideGrowthSquared(iron, 1000, 2), 20);
  });

  it("refuses a history that is none", () => {
    expect(() => arrheniusTime(1e5, [0, 1], [300])).toThrow(InvalidInput);
    expect(() => arrheniusTime(1e5, [0, -1], [300, 300])).toThrow("invalid time: -1 s (not below the one before)");
    expect(() => arrheniusTime(1e5, [0, 1], [300, 0])).toThrow("invalid temperature: 0 K");
  });
});

/** w = E·ΔT/(R·T_p²) */
const steepness = (e: number, start: number, rise: number) => (e * rise) / (GAS_CONSTANT * (start + rise) ** 2);

/** The pulse in its own words: temperature over time, integrated on each side of the end of the pulse. */
function pulseByQuadrature(e: number, start: number, rise: number, period: number): number {
  const share = (t: number) => Math.sqrt(t) - (t > 1 ? Math.sqrt(t - 1) : 0);
  const excess = (t: number) => rate(e, start + rise * share(t)) - rate(e, start);
  // t = 1 ± v², so that the corner of the root is smooth
  const options = { relative: 1e-9 };
  const on = integrate((v) => 2 * v * excess(1 - v * v), 0, 1, options);
  const after = integrate((v) => 2 * v * excess(1 + v * v), 0, Math.sqrt(period - 1), options);
  return (on + after) / rate(e, start + rise);
}

describe("time that a pulse counts for", () => {
  const cases = ["steel-low-carbon", "stainless-304", "titanium-6-4", "copper"].flatMap((id) => {
    const e = metal(id).oxideGrowth!.activationEnergy.value;
    return [
      [id, e, 300, 600],
      [id, e, 300, 1400],
      [id, e, 600, 900],
    ] as const;
  });

  it.each(cases)("%s, E %d, from %d K by %d K: the quadrature is the integral", (_id, e, start, rise) => {
    for (const period of [1, 1.5, 20, 1e4]) {
      const pulse = { duration: 2e-7, period: period * 2e-7, start, rise };
      expect(pulseReactionTime(pulse, e) / (2e-7 * pulseByQuadrature(e, start, rise, period))).toBeCloseTo(1, 6);
    }
  });

  it.each(cases)("%s, E %d, from %d K by %d K: the closed form holds within 4 %%", (_id, e, start, rise) => {
    expect(steepness(e, start, rise)).toBeGreaterThan(6);
    const exact = pulseReactionTime({ duration: 1, period: 1e4, start, rise }, e);
    expect(Math.abs(sharpPulseReactionTime(1, start + rise, rise, e) / exact - 1)).toBeLessThan(0.04);
    // the first term alone overstates the squared thickness by 5 to 15 %
    const first = reactionTime(1, start + rise, rise, e) / exact - 1;
    expect(first).toBeGreaterThan(0.05);
    expect(first).toBeLessThan(0.16);
  });

  it("grows with the tail it is given, and is nothing for no rise", () => {
    const pulse = { duration: 1, period: 1, start: 900, rise: 300 };
    const alone = pulseReactionTime(pulse, 169452);
    expect(pulseReactionTime({ ...pulse, period: 10 }, 169452)).toBeGreaterThan(alone);
    expect(pulseReactionTime({ ...pulse, rise: 0 }, 169452)).toBe(0);
    expect(() => pulseReactionTime({ ...pulse, period: 0.5 }, 1e5)).toThrow("invalid period: 0.5 s");
  });
});

describe("time that a pass counts for", () => {
  it("has its rise from the surface flux of a Gaussian beam", () => {
    for (const s of [-1, 0, 0.382475, 1, 5.9, 6.1, 40]) {
      // q = p²
      const direct = integrate((p) => 2 * Math.exp(-2 * (s - p * p) ** 2), 0, Math.sqrt(Math.max(s, 0) + 5));
      expect(passShape(s) * 1.8099175, String(s)).toBeCloseTo(direct, 5);
    }
    expect(passShape(0.382475)).toBeCloseTo(1, 6);
    expect(passShape(0.3)).toBeLessThan(1);
    expect(passShape(0.46)).toBeLessThan(1);
  });

  it.each([
    [169452, 300, 600],
    [169452, 300, 1400],
    [230000, 500, 1000],
    [140000, 700, 300],
  ])("E %d, from %d K by %d K: the sum is the integral, the closed form within 3 %%", (e, start, rise) => {
    const until = 60;
    const direct = (to: number) =>
      integrate((s) => rate(e, start + rise * passShape(s)) - rate(e, start), -3, to, { relative: 1e-7 }) /
      rate(e, start + rise);
    const pass = { radiusTime: 1e-3, until: until * 1e-3, start, rise };
    expect(Math.abs(passReactionTime(pass, e) / (1e-3 * direct(until)) - 1)).toBeLessThan(2e-3);
    const sharp = sharpPassReactionTime(1, start + rise, rise, e);
    if (steepness(e, start, rise) > 6) expect(Math.abs(sharp / direct(8) - 1)).toBeLessThan(0.03);
  });

  it("counts the cooling tail: a warm part goes on growing after the beam has gone", () => {
    const pass = { radiusTime: 1e-3, until: 3e-3, start: 800, rise: 150 };
    const short = passReactionTime(pass, 140e3);
    const long = passReactionTime({ ...pass, until: 1 }, 140e3);
    expect(long / short).toBeGreaterThan(1.5);
    expect(() => passReactionTime({ ...pass, until: 0 }, 140e3)).toThrow(InvalidInput);
  });
});
