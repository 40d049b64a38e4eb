import type { Setting } from "./setting.ts";

/**
 * What a trial taught about one uncertain number, on the scale where the library's prior is standard normal:
 * mean 0 and spread 1 mean that nothing was learnt.
 */
export interface Lesson {
  /** name of the number, see `coordinateNames` of the library and `shiftNames` of the calibration */
  readonly coordinate: string;
  readonly mean: number;
  readonly spread: number;
}

/** The posterior of one trial in a form that the next job can start from. */
export interface Belief {
  readonly id: string;
  readonly trialId: string;
  readonly enquiryId: string;
  readonly partId: string;
  readonly setupId: string;
  readonly metalId: string;
  /** outermost first, as in `Stack` */
  readonly layers: readonly { readonly kindId: string; readonly colour: string; readonly thickness: number }[];
  /** properties of metal and layers */
  readonly lessons: readonly Lesson[];
  /** how far the physics was off, by the physical shapes of the calibration */
  readonly shifts: readonly Lesson[];
  /** trials whose beliefs this one started from, so that no patch is counted twice; absent: none */
  readonly builtOn?: readonly string[];
  /** what was recommended on it; null: no window was found; absent: not said */
  readonly recommended?: { readonly setting: Setting; readonly proven: boolean } | null;
  /** graded patches behind it */
  readonly patches: number;
  readonly modelVersion: string;
}
