import { completeSetting, frequencyRange, lensOf } from "#beam";
import type { LaserSetup, Setting } from "#terms";

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** Share of what a set-up can give on the mean: what its power control stands at. */
const powerShare = (setup: LaserSetup, setting: Setting): number =>
  setup.kind === "pulsed" ? setting.power / setup.ratedPower : setting.level;

function withShare(setup: LaserSetup, setting: Setting, share: number): Setting {
  return setup.kind === "pulsed"
    ? { ...setting, power: clamp(share, 0.02, 1) * setup.ratedPower }
    : { ...setting, level: clamp(share, 0.02, 1) };
}

/** Inside the limits that hold for the set-up; what it does not have is left out. */
export function fitted(setup: LaserSetup, setting: Setting): Setting {
  const lens = setup.lenses.find((l) => l.id === setting.lens) ?? lensOf(setup, completeSetting(setup, {}).lens);
  const pulseWidth =
    setup.kind === "pulsed"
      ? (setup.pulses.find((p) => p.width === setting.pulseWidth)?.width ?? completeSetting(setup, {}).pulseWidth)
      : null;
  const range = frequencyRange(setup, pulseWidth);
  return {
    ...setting,
    lens: lens.id,
    pulseWidth,
    power: clamp(setting.power, setup.ratedPower / 50, setup.ratedPower),
    frequency: setting.frequency === null || range === null ? null : clamp(setting.frequency, range.min, range.max),
    speed: clamp(setting.speed, setup.speedMin, setup.speedMax),
    lineSpacing: clamp(setting.lineSpacing, setup.lineSpacingMin, lens.fieldSide),
    passes: clamp(Math.round(setting.passes), 1, setup.passesMax),
    defocus: clamp(setting.defocus, -setup.defocusMax, setup.defocusMax),
  };
}

/**
 * The second laser's setting after the first one moved from `before` to `after`: what both have moves with it, power as a
 * share of what each can give. What was not moved stays where it is.
 */
export function moveWith(
  first: LaserSetup,
  before: Setting,
  after: Setting,
  second: LaserSetup,
  setting: Setting,
): Setting {
  let next = setting;
  for (const key of ["speed", "lineSpacing", "passes", "defocus"] as const)
    if (after[key] !== before[key]) next = { ...next, [key]: after[key] };
  if (first.kind === second.kind && after.frequency !== before.frequency && next.frequency !== null && after.frequency)
    next = { ...next, frequency: after.frequency };
  const share = powerShare(first, after);
  if (share !== powerShare(first, before)) next = withShare(second, next, share);
  return next === setting ? setting : fitted(second, next);
}
