import { checkSetting } from "#beam";
import { cautionBox } from "./caution-box.ts";
import type { CommissioningInput } from "./commissioning-input.ts";
import { footingBanner, trialOnly } from "./footing.ts";
import type { Language } from "./language.ts";
import { focusBurnSection, powerSection } from "./machine-checks.ts";
import { type Sheet, type SheetSection, wide } from "./model.ts";
import { paperHead, speak } from "./paper-head.ts";
import { firstArticleSection, recheckSection, trainedSection, verificationSection } from "./production-checks.ts";
import { beamFacts, settingSection } from "./setting-section.ts";
import { signatureSection } from "./signatures.ts";
import { fill } from "./words.ts";

/**
 * The commissioning sheet as plain data: what is read and burned at the machine before production, each with its
 * limits beside it and room to write. Throws InvalidInput for settings that the set-up cannot run, a tolerance above
 * one half, no verification patch, and a sheet without cautions.
 */
export function buildCommissioningSheet(input: CommissioningInput, language: Language = "en"): Sheet<"commissioning"> {
  const speech = speak(language);
  checkSetting(input.setup, input.setting);
  const said = speech.words.commissioning;
  const { operator, officer, approver } = speech.words.procedure;
  const head = paperHead(input, speech);
  const unproven = trialOnly(input.footing) ? [speech.words.evidence.unproven] : [];
  const bare = (id: string, ...blocks: SheetSection["blocks"]): SheetSection => ({ id, heading: "", blocks });
  const signing = signatureSection(
    [
      { role: operator, name: null },
      { role: officer, name: null },
      { role: approver, name: input.approver },
    ],
    speech,
  );
  return {
    ...head,
    kind: "commissioning",
    title: fill(said.title, { setup: input.setup.name }),
    subtitle: fill(said.subtitle, { part: input.part.name }),
    marks: [...head.marks, ...unproven],
    footer: [head.footer, ...unproven, speech.words.common.cautionsFirst].join(" · "),
    upright: true,
    rows: [
      wide(
        bare("footing", footingBanner(input.footing, speech)),
        bare("cautions", cautionBox(input.cautions, speech)),
        settingSection(input.setup, input.setting, speech),
        bare("beam", { kind: "facts", rows: beamFacts(input.setup, input.setting, speech) }),
      ),
      wide(powerSection(input, speech), focusBurnSection(input, speech), verificationSection(input, speech)),
      wide(firstArticleSection(input, speech), recheckSection(input, speech), trainedSection(input, speech)),
      wide({
        ...signing,
        heading: said.releaseHeading,
        blocks: [{ kind: "text", words: unproven.length > 0 ? said.releaseNone : said.releaseNote }, ...signing.blocks],
      }),
    ],
  };
}
