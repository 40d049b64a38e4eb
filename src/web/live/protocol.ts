import type {
  Comparison,
  Enquiry,
  MeasurementAdvice,
  Outcome,
  Prediction,
  Setting,
  SetupVerdict,
  Trial,
  Triage,
  WindowResult,
} from "#terms";
import type { DesignName } from "#trial";
import type { ShopFile } from "#contract";
import type { LibraryFile } from "#library";
import type { SettingDetails } from "#workflows";

/** What the pages may ask of the worker. `enquiry` first; later questions speak of its parts by id. */
export interface Questions {
  /** own library files; whatever was worked out with others is forgotten */
  library: { readonly ask: { readonly files: readonly LibraryFile[] }; readonly answer: null };
  enquiry: { readonly ask: { readonly doc: unknown }; readonly answer: Enquiry };
  predict: {
    readonly ask: {
      readonly partId: string;
      readonly setupId: string;
      readonly setting: Setting;
      readonly drawCount: number;
    };
    readonly answer: SettingAnswer;
  };
  /** what can hurt at a setting, and what the order takes and costs with the shop's figures */
  details: {
    readonly ask: {
      readonly partId: string;
      readonly setupId: string;
      readonly setting: Setting;
      readonly shop: ShopFile;
    };
    readonly answer: SettingDetails;
  };
  survey: { readonly ask: { readonly partId: string; readonly drawCount: number }; readonly answer: SurveyAnswer };
  plan: {
    readonly ask: {
      readonly partId: string;
      readonly setupId: string;
      readonly count: number;
      readonly design: DesignName;
      readonly seed: number;
      readonly trialId: string;
      readonly drawCount: number;
    };
    readonly answer: Trial;
  };
  window: {
    readonly ask: {
      readonly partId: string;
      readonly trial: Trial;
      readonly outcomes: readonly Outcome[];
      readonly confidence: number;
      /** share of wrong grades, where readings that people looked at teach it */
      readonly lapse?: number;
      readonly drawCount: number;
    };
    readonly answer: WindowAnswer;
  };
}

export type QuestionKind = keyof Questions;
export type Ask<K extends QuestionKind> = Questions[K]["ask"];
export type Answer<K extends QuestionKind> = Questions[K]["answer"];

/** A prediction with what has to travel along with any setting shown to a person. */
export interface SettingAnswer {
  /** without the single draws */
  readonly prediction: Prediction;
  /** K, surface just before the hottest pulse or line, median of the draws */
  readonly startTemperature: number;
  readonly cautions: readonly string[];
  /** the setting moved onto what the machine can be set to */
  readonly rounded: Setting;
}

export interface WindowAnswer {
  readonly window: WindowResult;
  /** versions of the physics that the outcomes were weighed over */
  readonly versions: number;
}

export interface SurveyAnswer {
  readonly triage: Triage;
  readonly verdicts: readonly SetupVerdict[];
  readonly comparison: Comparison | null;
  readonly advice: readonly MeasurementAdvice[];
  readonly cautions: readonly string[];
}

export type ToWorker = {
  [K in QuestionKind]: { readonly id: number; readonly kind: K; readonly ask: Ask<K> };
}[QuestionKind];

export type FromWorker =
  | { readonly id: number; readonly state: "progress"; readonly done: number; readonly total: number }
  | { readonly id: number; readonly state: "done"; readonly answer: unknown }
  | { readonly id: number; readonly state: "failed"; readonly line: string };
