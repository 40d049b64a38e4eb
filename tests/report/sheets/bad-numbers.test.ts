import {
  buildCommissioningSheet,
  buildOffer,
  buildProcedureSheet,
  buildRunSheet,
  commissioningHtml,
  offerHtml,
  procedureHtml,
  runSheetHtml,
} from "#report";
import { InvalidInput } from "#units";
import { describe, expect, it } from "vitest";
import { commissioningInput, offerInput, procedureInput, runInput } from "./fixture.ts";

/** Properties of the library's figures that no paper prints. */
const unread = new Set(["kind", "metal", "pulses", "price", "modulation"]);

/** The same value once for each number in it, with that number replaced. */
function* spoilt<T>(value: T, by: number, path = ""): Generator<[string, T]> {
  if (typeof value === "number") yield [path, by as T];
  else if (Array.isArray(value))
    for (const [k, item] of value.entries())
      for (const [where, bad] of spoilt(item as unknown, by, `${path}[${k}]`))
        yield [where, value.map((one: unknown, at) => (at === k ? bad : one)) as T];
  else if (typeof value === "object" && value !== null)
    for (const [key, item] of Object.entries(value))
      if (!(unread.has(key) && path.includes(".")))
        for (const [where, bad] of spoilt(item as unknown, by, `${path}.${key}`))
          yield [where, { ...value, [key]: bad }];
}

const run = { ...runInput, trial: { ...runInput.trial, patches: runInput.trial.patches.slice(0, 2) } };
const papers = [
  ["procedure", procedureInput, (input: typeof procedureInput) => procedureHtml(buildProcedureSheet(input))],
  [
    "commissioning",
    commissioningInput,
    (input: typeof commissioningInput) => commissioningHtml(buildCommissioningSheet(input)),
  ],
  ["run sheet", run, (input: typeof run) => runSheetHtml(buildRunSheet(input))],
  ["offer", offerInput, (input: typeof offerInput) => offerHtml(buildOffer(input))],
] as const;

describe("numbers that are none", () => {
  it.each(papers)("are refused in one line or not printed: %s", (_, input, html) => {
    let refused = 0;
    for (const by of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])
      for (const [where, bad] of spoilt(input as never, by)) {
        try {
          expect([where, /NaN|Infinity/.exec((html as (input: unknown) => string)(bad))]).toEqual([where, null]);
        } catch (fault) {
          if (!(fault instanceof InvalidInput)) throw fault;
          expect(fault.message).toMatch(/^invalid [^\n]+ \([^\n]+\)$/);
          refused++;
        }
      }
    expect(refused).toBeGreaterThan(4);
  });
});
