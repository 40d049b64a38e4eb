import { checkSetting } from "#beam";
import { invalid } from "#units";
import { cautionBox } from "./caution-box.ts";
import { footingBanner, trialOnly } from "./footing.ts";
import type { Language } from "./language.ts";
import { flowing, type Sheet, type SheetSection, wide } from "./model.ts";
import { paperHead, speak } from "./paper-head.ts";
import { partSection } from "./part-lines.ts";
import type { ProcedureInput } from "./procedure-input.ts";
import {
  acceptSection,
  checksSection,
  focusSection,
  ppeSection,
  rejectSection,
  setupSection,
  stopBox,
} from "./procedure-parts.ts";
import { settingSection } from "./setting-section.ts";
import { signatureSection } from "./signatures.ts";
import { fill } from "./words.ts";

/**
 * The procedure sheet that an operator works from, as plain data for one A4 side. A setting that is not proven is
 * marked as for trial only. Throws InvalidInput for a setting that the set-up cannot run, a delivery that it is not
 * made for, a footing that claims more than its repeats show, and a sheet without cautions.
 */
export function buildProcedureSheet(input: ProcedureInput, language: Language = "en"): Sheet<"procedure"> {
  const speech = speak(language);
  const { setup, setting, delivery, footing } = input;
  checkSetting(setup, setting);
  if (!setup.deliveries.includes(delivery))
    invalid("delivery", delivery, "", `${setup.id} is made for ${setup.deliveries.join(", ")}`);
  const said = speech.words.procedure;
  const bare = (id: string, ...blocks: SheetSection["blocks"]): SheetSection => ({ id, heading: "", blocks });
  const head = paperHead(input, speech);
  const unproven = trialOnly(footing) ? [speech.words.evidence.unproven] : [];
  const signing = [
    { role: said.operator, name: null },
    { role: said.officer, name: null },
    { role: said.approver, name: input.approver },
  ];
  return {
    ...head,
    kind: "procedure",
    title: fill(said.title, { part: input.part.name }),
    subtitle: said.subtitle,
    marks: [...head.marks, ...unproven],
    footer: [head.footer, ...unproven].join(" · "),
    upright: true,
    rows: [
      wide(bare("footing", footingBanner(footing, speech)), settingSection(setup, setting, speech)),
      flowing(
        focusSection(input, speech),
        ppeSection(input, speech),
        bare("stop", stopBox(input, speech)),
        checksSection(input, speech),
        partSection(input.part, speech),
        setupSection(input, speech),
        acceptSection(input, speech),
        rejectSection(input, speech),
        bare("cautions", cautionBox(input.cautions, speech)),
      ),
      wide(
        // the roles say what it is; the heading would take a line
        { ...signatureSection(signing, speech), heading: "" },
      ),
    ],
  };
}
