import { quantile } from "#numerics";
import { citation } from "#sources";
import type { Band, Check, RowAnswer } from "./validation-cases.ts";
import { type PublishedRow, publishedRows } from "./validation-rows.ts";

function figure(value: number): string {
  if (Math.abs(value) < 1e-4) return "0";
  const text = value.toPrecision(3);
  return text.includes("e") ? value.toFixed(0) : String(Number(text));
}

/** High over low, or null where the band begins at nothing; a single share has no width. */
const width = (band: Band): number | null => (band.low > 1e-4 ? band.high / band.low : null);
const isShare = (band: Band) => band.low === band.high;

function bandText(band: Band): string {
  return isShare(band) ? figure(band.median) : `${figure(band.low)} to ${figure(band.high)} (${figure(band.median)})`;
}

function widthText(band: Band): string {
  if (isShare(band)) return "-";
  const ratio = width(band);
  return ratio === null ? "from nothing" : `×${figure(ratio)}`;
}

const metText = (met: boolean | null) => (met === null ? "-" : met ? "met" : "not met");

/** hit when all that can be told is met; rows that were in sight of priors or cannot be asked are never a hit. */
export function verdict(row: PublishedRow, checks: readonly Check[]): string {
  if (row.standing !== "counted") return `${row.standing}, not counted`;
  const told = checks.filter((c) => c.met !== null);
  const met = told.filter((c) => c.met).length;
  return met === told.length && met > 0 ? "hit" : `miss (${met} of ${told.length} met)`;
}

const rowOf = (id: string): PublishedRow => publishedRows.find((r) => r.id === id) as PublishedRow;

/** One row: the predicted band first, then what was published. */
export function rowSection(answer: RowAnswer): string {
  const row = rowOf(answer.id);
  const lines = answer.checks.map(
    (c) =>
      `| ${c.what} | ${bandText(c.band)}${c.unit === "1" || c.unit === "share" ? "" : ` ${c.unit}`} | ${widthText(c.band)} | ${c.published} | ${metText(c.met)} |`,
  );
  return `### ${row.id}: ${verdict(row, answer.checks)}

Computed: ${answer.how}.

| quantity | predicted 90 % band (median) | high over low | published | |
|---|---|---|---|---|
${lines.join("\n")}

Published: ${row.laser}; ${row.target}: ${row.finding}. Unknown: ${row.unknown}. Use: ${row.use}. Source: ${citation(row.source)}.

Reading: ${answer.why.trim()}
`;
}

function summaryLine(answer: RowAnswer): string {
  const row = rowOf(answer.id);
  const [first] = answer.checks;
  const unit = first.unit === "1" || first.unit === "share" ? "" : ` ${first.unit}`;
  return `| ${row.id} | ${first.what} | ${bandText(first.band)}${unit} | ${widthText(first.band)} | ${first.published} | ${verdict(row, answer.checks)} |`;
}

const medianWidth = (answers: readonly RowAnswer[]): string => {
  // A band that begins at nothing is wider than any other.
  const ratios = answers.map((a) => width(a.checks[0].band) ?? 1e9);
  const middle = quantile(ratios, 0.5);
  return middle >= 1e8 ? "from nothing" : `×${figure(middle)}`;
};

export function validationPage(answers: readonly RowAnswer[]): string {
  const counted = answers.filter((a) => rowOf(a.id).standing === "counted");
  const hits = counted.filter((a) => verdict(rowOf(a.id), a.checks) === "hit").length;
  const of = (standing: string) =>
    answers
      .filter((a) => rowOf(a.id).standing === standing)
      .map((a) => a.id)
      .join(", ");
  return `# Published experiments

Written by \`npm run validation\`. Each row: the band that the product predicts, 5 % to 95 % over versions of the physics
drawn from the library and over stated ranges of what a paper does not tell, then what was published. Nothing was
adjusted to meet a row. The papers were read in summary only; "-" stands where nothing can be said. A row is a hit only when everything
that can be told of it is met. Ratio "high over low" is the width of a band; a wide band that holds a finding says little.

- Used when priors were chosen, so that they cannot validate: ${of("used for priors")}.
- Not testable until an unknown is known: ${of("not testable")}.
- Counted: ${hits} hits of ${counted.length} rows.

## Rows

${answers.map(rowSection).join("\n")}
## Together

| row | first quantity | predicted 90 % band (median) | high over low | published | |
|---|---|---|---|---|---|
${answers.map(summaryLine).join("\n")}

Median width of the bands (first quantity of each row): ${medianWidth(answers)} over all rows, ${medianWidth(counted)} over the counted ones.
`;
}
