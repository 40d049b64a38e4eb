import type { Joule, Kelvin, Metre, Ratio, Second, Watt } from "./quantities.ts";
import type { BeamState, Setting } from "./setting.ts";
import type { MetalConditionGrade } from "./enquiry.ts";

/** Result of one setting on one version of the physics. */
export interface PatchResult {
  /** share of the patch (less the rim) with more than max(1 µm, 5 % of the layer) left */
  readonly residueFraction: Ratio;
  readonly metalPeakTemperature: Kelvin;
  readonly meltDepth: Metre;
  /** share of the area whose metal melted */
  readonly meltedShare: Ratio;
  readonly oxideThickness: Metre;
  /** share of the rust under the hottest event that turns to magnetite; 0 where the layer is no rust */
  readonly magnetiteShare: Ratio;
  /** hottest heat load over the one at which the metal begins to melt */
  readonly meltingRatio: Ratio;
  readonly metalCondition: MetalConditionGrade;
  /** ln(power factor) by which the peak rise stays under the metal limit; negative when it is exceeded */
  readonly damageMargin: number;
  /** K, temperature of the surface just before the hottest pulse or line (warming bound) */
  readonly startTemperature: Kelvin;
  /** share of the area where a must-stay layer is lost or harmed, 0 when there is none */
  readonly stayLayerHarmed: Ratio;
  /** which way off dominated */
  readonly removedBy: "eaten" | "blown off" | "stressed off" | "nothing";
}

/** A quantity over the draws. */
export interface Spread {
  readonly median: number;
  readonly low: number;
  readonly high: number;
}

/** Result of one setting over all draws. */
export interface Prediction {
  readonly setupId: string;
  readonly setting: Setting;
  readonly beam: BeamState;
  readonly residueFraction: Spread;
  readonly metalPeakTemperature: Spread;
  readonly meltDepth: Spread;
  readonly metalCondition: MetalConditionGrade;
  readonly metalConditionShares: readonly number[];
  readonly probabilityClean: Ratio;
  readonly probabilityUndamaged: Ratio;
  readonly probabilityBoth: Ratio;
  /** smooth scores behind the probabilities, used as physics features by the window (probit scale) */
  readonly cleanScore: number;
  readonly undamagedScore: number;
  /** m²/s, turn-rounds included */
  readonly areaRate: number;
  readonly draws: readonly PatchResult[];
  readonly caveats: readonly string[];
  readonly sources: readonly string[];
  readonly modelVersion: string;
}

export type ShortfallKind =
  | "none"
  | "does not remove"
  | "melts the metal"
  | "too slow"
  | "cannot reach the face"
  | "not allowed on site"
  | "harms the layer that must stay";

/** One edge of the two-edge bar, on the axis of the bar. */
export interface EdgeSpread {
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

/** The two-edge bar of one set-up: peak fluence (pulsed, J/m²) or areal dose of one pass (continuous, J/m²). */
export interface TwoEdgeBar {
  readonly axis: "fluence" | "dose";
  readonly removalEdge: EdgeSpread | null;
  readonly damageEdge: EdgeSpread | null;
  /** what the machine can reach */
  readonly reachLow: number;
  readonly reachHigh: number;
  /** where the best setting sits, or null */
  readonly best: number | null;
}

/** What triage and the search over settings say of one set-up on one part. */
export interface SetupVerdict {
  readonly setupId: string;
  readonly setupName: string;
  readonly kind: "pulsed" | "continuous";
  readonly windowExists: boolean;
  readonly best: Prediction | null;
  readonly bar: TwoEdgeBar;
  readonly shortfall: ShortfallKind;
  /** one sentence of why */
  readonly reason: string;
  /** m²/s */
  readonly areaRate: number;
  /** share of draws in which the best setting is clean and undamaged */
  readonly sureness: Ratio;
  readonly meanPower: Watt;
  readonly delivery: "scanner" | "hand" | "robot";
}

export type { Joule, Second };
