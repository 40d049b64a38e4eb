import type { LaserSetup, Lens, PulseChoice, Setting } from "#terms";
import { invalid } from "#units";
import { spotDiameterAt } from "./focus.ts";
import { lensOf, middleLens } from "./lens.ts";
import { frequencyRange } from "./limits.ts";
import { cutInFrequencyOf, pulseChoice } from "./pulse.ts";

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** Nearest in ratio to 100 ns, the middle of what nanosecond cleaning sources offer (common practice, no source). */
function middlePulse(setup: LaserSetup): PulseChoice {
  const far = (choice: PulseChoice): number => Math.abs(Math.log(choice.width / 100e-9));
  const [first, ...rest] = setup.pulses;
  if (first === undefined) return invalid("pulses", 0, "", `${setup.id} is pulsed and needs at least one pulse width`);
  return rest.reduce((best, choice) => (far(choice) < far(best) ? choice : best), first);
}

/** Speed and spacing at 50 % overlap of the spot (common practice, no source), inside the machine's limits. */
function halfOverlap(
  setup: LaserSetup,
  lens: Lens,
  defocus: number,
  frequency: number | null,
): { speed: number; lineSpacing: number } {
  const diameter = spotDiameterAt(lens, defocus);
  const speed = frequency === null ? setup.speedMax / 2 : 0.5 * diameter * frequency;
  return {
    speed: clamp(Number((Number.isFinite(speed) ? speed : setup.speedMax).toFixed(3)), setup.speedMin, setup.speedMax),
    lineSpacing: clamp(Number((0.5 * diameter).toFixed(6)), setup.lineSpacingMin, lens.fieldSide),
  };
}

function beamTiming(setup: LaserSetup, given: Partial<Setting>): Pick<Setting, "frequency" | "pulseWidth" | "duty"> {
  const duty = given.duty ?? 1;
  if (setup.kind === "continuous") {
    const { modulation } = setup;
    const needed =
      duty !== 1 && modulation !== null
        ? Math.round(Math.sqrt(modulation.frequencyMin * modulation.frequencyMax))
        : null;
    return { frequency: given.frequency ?? needed, pulseWidth: given.pulseWidth ?? null, duty };
  }
  const choice = given.pulseWidth == null ? middlePulse(setup) : pulseChoice(setup, given.pulseWidth);
  const range = frequencyRange(setup, choice.width)!;
  const cutIn = Math.ceil(cutInFrequencyOf(setup.ratedPower, choice.energyMax) / 100) * 100;
  return { frequency: given.frequency ?? clamp(cutIn, range.min, range.max), pulseWidth: choice.width, duty };
}

/**
 * Fills in what a partial setting leaves open: full power, middle lens, in focus, one pass; a pulsed source at the
 * width nearest to 100 ns and at its cut-in frequency, with 50 % overlap both ways; a continuous source unmodulated
 * at half its largest speed. What is filled in follows what was given (the frequency follows the width, the spacing
 * the lens and the defocus). Given values pass through untouched: checkSetting judges them.
 * Throws InvalidInput on an unknown lens or a pulse width not on offer.
 */
export function completeSetting(setup: LaserSetup, given: Partial<Setting>): Setting {
  const lens = given.lens === undefined ? middleLens(setup) : lensOf(setup, given.lens);
  const defocus = given.defocus ?? 0;
  const timing = beamTiming(setup, given);
  const scan = halfOverlap(setup, lens, defocus, setup.kind === "pulsed" ? timing.frequency : null);
  return {
    power: given.power ?? setup.ratedPower,
    level: given.level ?? 1,
    ...timing,
    speed: given.speed ?? scan.speed,
    lineSpacing: given.lineSpacing ?? scan.lineSpacing,
    passes: given.passes ?? 1,
    defocus,
    lens: lens.id,
  };
}

/** A middling setting of a set-up to start from; see completeSetting. */
export function defaultSetting(setup: LaserSetup): Setting {
  return completeSetting(setup, {});
}
