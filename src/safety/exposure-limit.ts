import type { Hertz, JoulePerSquareMetre, Metre, Second, WattPerSquareMetre } from "#terms";
import { invalid, requireInRange, requirePositive } from "#units";
import { eyeLimitDirective, eyeLimitIec, joinTimeDirective, joinTimeIec, skinLimit } from "./limit-tables.ts";
import { nearInfraredNm } from "./near-infrared.ts";
import { groupLimit, type LimitTable, type PulseTrain, wholePulses } from "./pulse-groups.ts";

/** Light as it reaches a person. */
export interface Exposure {
  /** m, 700 to 1400 nm */
  readonly wavelength: Metre;
  /** s, length of one pulse or burst; null for a steady beam */
  readonly onTime: Second | null;
  /** Hz; null for a steady beam or a single pulse */
  readonly frequency: Hertz | null;
  /** s, how long a person is exposed; 10 s for light that nobody sees */
  readonly duration?: Second;
}

export type ExposureRule =
  | "steady exposure"
  | "each pulse"
  | "any group of pulses"
  | "each pulse, lowered for repetition";

/** One rule of one edition. */
export interface LimitCandidate {
  readonly edition: "Directive 2006/25/EC" | "IEC 60825-1:2014";
  readonly rule: ExposureRule;
  /** J/m² per pulse, or over the whole exposure for a steady beam */
  readonly radiantExposure: JoulePerSquareMetre;
  readonly source: string;
  readonly fromMemory: boolean;
}

/** The lowest of the candidates, with all of them. */
export interface GoverningLimit extends LimitCandidate {
  /** J/m² of one pulse; null for a steady beam */
  readonly perPulse: JoulePerSquareMetre | null;
  /** W/m², mean over the exposure (perPulse·frequency for a train) */
  readonly irradiance: WattPerSquareMetre;
  readonly candidates: readonly LimitCandidate[];
}

export interface ExposureLimit {
  readonly duration: Second;
  readonly eye: GoverningLimit;
  readonly skin: GoverningLimit;
}

/**
 * C5 of IEC 60825-1:2014 for a point source: 1 up to 600 pulses, then min(1, max(0.4, 5·N^−0.25)); 1 for pulses longer
 * than the joining time and for exposures up to 0.25 s.
 * @param pulses N, counted with joined pulses as one
 * @returns factor, 0.4 to 1. Source: IEC 60825-1:2014, from memory.
 */
export function correction5(pulses: number): number {
  return pulses <= 600 ? 1 : Math.min(1, Math.max(0.4, 5 * pulses ** -0.25));
}

type Train = Omit<PulseTrain, "frequency"> & { readonly frequency: Hertz | null };

/** The three rules: each pulse; any group of pulses; each pulse lowered for repetition, joined pulses counted as one. */
function threeRules(
  train: Train,
  table: LimitTable,
  joinTime: Second,
  factor: (pulses: number) => number,
): [ExposureRule, number][] {
  const { wavelength, onTime, frequency, duration } = train;
  const single = table(wavelength, onTime);
  if (frequency === null) return [["each pulse", single]];
  const joined = wholePulses(joinTime * frequency);
  const groups = wholePulses(joined > 1 ? duration / joinTime : duration * frequency);
  const group = joined > 1 ? table(wavelength, Math.max(joinTime * (1 - 1e-12), onTime)) : single;
  return [
    ["each pulse", single],
    ["any group of pulses", groupLimit({ wavelength, onTime, frequency, duration }, table)],
    ["each pulse, lowered for repetition", (Math.min(group, joined * single) * factor(groups)) / joined],
  ];
}

const directive = { edition: "Directive 2006/25/EC", source: "directive-2006-25-ec", fromMemory: false } as const;
const iec = { edition: "IEC 60825-1:2014", source: "iec-60825-1", fromMemory: true } as const;

function govern(candidates: readonly LimitCandidate[], exposure: Exposure, duration: Second): GoverningLimit {
  const lowest = candidates.reduce((a, b) => (b.radiantExposure < a.radiantExposure ? b : a));
  const steady = exposure.onTime === null;
  const rate = steady ? 1 / duration : (exposure.frequency ?? 1 / duration);
  return {
    ...lowest,
    perPulse: steady ? null : lowest.radiantExposure,
    irradiance: lowest.radiantExposure * rate,
    candidates,
  };
}

function checked(exposure: Exposure): Second {
  nearInfraredNm(exposure.wavelength);
  const duration = requireInRange("duration of exposure", exposure.duration ?? 10, "s", 1e-9, 3e4);
  const { onTime, frequency } = exposure;
  if (onTime === null) {
    if (frequency !== null) invalid("frequency", frequency, "Hz", "needs the length of a pulse or burst");
    return duration;
  }
  requireInRange("pulse or burst length", onTime, "s", 1e-11, duration);
  if (frequency !== null && requirePositive("frequency", frequency, "Hz") * onTime > 1 + 1e-9) {
    invalid("frequency", frequency, "Hz", "pulses or bursts would overlap");
  }
  return duration;
}

/**
 * Exposure limits of eye and skin by Directive 2006/25/EC and IEC 60825-1:2014, governed by the lowest of all rules of
 * both editions. Point source. For skin both print the same table; the Directive's three rules are taken for it.
 * @param exposure see Exposure: m, s, Hz; duration 10 s when not given
 * @returns J/m² per pulse and W/m² mean, with edition and rule
 * Throws InvalidInput outside 700 to 1400 nm, 1e-11 s to the duration, 1e-9 to 3e4 s. An aid for the laser safety officer.
 * Sources: Directive 2006/25/EC Annex II; IEC 60825-1:2014 (from memory).
 */
export function exposureLimit(exposure: Exposure): ExposureLimit {
  const duration = checked(exposure);
  const { wavelength, onTime, frequency } = exposure;
  if (onTime === null) {
    const steady = (table: LimitTable, edition: typeof directive | typeof iec): LimitCandidate => ({
      ...edition,
      rule: "steady exposure",
      radiantExposure: table(wavelength, duration),
    });
    const eye = [steady(eyeLimitDirective, directive), steady(eyeLimitIec, iec)];
    return {
      duration,
      eye: govern(eye, exposure, duration),
      skin: govern([steady(skinLimit, directive)], exposure, duration),
    };
  }
  const train = { wavelength, onTime, frequency, duration };
  const quarter = (pulses: number): number => pulses ** -0.25;
  const joinIec = joinTimeIec(wavelength);
  const factor5 = onTime <= joinIec && duration > 0.25 ? correction5 : () => 1;
  const named = (rules: [ExposureRule, number][], edition: typeof directive | typeof iec): LimitCandidate[] =>
    rules.map(([rule, radiantExposure]) => ({ ...edition, rule, radiantExposure }));
  const eye = [
    ...named(threeRules(train, eyeLimitDirective, joinTimeDirective(wavelength), quarter), directive),
    ...named(threeRules(train, eyeLimitIec, joinIec, factor5), iec),
  ];
  const skin = named(threeRules(train, skinLimit, joinTimeDirective(wavelength), quarter), directive);
  return { duration, eye: govern(eye, exposure, duration), skin: govern(skin, exposure, duration) };
}
