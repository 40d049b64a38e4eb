import type { PartAnswer } from "#terms";
import { formatNumber, formatQuantity } from "#units";
import { jobCautions, particularCautions } from "./cautions.ts";
import { choose, type Chosen } from "./evidence.ts";
import type { ReportInput } from "./input.ts";
import type { AnswerBlock, Block, Fact, Section } from "./model.ts";
import { settingLine } from "./setting-rows.ts";
import { hoursText, notMeasured, plural, rateText, testWords } from "./wording.ts";

/** The page that a customer reads. */
export function answerPage(input: ReportInput): Section[] {
  const { answer } = input;
  const blocks: Block[] = answer.parts.map((part) => answerBlock(part, input));
  const open = answer.parts.flatMap(notMeasuredOf);
  return [
    { id: "answer", heading: "Recommendation", level: 2, blocks },
    {
      id: "answer-cautions",
      heading: "Cautions for the whole job",
      level: 2,
      blocks: [{ kind: "cautions", items: jobCautions(input) }],
    },
    {
      id: "answer-open",
      heading: "Asked for and not measured",
      level: 2,
      blocks:
        open.length > 0
          ? [{ kind: "list", items: open }]
          : [
              {
                kind: "text",
                words: anyAsked(answer.parts) ? "Every test asked for was measured." : "No test was asked for.",
              },
            ],
    },
  ];
}

const anyAsked = (parts: readonly PartAnswer[]): boolean => parts.some(({ part }) => part.acceptance.tests.length > 0);

function answerBlock(part: PartAnswer, input: ReportInput): AnswerBlock {
  const chosen = choose(part);
  const declined = chosen.evidence === "declined";
  const sentences = declined ? [...part.triage.reasons] : [];
  const burned = input.evidence?.[part.part.id];
  // What was burned speaks before what was predicted, and the two must not be taken for one another.
  if (burned !== undefined && burned.pulsed !== null && burned.continuous !== null) sentences.push(...burned.words);
  if (part.comparison !== null)
    sentences.push(
      ...[part.comparison.eachAtBest.sentence, part.comparison.equalPower.sentence].map((s) => `Predicted: ${s}`),
    );
  else if (!declined) sentences.push("Pulsed and continuous were not compared for this part.");
  return {
    kind: "answer",
    part: part.part.name,
    evidence: chosen.evidence,
    headline: chosen.setupName ?? (declined ? "Declined" : "No laser set-up is recommended"),
    evidenceWords: chosen.words,
    setting: chosen.setting === null ? null : settingLine(chosen.setting),
    facts: declined ? [] : answerFacts(part, chosen, input),
    sentences,
    cautions: chosen.setting === null ? [] : shortCautions(part, input),
  };
}

/** The card holds what is particular to the part; what holds for the whole job stands below it on the same page. */
function shortCautions(part: PartAnswer, input: ReportInput): string[] {
  const whole = new Set(jobCautions(input));
  const particular = particularCautions(part.part, input).filter((caution) => !whole.has(caution));
  return [...particular, "The cautions below hold for this setting."];
}

function answerFacts(part: PartAnswer, chosen: Chosen, input: ReportInput): Fact[] {
  const { area, count, rateWanted } = part.part;
  const cost = input.costs?.[part.part.id];
  const rate = chosen.areaRate;
  const wanted = rateWanted === null ? "" : `wanted: ${rateText(rateWanted)}`;
  const facts: Fact[] = [
    { name: "job", value: `${plural(count, "piece")}, ${formatQuantity(area, "m2")} each` },
    { name: "area rate", value: rate === null ? "none" : rateText(rate), note: wanted },
  ];
  if (rate !== null && rate > 0)
    facts.push({ name: "laser on", value: hoursText(area * count, rate), note: "for the order, turn-rounds included" });
  const margin = chosen.recommendation?.margin;
  if (margin !== undefined)
    facts.push({
      name: "margin",
      value:
        margin.powerPercent === null ? "no 95 % edge in reach" : `${formatNumber(margin.powerPercent, 2)} % of power`,
      note: margin.nearestEdge === null ? "" : `to the edge of ${margin.nearestEdge}`,
    });
  facts.push({
    name: "cost",
    value: cost === undefined ? "not worked out" : `${formatNumber(cost.median, 3)} ${cost.currency}/m²`,
    note: cost === undefined ? "" : `${formatNumber(cost.low, 3)} to ${formatNumber(cost.high, 3)} ${cost.currency}/m²`,
  });
  return facts;
}

/** Tests asked for that nobody measured, neither on the part nor on any patch. */
export function notMeasuredOf(part: PartAnswer): string[] {
  if (part.triage.verdict === "declined") return [];
  const found = part.part.acceptance.tests
    .filter((test) => test.value === null && patchValues(part, test.kind).length === 0)
    .map((test) => `${testWords[test.kind]} (${test.method}), ${test.limit}`);
  // One line a part keeps the cautions on the same page.
  const lines = found.length > 0 ? [`${part.part.name}: ${found.join("; ")}: ${notMeasured}.`] : [];
  if (part.trials.every((trial) => trial.outcomes.length === 0))
    lines.unshift(`${part.part.name}: residue and metal condition: predicted only, ${notMeasured} on patches.`);
  return lines;
}

export function patchValues(
  part: PartAnswer,
  kind: string,
): { readonly words: string; readonly passed: boolean | null }[] {
  return part.trials.flatMap((trial) =>
    trial.outcomes.flatMap((outcome) =>
      outcome.tests
        .filter((test) => test.kind === kind && test.value !== null)
        .map((test) => ({ words: `patch ${outcome.patch}: ${test.value}`, passed: test.passed })),
    ),
  );
}
