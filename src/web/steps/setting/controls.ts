import { checkSetting, completeSetting, cutInFrequency, frequencyRange } from "#beam";
import type { LaserSetup, Setting } from "#terms";
import { fromSI, toSI } from "#units";
import { words } from "../../words/index.ts";

/** One slider: a value of the setting in the unit of the machine's panel, on a logarithmic or even scale. */
export interface Control {
  readonly key: "power" | "level" | "duty" | "frequency" | "speed" | "lineSpacing" | "passes" | "defocus";
  readonly label: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly scale: "log" | "even";
  readonly step: number;
}

const shown = (value: number, unit: string): number => fromSI(value, unit);

/** The controls of a set-up with the limits that hold at the present setting: the coupled ones move with it. */
export function controlsOf(setup: LaserSetup, setting: Setting): Control[] {
  const lens = setup.lenses.find((l) => l.id === setting.lens) ?? setup.lenses[0];
  const list: Control[] = [];
  if (setup.kind === "pulsed") {
    const range = frequencyRange(setup, setting.pulseWidth) ?? { min: setup.frequencyMin, max: setup.frequencyMax };
    list.push({
      key: "power",
      label: words.setting.power,
      unit: "W",
      low: setup.ratedPower / 50,
      high: setup.ratedPower,
      scale: "log",
      step: 0.1,
    });
    list.push({
      key: "frequency",
      label: words.setting.frequency,
      unit: "kHz",
      low: shown(range.min, "kHz"),
      high: shown(range.max, "kHz"),
      scale: "log",
      step: 0.1,
    });
  } else {
    list.push({ key: "level", label: words.setting.level, unit: "%", low: 2, high: 100, scale: "even", step: 0.5 });
    if (setup.modulation && setting.frequency !== null) {
      list.push({
        key: "duty",
        label: words.setting.duty,
        unit: "%",
        low: 100 * setup.modulation.dutyMin,
        high: 100,
        scale: "even",
        step: 1,
      });
      list.push({
        key: "frequency",
        label: words.setting.frequency,
        unit: "kHz",
        low: shown(setup.modulation.frequencyMin, "kHz"),
        high: shown(setup.modulation.frequencyMax, "kHz"),
        scale: "log",
        step: 0.001,
      });
    }
  }
  list.push({
    key: "speed",
    label: words.setting.speed,
    unit: "mm/s",
    low: shown(setup.speedMin, "mm/s"),
    high: shown(setup.speedMax, "mm/s"),
    scale: "log",
    step: 1,
  });
  list.push({
    key: "lineSpacing",
    label: words.setting.lineSpacing,
    unit: "mm",
    low: shown(setup.lineSpacingMin, "mm"),
    high: Math.min(5, shown(lens.fieldSide, "mm")),
    scale: "log",
    step: 0.001,
  });
  list.push({
    key: "passes",
    label: words.setting.passes,
    unit: "",
    low: 1,
    high: Math.min(setup.passesMax, 30),
    scale: "even",
    step: 1,
  });
  list.push({
    key: "defocus",
    label: words.setting.defocus,
    unit: "mm",
    low: -shown(setup.defocusMax, "mm"),
    high: shown(setup.defocusMax, "mm"),
    scale: "even",
    step: 0.1,
  });
  return list.filter((c) => c.high > c.low);
}

const fraction = (unit: string): boolean => unit === "%" || unit === "";

/** The setting's value as the control shows it. */
export function controlValue(control: Control, setting: Setting): number {
  const value = setting[control.key] ?? 0;
  return control.unit === "%" ? 100 * value : fraction(control.unit) ? value : shown(value, control.unit);
}

/** The setting with one control moved. */
export function withValue(control: Control, setting: Setting, value: number): Setting {
  const clamped = Math.min(control.high, Math.max(control.low, value));
  const si =
    control.unit === "%" ? clamped / 100 : control.unit === "" ? Math.round(clamped) : toSI(clamped, control.unit);
  return { ...setting, [control.key]: si };
}

/** A setting carried to another set-up: what both have is kept where the new one can run it. */
export function carriedTo(setup: LaserSetup, from: Setting | null): Setting {
  const middle = completeSetting(setup, {});
  if (!from) return middle;
  const moved: Setting = { ...middle, speed: from.speed, lineSpacing: from.lineSpacing, passes: from.passes };
  try {
    checkSetting(setup, moved);
    return moved;
  } catch {
    return middle;
  }
}

/** Hz below which the pulse energy limit sets the mean power, or null for a continuous source. */
export function cutIn(setup: LaserSetup, setting: Setting): number | null {
  return setup.kind === "pulsed" && setting.pulseWidth !== null ? cutInFrequency(setup, setting.pulseWidth) : null;
}
