import { type PartDetailsWire, settingFromWire } from "#contract";
import type { Setting } from "#terms";
import type { SurveyAnswer } from "../../live/protocol.ts";
import { words } from "../../words/index.ts";

/** A setting that safety and cost can be worked out for, and where it comes from. */
export interface SettingChoice {
  readonly id: "answer" | "pulsed" | "continuous" | "predicted" | "working";
  readonly label: string;
  readonly setupId: string;
  readonly setting: Setting;
  /** on what footing it stands, in words */
  readonly words: string;
  readonly tag: string;
}

const say = words.economy;

/** Settings that the trials of the other kind of laser recommend, which the answer did not take. */
function ofTrials({ evidence, laser }: PartDetailsWire): SettingChoice[] {
  return [evidence?.pulsed ?? null, evidence?.continuous ?? null].flatMap((side) => {
    if (side === null || side.recommended === null || side.laser === laser) return [];
    const { proven, repeats, repeatsGood, setting } = side.recommended;
    return [
      {
        id: side.kind,
        label: say.from.trial(side.name),
        setupId: side.laser,
        setting: settingFromWire(setting),
        words: say.ofTrial(side.trial, words.comparison.again(repeats, repeatsGood)),
        tag: (proven ? say.footing.proven : say.footing.tried) ?? "",
      },
    ];
  });
}

/**
 * Settings known for a part, the best founded first: that of the answer, those of other trials, the best predicted, the
 * one being worked with.
 */
export function settingChoices(
  answered: PartDetailsWire | null,
  survey: SurveyAnswer | null,
  working: Pick<SettingChoice, "setupId" | "setting"> | null,
  nameOf: (setupId: string) => string,
): SettingChoice[] {
  const choices: SettingChoice[] = [];
  if (answered !== null && answered.setting !== null && answered.laser !== null)
    choices.push({
      id: "answer",
      label: say.from.answer(answered.laserName ?? answered.laser),
      setupId: answered.laser,
      setting: settingFromWire(answered.setting),
      words: answered.words,
      tag: say.footing[answered.footing] ?? answered.footing,
    });
  if (answered !== null) choices.push(...ofTrials(answered));
  const best = survey?.verdicts.find((v) => v.windowExists && v.best !== null);
  if (best?.best)
    choices.push({
      id: "predicted",
      label: say.from.predicted(best.setupName),
      setupId: best.setupId,
      setting: best.best.setting,
      words: best.reason,
      tag: say.footing.predicted ?? "",
    });
  if (working !== null)
    choices.push({
      id: "working",
      label: say.from.working(nameOf(working.setupId)),
      ...working,
      words: say.workingWords,
      tag: say.footing.predicted ?? "",
    });
  return choices;
}
