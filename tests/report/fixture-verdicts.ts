import type {
  BeamState,
  EdgeSpread,
  Prediction,
  Setting,
  SetupVerdict,
  ShortfallKind,
  Spread,
  TwoEdgeBar,
} from "#terms";

export const pulsedSetting: Setting = {
  power: 200,
  level: 0.9,
  duty: 1,
  frequency: 40e3,
  pulseWidth: 1e-7,
  speed: 2.4,
  lineSpacing: 5e-5,
  passes: 2,
  defocus: 0,
  lens: "f254",
};

export const continuousSetting: Setting = {
  ...pulsedSetting,
  power: 1500,
  level: 0.8,
  frequency: null,
  pulseWidth: null,
  speed: 6,
  lineSpacing: 3e-4,
  passes: 1,
  defocus: 2e-3,
  lens: "f400",
};

const pulsedBeam: BeamState = {
  spotDiameter: 8e-5,
  meanPower: 180,
  pulseEnergy: 4.5e-3,
  peakPower: 45e3,
  fluenceMean: 8.95e5,
  fluencePeak: 1.79e6 / 10,
  irradiancePeak: 1.79e12,
  dwell: 3.3e-5,
  lineEnergy: 75,
  arealDose: 1.5e6,
  pulsePitch: 6e-5,
  pulseOverlap: 0.25,
  lineOverlap: 0.375,
  eventsPerPoint: 4.2,
  areaRateIdeal: 6e-5,
  onTime: 1e-7,
  energyLimited: false,
};

const continuousBeam: BeamState = {
  ...pulsedBeam,
  spotDiameter: 4e-4,
  meanPower: 1200,
  pulseEnergy: null,
  peakPower: 1200,
  fluenceMean: null,
  fluencePeak: null,
  irradiancePeak: 1.9e10,
  arealDose: 6.7e5,
  pulsePitch: null,
  pulseOverlap: null,
  onTime: null,
};

const around = (median: number, factor: number): Spread => ({ median, low: median / factor, high: median * factor });

export function predictionOf(setupId: string, setting: Setting, probabilityBoth: number): Prediction {
  const pulsed = setting.pulseWidth !== null;
  return {
    setupId,
    setting,
    beam: pulsed ? pulsedBeam : continuousBeam,
    residueFraction: around(0.008, 2.2),
    metalPeakTemperature: around(pulsed ? 640 : 820, 1.15),
    meltDepth: { median: 0, low: 0, high: pulsed ? 0 : 4e-7 },
    metalCondition: pulsed ? 0 : 1,
    metalConditionShares: [0.8, 0.15, 0.03, 0.02, 0],
    probabilityClean: Math.min(0.95, probabilityBoth + 0.03),
    probabilityUndamaged: Math.min(0.95, probabilityBoth + 0.05),
    probabilityBoth,
    cleanScore: 1.2,
    undamagedScore: 1.1,
    areaRate: pulsed ? 5.2e-5 : 1.1e-3,
    draws: [],
    caveats: ["plume shielding above 20 J/cm² is not modelled"],
    sources: pulsed ? ["invented-optics"] : ["invented-optics", "invented-heat"],
    modelVersion: "0.1.0",
  };
}

const edge = (median: number, factor: number): EdgeSpread => ({ median, low: median / factor, high: median * factor });

interface VerdictSeed {
  readonly id: string;
  readonly name: string;
  readonly kind: "pulsed" | "continuous";
  readonly bar: TwoEdgeBar;
  readonly shortfall: ShortfallKind;
  readonly reason: string;
  readonly sureness: number;
  readonly rate: number;
  readonly power: number;
}

function verdict(seed: VerdictSeed): SetupVerdict {
  const works = seed.shortfall === "none" || seed.shortfall === "too slow";
  const setting =
    seed.kind === "pulsed" ? { ...pulsedSetting, power: seed.power } : { ...continuousSetting, power: seed.power };
  return {
    setupId: seed.id,
    setupName: seed.name,
    kind: seed.kind,
    windowExists: works,
    best: works ? predictionOf(seed.id, setting, seed.sureness) : null,
    bar: seed.bar,
    shortfall: seed.shortfall,
    reason: seed.reason,
    areaRate: seed.rate,
    sureness: seed.sureness,
    meanPower: seed.power * 0.9,
    delivery: "scanner",
  };
}

const fluence = (reachLow: number, reachHigh: number, best: number | null): TwoEdgeBar => ({
  axis: "fluence",
  removalEdge: edge(1.6e4, 1.35),
  damageEdge: edge(5.2e4, 1.3),
  reachLow,
  reachHigh,
  best,
});

const dose = (removal: number, damage: number | null, best: number | null): TwoEdgeBar => ({
  axis: "dose",
  removalEdge: edge(removal, 1.5),
  damageEdge: damage === null ? null : edge(damage, 1.4),
  reachLow: 2e3,
  reachHigh: 4e7,
  best,
});

export const verdicts: readonly SetupVerdict[] = [
  {
    id: "pulsed-200",
    name: "Pulsed 200 W, 100 ns",
    kind: "pulsed",
    bar: fluence(2e3, 1.2e5, 2.9e4),
    shortfall: "none",
    reason: "Clean gap of a factor of 3.2 in fluence, all of it in reach.",
    sureness: 0.88,
    rate: 5.2e-5,
    power: 200,
  },
  {
    id: "pulsed-500",
    name: "Pulsed 500 W, 200 ns",
    kind: "pulsed",
    bar: fluence(4e3, 3e5, 2.7e4),
    shortfall: "none",
    reason: "Same gap; the larger spot keeps the fluence moderate.",
    sureness: 0.86,
    rate: 1.3e-4,
    power: 500,
  },
  {
    id: "pulsed-50",
    name: "Pulsed 50 W, 100 ns",
    kind: "pulsed",
    bar: fluence(1e3, 1.1e4, null),
    shortfall: "does not remove",
    reason: "Largest pulse energy stays below the removal edge.",
    sureness: 0.04,
    rate: 5e-4,
    power: 50,
  },
  {
    id: "continuous-1500",
    name: "Continuous 1.5 kW",
    kind: "continuous",
    bar: dose(5.5e5, 9e5, 6.7e5),
    shortfall: "too slow",
    reason: "A narrow gap exists, but needs a rest between passes.",
    sureness: 0.52,
    rate: 1.1e-3,
    power: 1500,
  },
  {
    id: "continuous-3000",
    name: "Continuous 3 kW",
    kind: "continuous",
    bar: dose(6e5, 5.5e5, null),
    shortfall: "melts the metal",
    reason: "The metal melts before the primer comes off.",
    sureness: 0.12,
    rate: 0,
    power: 3000,
  },
].map((seed) => verdict(seed as VerdictSeed));

export const verdictsWithoutDamage: readonly SetupVerdict[] = verdicts.map((v) => ({
  ...v,
  best: v.best === null ? null : { ...v.best, probabilityBoth: 0.7 },
  bar: v.bar.axis === "dose" ? dose(8e5, null, v.bar.best) : v.bar,
}));
