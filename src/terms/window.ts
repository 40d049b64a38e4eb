import type { Ratio } from "./quantities.ts";
import type { Setting } from "./setting.ts";

/** Physical groups of a setting, natural logarithms, with the physics scores (probit scale). */
export interface SettingFeatures {
  /** ln peak fluence (pulsed) or ln areal dose (continuous), J/m² */
  readonly logDose: number;
  /** ln events per point in one pass */
  readonly logOverlap: number;
  /** ln passes */
  readonly logPasses: number;
  /** ln on-time or dwell, s */
  readonly logTime: number;
  readonly cleanScore: number;
  readonly undamagedScore: number;
}

export interface Margin {
  /** ln distance to the nearest 95 % edge along fluence (pulsed) or dose (continuous); null when outside or no edge in reach */
  readonly logDose: number | null;
  /** the same in per cent of power, */
  readonly powerPercent: number | null;
  readonly nearestEdge: "clean" | "undamaged" | null;
}

export interface Recommendation {
  readonly setting: Setting;
  readonly probabilityClean: Ratio;
  readonly probabilityUndamaged: Ratio;
  readonly probabilityBoth: Ratio;
  /** 5 and 95 % points over the posterior draws */
  readonly probabilityBothLow: Ratio;
  readonly probabilityBothHigh: Ratio;
  readonly margin: Margin;
  /** m²/s */
  readonly areaRate: number;
  /** burned with this setting (within rounding), and how many of them were clean and undamaged */
  readonly repeats: number;
  readonly repeatsGood: number;
  readonly proven: boolean;
  /** plain words */
  readonly words: readonly string[];
}

export interface NextPatch {
  readonly setting: Setting;
  readonly probabilityClean: Ratio;
  readonly probabilityUndamaged: Ratio;
  readonly reason: string;
}

export interface WindowMap {
  readonly xName: string;
  readonly yName: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** row major, y outer */
  readonly probabilityClean: readonly number[];
  readonly probabilityUndamaged: readonly number[];
  /** where the burned patches and the recommended setting lie on this map, in the units of its axes */
  readonly points?: readonly { readonly patch: number; readonly x: number; readonly y: number }[];
  readonly recommendedAt?: { readonly x: number; readonly y: number } | null;
  /** true where at least 95 % of the versions of the physics that fit keep the setting clean and undamaged under drift */
  readonly conservative?: readonly boolean[];
  /** true where the machine cannot be set so; chances are 0 there */
  readonly beyond?: readonly boolean[];
}

/** An uncertain number before and after a trial. */
export interface LearntNumber {
  readonly name: string;
  readonly unit: string;
  readonly prior: { readonly low: number; readonly median: number; readonly high: number };
  readonly posterior: { readonly low: number; readonly median: number; readonly high: number };
  /** share of the prior spread that is left, on the scale where the prior is standard normal */
  readonly spreadLeft: Ratio;
}

/** What a trial says of its own end. */
export interface TrialStop {
  readonly verdict: "go on" | "recommend" | "nothing found";
  /** expected gain in rate over the recommended setting, as a share; null without one */
  readonly expectedGain: number | null;
  /** highest share of versions of the physics in which one setting meets the acceptance */
  readonly bestShare: Ratio;
  readonly words: readonly string[];
}

/** How well what was learnt fits what was seen. */
export interface FitChecks {
  /** numbers that coupons of this kind pin down: edges and their ratio at the setting shown */
  readonly pinned: readonly LearntNumber[];
  /** properties of the library, those that moved most first */
  readonly properties: readonly LearntNumber[];
  /** the shapes in which the physics may be off, standard normal before */
  readonly shifts: readonly LearntNumber[];
  readonly words: readonly string[];
}

export interface WindowResult {
  /** null when no window was found among the settings tried */
  readonly recommended: Recommendation | null;
  readonly next: readonly NextPatch[];
  readonly map: WindowMap | null;
  readonly diagnostics: {
    readonly patches: number;
    readonly clean: number;
    readonly damaged: number;
    readonly rHat: number;
    readonly effectiveSampleSize: number;
    readonly brierClean: number;
    readonly brierUndamaged: number;
    readonly priorMatters: string;
  };
  readonly stop: TrialStop;
  readonly learnt: FitChecks;
  readonly words: readonly string[];
  readonly caveats: readonly string[];
}

/** Standard deviations of ln of what drifts in production: delivered power, spot, speed, layer thickness. */
export interface DriftSpread {
  readonly power: Ratio;
  readonly spot: Ratio;
  readonly speed: Ratio;
  readonly thickness: Ratio;
}

/** One production day: factors on delivered power, spot diameter, speed and layer thickness. */
export interface DriftCase {
  readonly power: Ratio;
  readonly spot: Ratio;
  readonly speed: Ratio;
  readonly thickness: Ratio;
}
