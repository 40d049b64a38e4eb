import { timeKinds, timeWords } from "#cost";
import type { PartAnswer } from "#terms";
import { formatNumber } from "#units";
import type { PartJob, ReportInput } from "./input.ts";
import type { Block, Column, Section } from "./model.ts";
import { rateText, share } from "./wording.ts";

/** Delivery, time and cost of the order of one part. */
export function jobSections(part: PartAnswer, input: ReportInput): Section[] {
  const id = part.part.id;
  const job = input.jobs?.[id];
  const sections = [
    { id: `${id}-rate`, heading: "Delivery and time", level: 3 },
    { id: `${id}-cost`, heading: "Cost", level: 3 },
  ] as const;
  const missing = ["Delivery and time were not worked out for this part.", "Cost was not worked out for this part."];
  if (job === undefined) return sections.map((s, k) => ({ ...s, blocks: [{ kind: "text", words: missing[k]! }] }));
  return [
    { ...sections[0], blocks: timeBlocks(job) },
    { ...sections[1], blocks: costBlocks(job, id) },
  ];
}

const hours = (value: number): string => formatNumber(value, value < 10 ? 2 : 3);

function timeBlocks({ advice, rate, hours: h }: PartJob): Block[] {
  const columns: Column[] = [
    { name: "the time goes into", align: "left", share: 60 },
    { name: "hours", align: "right", share: 20 },
    { name: "share", align: "right", share: 20 },
  ];
  const rows = timeKinds
    .filter((kind) => rate.time[kind] > 0)
    .map((kind) => [timeWords[kind], hours(rate.time[kind] / 3600), share(rate.shares[kind])]);
  return [
    { kind: "list", items: [...advice.reasons, ...advice.others.map(({ why }) => why), ...advice.notes] },
    {
      kind: "facts",
      rows: [
        { name: "hours for the order", value: `${hours(h.middle)} h`, note: `${hours(h.low)} to ${hours(h.high)} h` },
        { name: "rate with the beam on", value: rateText(rate.beamRate) },
        { name: "rate over the whole order", value: rateText(rate.area / rate.total) },
      ],
    },
    { kind: "table", caption: `Time of the order, by ${rate.delivery}`, columns, rows, cautions: [] },
  ];
}

function costBlocks({ cost, currency, sensitivity, breakEven, payback, basis }: PartJob, id: string): Block[] {
  const money = (value: number): string => formatNumber(value, 3);
  const row = (name: string, { low, middle, high }: PartJob["cost"]["perArea"], unit: string) => ({
    name,
    value: `${money(middle)} ${unit}`,
    note: `${money(low)} to ${money(high)} ${unit}`,
  });
  const note = "One figure at a time, all others at their middle.";
  return [
    {
      kind: "facts",
      rows: [
        row("cost per area", cost.perArea, `${currency}/m²`),
        row("cost per part", cost.perPart, currency),
        row("cost of the order", cost.total, currency),
      ],
    },
    {
      kind: "figure",
      id: `${id}-cost-bars`,
      caption: `What moves the cost most. ${note}`,
      drawing: { kind: "cost-bars", sensitivity, currency, note },
    },
    { kind: "list", items: [breakEven.words, ...(payback === null ? [] : [payback.words]), ...basis] },
  ];
}
