import type { Enquiry, PartEnquiry } from "./enquiry.ts";
import type { SetupVerdict } from "./prediction.ts";
import type { Outcome, Trial } from "./trial.ts";
import type { WindowResult } from "./window.ts";

export interface Triage {
  readonly verdict: "likely" | "trial needed" | "declined";
  readonly reasons: readonly string[];
}

/** Pulsed against continuous on one part. */
export interface Comparison {
  /** both limited to the same mean power at the work, W */
  readonly equalPower: {
    readonly meanPower: number;
    readonly pulsed: SetupVerdict | null;
    readonly continuous: SetupVerdict | null;
    readonly sentence: string;
  };
  readonly eachAtBest: {
    readonly pulsed: SetupVerdict | null;
    readonly continuous: SetupVerdict | null;
    readonly sentence: string;
  };
  readonly equal: readonly string[];
  readonly unequal: readonly string[];
}

export interface MeasurementAdvice {
  /** for example "layer thickness gauge (ISO 2808)" */
  readonly measurement: string;
  /** share of the spread of the answer that knowing it would remove */
  readonly spreadRemoved: number;
  readonly why: string;
}

export interface PartAnswer {
  readonly part: PartEnquiry;
  readonly triage: Triage;
  readonly verdicts: readonly SetupVerdict[];
  readonly comparison: Comparison | null;
  readonly advice: readonly MeasurementAdvice[];
  readonly trials: readonly {
    readonly trial: Trial;
    readonly outcomes: readonly Outcome[];
    readonly window: WindowResult | null;
  }[];
}

export interface EnquiryAnswer {
  readonly enquiry: Enquiry;
  readonly parts: readonly PartAnswer[];
  readonly seed: number;
  readonly drawCount: number;
  readonly modelVersion: string;
}
