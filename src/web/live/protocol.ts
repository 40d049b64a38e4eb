import type {
  Comparison,
  Enquiry,
  MeasurementAdvice,
  NextPatch,
  Outcome,
  Prediction,
  Setting,
  SetupVerdict,
  Trial,
  Triage,
  TwoEdgeBar,
  WindowResult,
} from "#terms";
import type { DesignName } from "#trial";
import type { ShopFile } from "#contract";
import type { LibraryFile } from "#library";
import type { FilmOn, MapBand, MapSpec, PulseFilm, SettingDetails } from "#workflows";

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
  /** how a piece of the patch would look, with this many cells along a side at most */
  picture: { readonly ask: SettingAsk & { readonly cells: number }; readonly answer: LivePicture };
  /** the best setting that the search finds for one set-up; null where none fits the site */
  best: {
    readonly ask: { readonly partId: string; readonly setupId: string; readonly drawCount: number };
    readonly answer: Setting | null;
  };
  /** where the layer starts to come off and the metal to change as the power of a setting is scaled */
  edges: { readonly ask: SettingAsk & { readonly drawCount: number }; readonly answer: TwoEdgeBar };
  /** rows of a map of chances over two controls; `bandCount` of its spec says how many there are */
  band: {
    readonly ask: {
      readonly partId: string;
      readonly setupId: string;
      readonly spec: MapSpec;
      readonly band: number;
      readonly drawCount: number;
    };
    readonly answer: MapBand;
  };
  /** temperature over depth and time while one event heats the stack */
  film: { readonly ask: SettingAsk & { readonly on: FilmOn }; readonly answer: PulseFilm };
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
  /** the trial with the patches that its window asked for on further coupons */
  batch: {
    readonly ask: {
      readonly partId: string;
      readonly trial: Trial;
      readonly next: readonly NextPatch[];
      readonly seed: number;
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

export interface SettingAsk {
  readonly partId: string;
  readonly setupId: string;
  readonly setting: Setting;
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

/** A piece of a predicted patch from above. */
export interface LivePicture {
  /** RGBA, row by row */
  readonly pixels: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
  /** m */
  readonly side: number;
  readonly tint: string;
  readonly legend: readonly { readonly colour: string; readonly words: string }[];
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
