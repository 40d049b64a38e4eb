import { checkSetting, cutInFrequency, frequencyRange, roundToMachine, spotDiameterAt } from "#beam";
import { sobolPoints } from "#numerics";
import type { LaserSetup, Setting } from "#terms";

const PASSES = [1, 1, 1, 2, 2, 3, 4, 6, 8] as const;
/** Share of continuous candidates that are modulated. */
const MODULATED_SHARE = 0.2;

export interface CandidateOptions {
  readonly count: number;
  readonly seed: number;
  /** W, largest mean power allowed, or null */
  readonly powerMax: number | null;
}

/** Settings spread over what a set-up can do, inside its coupled limits, rounded to what its panel takes. */
export function candidateSettings(setup: LaserSetup, options: CandidateOptions): Setting[] {
  const points = sobolPoints(options.count, 7, { skip: 1, seed: options.seed });
  const settings: Setting[] = [];
  for (const u of points) {
    const setting =
      setup.kind === "pulsed"
        ? pulsedCandidate(setup, u, options.powerMax)
        : continuousCandidate(setup, u, options.powerMax);
    const rounded = roundToMachine(setup, setting);
    if (runs(setup, rounded)) settings.push(rounded);
  }
  return settings;
}

/** True when the set-up can run the setting. */
export function runs(setup: LaserSetup, setting: Setting): boolean {
  try {
    checkSetting(setup, setting);
    return true;
  } catch {
    return false;
  }
}

const pick = <T>(list: readonly T[], u: number): T => list[Math.min(list.length - 1, Math.floor(u * list.length))];
const between = (low: number, high: number, u: number): number => low * (high / low) ** u;
const clamp = (x: number, low: number, high: number): number => Math.min(high, Math.max(low, x));

function pulsedCandidate(setup: LaserSetup, u: ArrayLike<number>, powerMax: number | null): Setting {
  const lens = pick(setup.lenses, u[0]);
  const choice = pick(setup.pulses, u[1]);
  const range = frequencyRange(setup, choice.width) ?? { min: setup.frequencyMin, max: setup.frequencyMax };
  const power = Math.min(setup.ratedPower, powerMax ?? setup.ratedPower);
  // From a little below the cut-in (fullest pulses) to the fastest the source runs at this width.
  const cutIn = clamp((cutInFrequency(setup, choice.width) * power) / setup.ratedPower, range.min, range.max);
  const frequency = between(cutIn, range.max, u[2] * u[2]);
  const defocus = u[3] < 0.5 ? 0 : setup.defocusMax * (2 * u[3] - 1);
  const spot = spotDiameterAt(lens, defocus);
  const pitch = between(0.04, 0.95, u[4]) * spot;
  const spacing = between(0.1, 0.9, u[5]) * spot;
  return {
    power,
    level: 1,
    duty: 1,
    frequency,
    pulseWidth: choice.width,
    speed: clamp(pitch * frequency, setup.speedMin, setup.speedMax),
    lineSpacing: clamp(spacing, setup.lineSpacingMin, lens.fieldSide),
    passes: Math.min(pick(PASSES, u[6]), setup.passesMax),
    defocus,
    lens: lens.id,
  };
}

function continuousCandidate(setup: LaserSetup, u: ArrayLike<number>, powerMax: number | null): Setting {
  const lens = pick(setup.lenses, u[0]);
  const { modulation } = setup;
  const modulated = modulation !== null && u[1] < MODULATED_SHARE;
  const duty = modulated ? between(Math.max(modulation.dutyMin, 0.05), 0.5, u[1] / MODULATED_SHARE) : 1;
  const mean = Math.min(setup.ratedPower * duty, powerMax ?? Number.POSITIVE_INFINITY);
  const level = clamp((mean / (setup.ratedPower * duty)) * between(0.4, 1, Math.sqrt(u[2])), 0.01, 1);
  const defocus = u[3] < 0.5 ? 0 : setup.defocusMax * (2 * u[3] - 1);
  const spot = spotDiameterAt(lens, defocus);
  const frequency = modulated ? between(modulation.frequencyMin, modulation.frequencyMax, 0.5 + 0.5 * u[4]) : null;
  const fastest =
    frequency === null ? setup.speedMax : Math.min(setup.speedMax, Math.max(setup.speedMin, 0.9 * spot * frequency));
  return {
    power: setup.ratedPower,
    level,
    duty,
    frequency,
    pulseWidth: null,
    speed: between(Math.max(setup.speedMin, fastest / 400), fastest, u[4]),
    lineSpacing: clamp(between(0.15, 0.95, u[5]) * spot, setup.lineSpacingMin, lens.fieldSide),
    passes: Math.min(pick(PASSES, u[6]), setup.passesMax),
    defocus,
    lens: lens.id,
  };
}

/** Neighbours of a setting: each control moved by a factor drawn from `u` (numbers in [0, 1)), same lens and width. */
export function neighbour(
  setup: LaserSetup,
  setting: Setting,
  u: ArrayLike<number>,
  reach: number,
  powerMax: number | null,
): Setting | null {
  const factor = (x: number) => Math.exp(reach * (2 * x - 1));
  const full = Math.min(1, (powerMax ?? Number.POSITIVE_INFINITY) / (setting.power * setting.duty));
  const moved: Setting = {
    ...setting,
    frequency: setting.frequency === null ? null : setting.frequency * factor(u[0]),
    level: setup.kind === "continuous" ? clamp(setting.level * factor(u[0]), 0.01, full) : setting.level,
    speed: clamp(setting.speed * factor(u[1]), setup.speedMin, setup.speedMax),
    lineSpacing: Math.max(setup.lineSpacingMin, setting.lineSpacing * factor(u[2])),
    passes: clamp(Math.round(setting.passes * factor(u[3] * 1.2 - 0.1)), 1, setup.passesMax),
    defocus:
      setup.defocusMax > 0
        ? clamp(setting.defocus + (u[4] - 0.5) * 0.4 * reach * setup.defocusMax, 0, setup.defocusMax)
        : 0,
  };
  const rounded = roundToMachine(setup, moved);
  return runs(setup, rounded) ? rounded : null;
}
