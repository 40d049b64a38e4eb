import type { Ratio } from "./quantities.ts";
import type { Setting } from "./setting.ts";

/** A patch with its setting, its physics scores and what was seen. */
export interface WindowObservation {
  readonly patch: number;
  readonly setting: Setting;
  readonly features: SettingFeatures;
  readonly clean: boolean | null;
  readonly undamaged: boolean | null;
}

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
