import type { LaserSetup, Setting } from "#terms";
import { invalid, requirePositive } from "#units";

/** What a plan may vary. `power` is power·level, W; the rest as in `Setting`, SI. */
export const factorNames = ["power", "speed", "frequency", "lineSpacing", "passes", "pulseWidth", "duty"] as const;
export type FactorName = (typeof factorNames)[number];

export interface FactorRange {
  readonly low: number;
  readonly high: number;
}

export type FactorRanges = Readonly<Partial<Record<FactorName, FactorRange>>>;

/** A factor with its ends and, where only some values exist, those values in rising order. */
export interface Factor {
  readonly name: FactorName;
  readonly low: number;
  readonly high: number;
  readonly choices: readonly number[] | null;
}

const units: Readonly<Record<FactorName, string>> = {
  power: "W",
  speed: "m/s",
  frequency: "Hz",
  lineSpacing: "m",
  passes: "",
  pulseWidth: "s",
  duty: "",
};

/** What a factor is called in a sentence. */
export const factorWords: Readonly<Record<FactorName, string>> = {
  power: "power",
  speed: "speed",
  frequency: "frequency",
  lineSpacing: "line spacing",
  passes: "passes",
  pulseWidth: "pulse width",
  duty: "duty",
};

/** Reach of the default ranges, as factors on either side of the centre (own choice). */
const reach: Readonly<Record<FactorName, number>> = {
  power: 2.5,
  speed: 3,
  frequency: 2,
  lineSpacing: 1.6,
  passes: 2,
  pulseWidth: 4,
  duty: 2,
};

/** Value of a factor in a setting, SI; null where the setting has none. */
export function readFactor(setting: Setting, name: FactorName): number | null {
  if (name === "power") return setting.power * setting.level;
  return setting[name];
}

/**
 * The setting with one factor changed, SI. Power goes into `power` where the level is 1, else into `level` as far as
 * that reaches.
 */
export function writeFactor(setting: Setting, name: FactorName, value: number): Setting {
  if (name !== "power") return { ...setting, [name]: name === "passes" ? Math.round(value) : value };
  if (setting.level === 1 || value > setting.power) return { ...setting, power: value, level: 1 };
  return { ...setting, level: value / setting.power };
}

/**
 * The factors that can vary around a centre on a set-up: ranges handed in, else a stated reach around the centre,
 * both cut to the set-up's limits. A factor whose ends meet is left out.
 * Ranges in SI. Throws InvalidInput on a range that is not positive, reversed, or outside what the set-up has.
 */
export function factorsAround(setup: LaserSetup, centre: Setting, ranges: FactorRanges = {}): Factor[] {
  const factors: Factor[] = [];
  for (const name of factorNames) {
    const value = readFactor(centre, name);
    const asked = ranges[name];
    if (asked !== undefined) checkRange(name, asked);
    if (value === null || !hasFactor(setup, centre, name)) {
      if (asked !== undefined) invalid(`range of ${name}`, asked.low, units[name], `${setup.id} cannot vary it here`);
      continue;
    }
    requirePositive(name, value, units[name]);
    const limits = limitsOf(setup, name);
    const wish = asked ?? { low: value / reach[name], high: value * reach[name] };
    const low = Math.max(limits.low, wish.low);
    const high = Math.min(limits.high, wish.high);
    if (low > high)
      invalid(`range of ${name}`, wish.low, units[name], `${setup.id} reaches ${limits.low} to ${limits.high}`);
    const choices = choicesOf(setup, name, low, high);
    const ends = choices === null ? { low, high } : { low: choices[0] ?? value, high: choices.at(-1) ?? value };
    if (ends.high > ends.low * (1 + 1e-9)) factors.push({ name, ...ends, choices });
  }
  return factors;
}

function checkRange(name: FactorName, range: FactorRange): void {
  requirePositive(`low end of ${name}`, range.low, units[name]);
  requirePositive(`high end of ${name}`, range.high, units[name]);
  if (range.high < range.low)
    invalid(`range of ${name}`, range.low, units[name], `low end above high end ${range.high}`);
}

