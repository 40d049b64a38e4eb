import { frequencyRange, lensOf } from "#beam";
import type { LaserSetup, Setting } from "#terms";
import { fromSI, invalid } from "#units";

/** The values of a setting that a map may run along, with the unit that people read them in. */
export const mapControls = {
  power: { name: "power", unit: "W" },
  level: { name: "level", unit: "" },
  duty: { name: "duty", unit: "" },
  frequency: { name: "frequency", unit: "kHz" },
  pulseWidth: { name: "pulse width", unit: "ns" },
  speed: { name: "speed", unit: "mm/s" },
  lineSpacing: { name: "line spacing", unit: "mm" },
  passes: { name: "passes", unit: "" },
  defocus: { name: "defocus", unit: "mm" },
} as const;

export type MapControl = keyof typeof mapControls;

export interface MapAxis {
  readonly control: MapControl;
  /** SI, ascending */
  readonly values: readonly number[];
}

/** A map over two values of a setting; all others are held as in `setting`. */
export interface MapSpec {
  readonly setting: Setting;
  readonly x: MapAxis;
  readonly y: MapAxis;
}

/** Most places along one axis: what a screen can show. */
const STEPS_MAX = 1000;

/** Refuses axes that are equal, empty, not ascending or not finite. */
export function checkSpec(setup: LaserSetup, spec: MapSpec): void {
  if (spec.x.control === spec.y.control)
    invalid("axis of the map", mapControls[spec.y.control].name, "", "must differ from the other axis");
  for (const { control, values } of [spec.x, spec.y]) {
    const { name, unit } = mapControls[control];
    if (spec.setting[control] === null) invalid(name, null, unit, `${setup.id} has none that could vary`);
    if (values.length < 2 || values.length > STEPS_MAX)
      invalid(`places along ${name}`, values.length, "", `must be 2 to ${STEPS_MAX}`);
    values.forEach((v, i) => {
      if (!Number.isFinite(v) || (i > 0 && !(v > values[i - 1])))
        invalid(name, Number.isFinite(v) ? fromSI(v, unit) : v, unit, "must rise along the axis of a map");
      if (control !== "defocus" && !(v > 0)) invalid(name, fromSI(v, unit), unit, "must be above 0");
      if (control === "passes" && !Number.isInteger(v)) invalid(name, v, "", "must be a whole number");
    });
  }
}

/** The setting at a place of a map. */
export function settingAt(spec: MapSpec, column: number, row: number): Setting {
  return { ...spec.setting, [spec.x.control]: spec.x.values[column], [spec.y.control]: spec.y.values[row] };
}

/**
 * An axis over all that the set-up can be set to, `count` places in equal ratios (equal steps for the defocus); pulse
 * widths are those on offer and passes are whole numbers, so there may be fewer.
 */
export function axisOver(setup: LaserSetup, setting: Setting, control: MapControl, count: number): MapAxis {
  const lens = lensOf(setup, setting.lens);
  const even = (low: number, high: number): MapAxis => ({
    control,
    values: Array.from({ length: count }, (_, i) => low + ((high - low) * i) / (count - 1)),
  });
  const ratios = (low: number, high: number): MapAxis => ({
    control,
    values: Array.from({ length: count }, (_, i) => low * (high / low) ** (i / (count - 1))),
  });
  switch (control) {
    case "power":
      return ratios(setup.ratedPower / 20, setup.ratedPower);
    case "level":
      return ratios(0.05, 1);
    case "duty":
      return ratios(setup.modulation?.dutyMin ?? 0.05, 1);
    case "frequency": {
      const range = frequencyRange(setup, setting.pulseWidth);
      return range ? ratios(range.min, range.max) : invalid("frequency", null, "kHz", `${setup.id} has no modulation`);
    }
    case "pulseWidth":
      return { control, values: setup.pulses.map((p) => p.width).sort((a, b) => a - b) };
    case "speed":
      return ratios(setup.speedMin, setup.speedMax);
    case "lineSpacing":
      return ratios(setup.lineSpacingMin, Math.min(lens.fieldSide, 2 * (lens.spotDiameter + 2 * setup.defocusMax)));
    case "passes":
      return { control, values: Array.from({ length: Math.min(count, setup.passesMax) }, (_, i) => i + 1) };
    case "defocus":
      return even(-setup.defocusMax, setup.defocusMax);
  }
}
