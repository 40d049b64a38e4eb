import type { Outcome } from "#terms";
import { testKinds } from "./acceptance-schema.ts";
import { columnOfTest, outcomeColumns } from "./csv-columns.ts";
import { safeText, writeCsv } from "./csv-text.ts";
import { outcomeToWire } from "./outcome-wire.ts";

const cellOf = (value: string | number | null | undefined): string => {
  if (value === null || value === undefined) return "";
  return typeof value === "number" ? String(value) : safeText(value);
};

function testCell(test: Outcome["tests"][number] | undefined): string {
  if (test === undefined) return "";
  const verdict = test.passed === null ? "" : test.passed ? "pass" : "fail";
  return safeText([test.value ?? "", verdict].filter((text) => text !== "").join(" "));
}

/** Outcomes as the CSV that `parseOutcomesCsv` reads; a test column for each kind that occurs. */
export function outcomesToCsv(outcomes: readonly Outcome[]): string {
  const kinds = testKinds.filter((kind) => outcomes.some((o) => o.tests.some((t) => t.kind === kind)));
  const rows = outcomes.map((outcome) => {
    const wire: Record<string, unknown> = outcomeToWire(outcome);
    const plain = outcomeColumns.map((column) => cellOf(wire[column] as string | number | null));
    return [...plain, ...kinds.map((kind) => testCell(outcome.tests.find((t) => t.kind === kind)))];
  });
  return writeCsv([[...outcomeColumns, ...kinds.map(columnOfTest)], ...rows]);
}
