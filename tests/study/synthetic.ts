import { createRandom, normalCdf } from "#numerics";
import type { Setting, SettingFeatures } from "#terms";
import type { WindowObservation } from "../../tools/study/probit/observation.ts";

/** A made-up process on four groups: dose decides most, physics scores are probit scores of a dose threshold. */
export function settingOf(power: number, speed = 1, passes = 1): Setting {
  return {
    power,
    level: 1,
    duty: 1,
    frequency: 50e3,
    pulseWidth: 100e-9,
    speed,
    lineSpacing: 50e-6,
    passes,
    defocus: 0,
    lens: "f160",
  };
}

/** Physics of the made-up process: clean from ln dose 0 up, damage from ln dose 1.2 up, both 0.3 wide. */
export function featuresOf(setting: Setting): SettingFeatures {
  const logDose = Math.log((setting.power * setting.level) / 50);
  const logOverlap = Math.log(2 / setting.speed);
  const logPasses = Math.log(setting.passes);
  const heat = logDose + 0.3 * (logOverlap - Math.LN2) + 0.2 * logPasses;
  return {
    logDose,
    logOverlap,
    logPasses,
    logTime: Math.log(100e-9),
    cleanScore: heat / 0.3,
    undamagedScore: (1.2 - heat) / 0.3,
  };
}

export interface TruthShift {
  readonly offset: number;
  readonly slope: number;
  readonly dose: number;
}

/** True chances when the process differs from the physics by an offset, a slope and a dose term per doubling. */
export function truthOf(
  features: SettingFeatures,
  clean: TruthShift,
  undamaged: TruthShift,
): { clean: number; undamaged: number } {
  const doublings = features.logDose / Math.LN2;
  return {
    clean: normalCdf(clean.offset + clean.slope * features.cleanScore + clean.dose * doublings),
    undamaged: normalCdf(undamaged.offset + undamaged.slope * features.undamagedScore - undamaged.dose * doublings),
  };
}

/** Burns settings on a made-up part with a mis-grading share. */
export function burn(
  settings: readonly Setting[],
  clean: TruthShift,
  undamaged: TruthShift,
  seed: number,
  misgraded = 0.02,
): WindowObservation[] {
  const random = createRandom(seed);
  return settings.map((setting, i) => {
    const features = featuresOf(setting);
    const p = truthOf(features, clean, undamaged);
    const grade = (chance: number): boolean =>
      random.next() < misgraded ? random.next() < 0.5 : random.next() < chance;
    return { patch: i + 1, setting, features, clean: grade(p.clean), undamaged: grade(p.undamaged) };
  });
}

export const agrees: TruthShift = { offset: 0, slope: 1, dose: 0 };

/** A spread of settings over both edges, fixed. */
export function spreadSettings(count: number, seed = 7): Setting[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, () =>
    settingOf(
      Number((25 * 10 ** random.next()).toFixed(1)),
      Number((0.5 * 4 ** random.next()).toFixed(2)),
      1 + random.integer(3),
    ),
  );
}
