import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseGradesCsv, parseMarksCsv, parseReadingsCsv, parseSitesCsv } from "#contract";
import { agreementOf, checkBeam, gaugeStudy, rangeStudy } from "#gauging";
import { InvalidInput } from "#units";
import { thresholdCurve } from "#window";

/** Nothing, or what came out; any refusal is one line of the one allowed form. */
function accepted(call: () => unknown): unknown {
  try {
    return call();
  } catch (error) {
    expect(error).toBeInstanceOf(InvalidInput);
    expect((error as Error).message).toMatch(/^invalid [^\r\n]+: [^\r\n]* \([^\r\n]+\)$/u);
    return null;
  }
}

function everyNumberIsOne(value: unknown): void {
  if (typeof value === "number") expect(Number.isNaN(value)).toBe(false);
  else if (value !== null && typeof value === "object") Object.values(value).forEach(everyNumberIsOne);
}

const cell = fc.oneof(
  fc.double({ min: 0, max: 100, noNaN: true }).map(String),
  fc.constantFrom("0", "1", "2", "3", "yes", "no", "a", "b", "", "-1", "1e308", "1e-308", "1,5", "NaN", "=1+1", '"'),
);

const file = (headers: readonly string[]) =>
  fc
    .tuple(fc.constantFrom(...headers), fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { maxLength: 12 }))
    .map(([header, rows]) => [header, ...rows.map((row) => row.join(","))].join("\n"));

describe("any file is answered or refused in one line", () => {
  it.each([
    [
      "marks",
      ["energy_mJ,diameter_um", "energy_J,diameterX_mm,diameterY_mm,pulses"],
      (text: string) => checkBeam(parseMarksCsv(text), { wavelength: 1e-6 }),
    ],
    [
      "readings",
      ["part,grader,reading_um", "part,grader,reading"],
      (text: string) => {
        const { readings } = parseReadingsCsv(text);
        return [gaugeStudy(readings), rangeStudy(readings)];
      },
    ],
    ["grades", ["patch,grader,grade"], (text: string) => agreementOf(parseGradesCsv(text))],
    ["sites", ["level_J_per_cm2,damaged"], (text: string) => thresholdCurve(parseSitesCsv(text).sites)],
  ] as const)("%s", (_what, headers, run) => {
    fc.assert(
      fc.property(fc.oneof(file(headers), fc.string()), (text) => everyNumberIsOne(accepted(() => run(text)))),
      { numRuns: 400, seed: 11 },
    );
  });
});
