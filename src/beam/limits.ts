import type { Hertz, LaserSetup, Setting } from "#terms";
import { invalid } from "#units";
import { lensOf } from "./lens.ts";
import { pulseChoice } from "./pulse.ts";
import { shown } from "./shown.ts";

/** Unit conversions at the edge may leave a limit by the last bits; that is no violation. */
const SLACK = 1e-9;
const within = (value: number, low: number, high: number): boolean =>
  value >= low - SLACK * Math.abs(low) && value <= high + SLACK * Math.abs(high);

function requireWithin(
  name: string,
  value: number,
  low: number,
  high: number,
  scale: number,
  unit: string,
  where: string,
): void {
  if (within(value, low, high)) return;
  const range = `between ${shown(low * scale)} and ${shown(high * scale)}${unit === "" ? "" : ` ${unit}`}`;
  invalid(name, shown(value * scale), unit, `${range} for ${where}`);
}

/** Frequency range of a set-up at one pulse width (pulsed), or of its modulation (continuous), Hz; null where there is none. */
export function frequencyRange(
  setup: LaserSetup,
  width: number | null,
): { readonly min: Hertz; readonly max: Hertz } | null {
  if (setup.kind === "continuous")
    return setup.modulation && { min: setup.modulation.frequencyMin, max: setup.modulation.frequencyMax };
  if (width === null) return { min: setup.frequencyMin, max: setup.frequencyMax };
  return { min: setup.frequencyMin, max: Math.min(setup.frequencyMax, pulseChoice(setup, width).frequencyMax) };
}

function checkPulsed(setup: LaserSetup, setting: Setting): void {
  if (setting.pulseWidth === null) invalid("pulse width", null, "", `${setup.id} is pulsed and needs one`);
  const choice = pulseChoice(setup, setting.pulseWidth);
  if (setting.frequency === null) invalid("frequency", null, "", `${setup.id} is pulsed and needs one`);
  const range = frequencyRange(setup, choice.width)!;
  requireWithin(
    "frequency",
    setting.frequency,
    range.min,
    range.max,
    1e-3,
    "kHz",
    `${setup.id} at ${shown(choice.width * 1e9)} ns`,
  );
  if (!(choice.width * setting.frequency < 1)) {
    const rule = `below ${shown(1e-3 / choice.width)} kHz: pulses of ${shown(choice.width * 1e9)} ns would run into each other`;
    invalid("frequency", shown(setting.frequency * 1e-3), "kHz", rule);
  }
  if (setting.duty !== 1) invalid("duty", setting.duty, "", `1 for ${setup.id}, which is pulsed`);
}

function checkContinuous(setup: LaserSetup, setting: Setting): void {
  if (setting.pulseWidth !== null) pulseChoice(setup, setting.pulseWidth);
  if (!(setting.duty > 0 && setting.duty <= 1)) invalid("duty", setting.duty, "", "above 0 and up to 1");
  if (setting.frequency === null) {
    if (setting.duty !== 1) invalid("duty", setting.duty, "", "1 without a modulation frequency");
    return;
  }
  const modulation =
    setup.modulation ?? invalid("frequency", shown(setting.frequency / 1e3), "kHz", `${setup.id} has no modulation`);
  requireWithin(
    "frequency",
    setting.frequency,
    modulation.frequencyMin,
    modulation.frequencyMax,
    1e-3,
    "kHz",
    setup.id,
  );
  requireWithin("duty", setting.duty, modulation.dutyMin, 1, 1, "", setup.id);
}

/**
 * Throws one InvalidInput for the first limit of the set-up that the setting breaks, coupled limits included
 * (frequency by pulse width, duty by modulation). Returns nothing when the set-up can run the setting.
 */
export function checkSetting(setup: LaserSetup, setting: Setting): void {
  const lens = lensOf(setup, setting.lens);
  if (!(setting.power > 0 && within(setting.power, 0, setup.ratedPower))) {
    invalid("power", shown(setting.power), "W", `above 0 and up to ${shown(setup.ratedPower)} W for ${setup.id}`);
  }
  if (!(setting.level > 0 && setting.level <= 1)) invalid("level", setting.level, "", "above 0 and up to 1");
  if (setup.kind === "pulsed") checkPulsed(setup, setting);
  else checkContinuous(setup, setting);
  requireWithin("speed", setting.speed, setup.speedMin, setup.speedMax, 1e3, "mm/s", setup.id);
  requireWithin(
    "line spacing",
    setting.lineSpacing,
    setup.lineSpacingMin,
    lens.fieldSide,
    1e3,
    "mm",
    `${setup.id} with ${lens.id}`,
  );
  if (!Number.isSafeInteger(setting.passes)) invalid("passes", setting.passes, "", "a whole number");
  requireWithin("passes", setting.passes, 1, setup.passesMax, 1, "", setup.id);
  requireWithin("defocus", setting.defocus, -setup.defocusMax, setup.defocusMax, 1e3, "mm", setup.id);
}
