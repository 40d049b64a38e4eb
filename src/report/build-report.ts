import type { PartAnswer } from "#terms";
import { requireText } from "#units";
import { acceptanceSection, askedSections } from "./part-asked.ts";
import { answerPage } from "./answer-page.ts";
import { closingSections } from "./closing.ts";
import { choose } from "./evidence.ts";
import type { ReportInput } from "./input.ts";
import type { ReportModel, Section } from "./model.ts";
import { comparisonSection, settingSection, setupsSection } from "./part-setups.ts";
import { evidenceSections } from "./part-evidence.ts";
import { jobSections } from "./part-job.ts";
import { trialSections } from "./part-trial.ts";

/**
 * The report of an enquiry as plain data: what a customer reads first, then every detail. The same input gives the
 * same report; date, document id and approver are handed in. Throws InvalidInput when no caution is given or a number
 * is not finite.
 */
export function buildReport(input: ReportInput): ReportModel {
  const { answer } = input;
  const { enquiry } = answer;
  return {
    language: "en",
    title: enquiry.title,
    customer: enquiry.customer,
    enquiryId: enquiry.id,
    documentId: input.documentId,
    revision: requireText("revision", input.revision ?? "1", 20),
    dateText: input.dateText,
    approver: input.approver,
    invented: enquiry.invented,
    modelVersion: answer.modelVersion,
    answer: answerPage(input),
    details: [...answer.parts.flatMap((part) => partSections(part, input)), ...closingSections(input)],
  };
}

function partSections(part: PartAnswer, input: ReportInput): Section[] {
  const { id, name } = part.part;
  const chosen = choose(part);
  const head: Section = { id, heading: name, level: 2, blocks: [] };
  if (chosen.evidence === "declined")
    return [
      {
        ...head,
        blocks: [
          { kind: "text", words: chosen.words },
          { kind: "list", items: part.triage.reasons },
        ],
      },
    ];
  return [
    head,
    ...askedSections(part),
    settingSection(part, chosen, input),
    setupsSection(part),
    comparisonSection(part),
    ...evidenceSections(part, input),
    ...trialSections(part, input),
    acceptanceSection(part),
    ...jobSections(part, input),
  ];
}
