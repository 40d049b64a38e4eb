import { checkSetting } from "#beam";
import type { LaserSetup, Setting } from "#terms";

/** Order of the values in a link; it may only grow at the end, so that old links keep their meaning. */
const keys = [
  "power",
  "level",
  "duty",
  "frequency",
  "pulseWidth",
  "speed",
  "lineSpacing",
  "passes",
  "defocus",
] as const;

/** A setting as one short word of an address: SI values in a fixed order, the lens last, `_` for what is not there. */
export function settingWord(setting: Setting): string {
  const values = keys.map((key) => {
    const value = setting[key];
    return value === null ? "_" : String(Number(value.toPrecision(7)));
  });
  return [...values, setting.lens].join("~");
}

/** The setting that a word stands for, or null where it is none that the set-up can run. */
export function settingOf(word: string, setup: LaserSetup): Setting | null {
  const parts = word.split("~");
  if (parts.length !== keys.length + 1) return null;
  const values = keys.map((_, i) => (parts[i] === "_" ? null : Number(parts[i])));
  if (values.some((v) => v !== null && !Number.isFinite(v))) return null;
  const setting = { ...Object.fromEntries(keys.map((key, i) => [key, values[i]])), lens: parts[keys.length] };
  try {
    checkSetting(setup, setting as Setting);
    return setting as Setting;
  } catch {
    return null;
  }
}
