import type { Setting, SettingFeatures } from "#terms";

/** A patch with its setting, its physics scores and what was seen. */
export interface WindowObservation {
  readonly patch: number;
  readonly setting: Setting;
  readonly features: SettingFeatures;
  readonly clean: boolean | null;
  readonly undamaged: boolean | null;
}
