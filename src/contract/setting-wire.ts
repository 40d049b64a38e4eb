import type { LaserSetup, Setting } from "#terms";
import type { InvalidInput } from "#units";
import { type SettingFile, type SettingWire, settingFileSchema } from "./setting-schema.ts";
import { InvalidInputs, problem, validate } from "./validate.ts";
import { into, intoOrNull, out, outOrNull } from "./wire-numbers.ts";

/** What is wrong with the file on this kind of source; the machine's own coupled limits are #beam's to check. */
function misfits(file: SettingFile, json: unknown, setup: LaserSetup): InvalidInput[] {
  const found: InvalidInput[] = [];
  const say = (key: keyof SettingFile, rule: string) => found.push(problem(json, [key], rule, "setting"));
  if (setup.kind === "continuous") {
    if (file.pulseWidth_ns != null) say("pulseWidth_ns", `${setup.id} is continuous and has no pulse width`);
    if (file.frequency_kHz != null && setup.modulation === null)
      say("frequency_kHz", `${setup.id} cannot be modulated`);
    if (file.frequency_kHz === null && file.duty !== undefined && file.duty < 1) {
      say("duty", "must be 1 for a beam that is not modulated");
    }
  } else {
    if (file.pulseWidth_ns === null) say("pulseWidth_ns", `${setup.id} is pulsed and needs a pulse width`);
    if (file.frequency_kHz === null) say("frequency_kHz", `${setup.id} is pulsed and needs a frequency`);
    if (file.duty !== undefined && file.duty !== 1) say("duty", "must be 1 for a pulsed set-up");
  }
  if (file.lens !== undefined && !setup.lenses.some((l) => l.id === file.lens)) {
    say("lens", `${setup.id} has the lenses ${setup.lenses.map((l) => l.id).join(", ")}`);
  }
  return found;
}

/**
 * A setting file in SI: only what the file names. Unknown fields, wrong units and values without meaning on this
 * set-up are refused by name. Throws InvalidInputs.
 */
export function parseSetting(json: unknown, setup: LaserSetup): Partial<Setting> {
  const file = validate(settingFileSchema, json, "setting");
  const problems = misfits(file, json, setup);
  if (problems.length > 0) throw new InvalidInputs(problems);
  return {
    ...(file.power_W === undefined ? {} : { power: into(file.power_W, "W") }),
    ...(file.level === undefined ? {} : { level: file.level }),
    ...(file.duty === undefined ? {} : { duty: file.duty }),
    ...(file.frequency_kHz === undefined ? {} : { frequency: intoOrNull(file.frequency_kHz, "kHz") }),
    ...(file.pulseWidth_ns === undefined ? {} : { pulseWidth: intoOrNull(file.pulseWidth_ns, "ns") }),
    ...(file.speed_mm_per_s === undefined ? {} : { speed: into(file.speed_mm_per_s, "mm/s") }),
    ...(file.lineSpacing_mm === undefined ? {} : { lineSpacing: into(file.lineSpacing_mm, "mm") }),
    ...(file.passes === undefined ? {} : { passes: file.passes }),
    ...(file.defocus_mm === undefined ? {} : { defocus: into(file.defocus_mm, "mm") }),
    ...(file.lens === undefined ? {} : { lens: file.lens }),
  };
}

/** A setting in the units of a file. */
export function settingToWire(setting: Setting): SettingWire {
  return {
    power_W: out(setting.power, "W"),
    frequency_kHz: outOrNull(setting.frequency, "kHz"),
    pulseWidth_ns: outOrNull(setting.pulseWidth, "ns"),
    level: out(setting.level, ""),
    duty: out(setting.duty, ""),
    speed_mm_per_s: out(setting.speed, "mm/s"),
    lineSpacing_mm: out(setting.lineSpacing, "mm"),
    passes: setting.passes,
    defocus_mm: out(setting.defocus, "mm"),
    lens: setting.lens,
  };
}

/** The inverse of `settingToWire`. */
export function settingFromWire(wire: SettingWire): Setting {
  return {
    power: into(wire.power_W, "W"),
    level: wire.level,
    duty: wire.duty,
    frequency: intoOrNull(wire.frequency_kHz, "kHz"),
    pulseWidth: intoOrNull(wire.pulseWidth_ns, "ns"),
    speed: into(wire.speed_mm_per_s, "mm/s"),
    lineSpacing: into(wire.lineSpacing_mm, "mm"),
    passes: wire.passes,
    defocus: into(wire.defocus_mm, "mm"),
    lens: wire.lens,
  };
}
