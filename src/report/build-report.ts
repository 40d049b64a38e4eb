import type { PartAnswer } from "#terms";
import { formatNumber } from "#units";
import { acceptanceSection, askedSections } from "./part-asked.ts";
import { answerPage } from "./answer-page.ts";
import { closingSections } from "./closing.ts";
import { choose } from "./evidence.ts";
import type { ReportInput } from "./input.ts";
import type { ReportModel, Section } from "./model.ts";
import { comparisonSection, settingSection, setupsSection } from "./part-setups.ts";
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
    ...trialSections(part, input),
    acceptanceSection(part),
    costSection(part, input),
  ];
}

function costSection(part: PartAnswer, input: ReportInput): Section {
  const section = { id: `${part.part.id}-cost`, heading: "Cost", level: 3 } as const;
  const cost = input.costs?.[part.part.id];
  if (cost === undefined)
    return { ...section, blocks: [{ kind: "text", words: "Cost was not worked out for this part." }] };
  const range = `${formatNumber(cost.low, 3)} to ${formatNumber(cost.high, 3)} ${cost.currency}/m²`;
  const rows = [
    { name: "cost per area", value: `${formatNumber(cost.median, 3)} ${cost.currency}/m²`, note: range },
    { name: "hours for the order", value: cost.hours === null ? "not worked out" : `${formatNumber(cost.hours, 3)} h` },
  ];
  return {
    ...section,
    blocks: [
      { kind: "facts", rows },
      { kind: "list", items: cost.basis },
    ],
  };
}
