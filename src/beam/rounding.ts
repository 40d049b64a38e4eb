import type { LaserSetup, Setting } from "#terms";
import { invalid } from "#units";
import { lensOf } from "./lens.ts";
import { frequencyRange } from "./limits.ts";

/** Steps per SI unit that a machine's panel takes (common practice, no source). */
const STEPS = {
  power: 10,
  level: 1000,
  duty: 100,
  pulsedFrequency: 1e-2,
  modulationFrequency: 1,
  speed: 1000,
  lineSpacing: 1e6,
  defocus: 1e4,
} as const;

/** Nearest step inside the limits; a limit itself is always allowed. Dividing by whole steps keeps decimals short. */
function snap(name: string, value: number, steps: number, low: number, high: number): number {
  if (!Number.isFinite(value)) invalid(name, value, "", "a finite number");
  const stepped = steps >= 1 ? Math.round(value * steps) / steps : Math.round(value * steps) * Math.round(1 / steps);
  return Math.min(high, Math.max(low, stepped));
}

function nearestWidth(setup: LaserSetup, width: number): number {
  if (!(width > 0 && width < Infinity)) invalid("pulse width", width, "s", "above 0");
  let best = setup.pulses[0]?.width ?? invalid("pulse width", width, "s", `${setup.id} offers none`);
  for (const choice of setup.pulses)
    if (Math.abs(Math.log(choice.width / width)) < Math.abs(Math.log(best / width))) best = choice.width;
  return best;
}

/**
 * The nearest setting that the set-up's panel can be set to: pulse width to the nearest on offer (in ratio), the rest
 * to the steps 0.1 W, 0.1 % level, 1 % duty, 0.1 kHz pulse or 1 Hz modulation frequency, 1 mm/s, 1 µm spacing,
 * 0.1 mm defocus, whole passes; then inside the limits of checkSetting. Throws InvalidInput on an unknown lens or a
 * value that is not a finite number.
 */
export function roundToMachine(setup: LaserSetup, setting: Setting): Setting {
  const pulsed = setup.kind === "pulsed";
  const lens = lensOf(setup, setting.lens);
  const pulseWidth = pulsed && setting.pulseWidth !== null ? nearestWidth(setup, setting.pulseWidth) : null;
  const range = frequencyRange(setup, pulseWidth);
  const frequency =
    setting.frequency === null || range === null
      ? null
      : snap(
          "frequency",
          setting.frequency,
          pulsed ? STEPS.pulsedFrequency : STEPS.modulationFrequency,
          range.min,
          range.max,
        );
  const dutyMin = pulsed || frequency === null ? 1 : (setup.modulation?.dutyMin ?? 1);
  return {
    power: snap("power", setting.power, STEPS.power, Math.min(1 / STEPS.power, setup.ratedPower), setup.ratedPower),
    level: snap("level", setting.level, STEPS.level, 1 / STEPS.level, 1),
    duty: snap("duty", setting.duty, STEPS.duty, dutyMin, 1),
    frequency,
    pulseWidth,
    speed: snap("speed", setting.speed, STEPS.speed, setup.speedMin, setup.speedMax),
    lineSpacing: snap("line spacing", setting.lineSpacing, STEPS.lineSpacing, setup.lineSpacingMin, lens.fieldSide),
    passes: snap("passes", setting.passes, 1, 1, setup.passesMax),
    defocus: snap("defocus", setting.defocus, STEPS.defocus, -setup.defocusMax, setup.defocusMax) + 0,
    lens: lens.id,
  };
}