function hasFactor(setup: LaserSetup, centre: Setting, name: FactorName): boolean {
  if (name === "pulseWidth" || name === "frequency") return setup.kind === "pulsed";
  if (name === "duty") return setup.kind === "continuous" && setup.modulation !== null && centre.frequency !== null;
  return true;
}

function limitsOf(setup: LaserSetup, name: FactorName): FactorRange {
  switch (name) {
    case "power":
      return { low: 0, high: setup.ratedPower };
    case "speed":
      return { low: setup.speedMin, high: setup.speedMax };
    case "frequency":
      return { low: setup.frequencyMin, high: setup.frequencyMax };
    case "lineSpacing":
      return { low: setup.lineSpacingMin, high: Number.POSITIVE_INFINITY };
    case "passes":
      return { low: 1, high: setup.passesMax };
    case "pulseWidth":
      return { low: 0, high: Number.POSITIVE_INFINITY };
    case "duty":
      return { low: setup.modulation?.dutyMin ?? 1, high: 1 };
  }
}

function choicesOf(setup: LaserSetup, name: FactorName, low: number, high: number): readonly number[] | null {
  const slack = 1e-9;
  if (name === "pulseWidth") {
    const widths = setup.pulses.map((pulse) => pulse.width).sort((a, b) => a - b);
    return widths.filter((width) => width >= low * (1 - slack) && width <= high * (1 + slack));
  }
  if (name === "passes") {
    const all: number[] = [];
    for (let count = Math.ceil(low - slack); count <= Math.floor(high + slack); count++) all.push(count);
    return all;
  }
  return null;
}

/**
 * Value at a place between the ends of a factor: low·(high/low)^t, or the choice that t falls on.
 * `t` 0 to 1; result SI. Throws nothing. Source: equal steps in logarithms.
 */
export function factorValue(factor: Factor, t: number): number {
  if (factor.choices === null) return factor.low * (factor.high / factor.low) ** t;
  const { choices } = factor;
  return choices[Math.min(choices.length - 1, Math.floor(t * choices.length))]!;
}

/**
 * Scaled coordinate of a value: ln(value/low)/ln(high/low), 0 at the low end and 1 at the high end.
 * `value` SI; result 1. Throws nothing for positive values. Source: definition.
 */
export function factorPlace(factor: Factor, value: number): number {
  return Math.log(value / factor.low) / Math.log(factor.high / factor.low);
}

/** Scaled log coordinates of a setting over the factors of a plan. */
export function settingPoint(factors: readonly Factor[], setting: Setting): number[] {
  return factors.map((factor) => factorPlace(factor, readFactor(setting, factor.name) ?? factor.low));
}

/** The centre with every factor at its place t (0 to 1). */
export function settingAt(centre: Setting, factors: readonly Factor[], t: readonly number[]): Setting {
  return factors.reduce((setting, factor, k) => writeFactor(setting, factor.name, factorValue(factor, t[k]!)), centre);
}

/**
 * The centre with every factor at low·(high/low)^t, where only some values exist at the nearest of them in ratio.
 * `t` any number, 0 at the low end and 1 at the high end. Throws nothing. Source: equal steps in logarithms.
 */
export function placeSetting(centre: Setting, factors: readonly Factor[], t: readonly number[]): Setting {
  return factors.reduce((setting, factor, k) => {
    const value = factor.low * (factor.high / factor.low) ** t[k]!;
    return writeFactor(setting, factor.name, factor.choices === null ? value : nearestOf(factor.choices, value));
  }, centre);
}

function nearestOf(choices: readonly number[], value: number): number {
  const off = (choice: number): number => Math.abs(Math.log(choice / value));
  return choices.reduce((best, choice) => (off(choice) < off(best) - 1e-12 ? choice : best));
}

/** One text for all settings that burn the same patch; six figures, power and level by their product. */
export function settingKey(setting: Setting): string {
  const figures = (value: number | null): string => (value === null ? "-" : value.toPrecision(6));
  return [
    setting.power * setting.level,
    setting.duty,
    setting.frequency,
    setting.pulseWidth,
    setting.speed,
    setting.lineSpacing,
    setting.passes,
    setting.defocus,
  ]
    .map(figures)
    .concat(setting.lens)
    .join("|");
}
