import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parseOutcomesCsv } from "#contract";
import {
  cautionsTable,
  comparisonTable,
  outcomesFromXlsx,
  outcomesTable,
  runSheetTable,
  settingsTable,
  type Table,
  tablesToXlsx,
  windowMapTable,
} from "#exchange";
import { outcomes, outcomesCsv, setup, trial, wire } from "../../exchange/examples.ts";
import { survey, window } from "../../exchange/survey-wire.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "workbook-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Converts with the office suite, in a profile of its own, without a window. */
function convert(file: string, to: string): void {
  const profile = pathToFileURL(join(folder, "profile")).href;
  execFileSync(
    "/usr/bin/soffice",
    [`-env:UserInstallation=${profile}`, "--headless", "--convert-to", to, "--outdir", folder, file],
    { stdio: "ignore" },
  );
}

/**
 * Comma, quotation mark, UTF-8, from line 1; every text and no number in quotation marks, every
 * sheet (from memory: the filter options of the suite's help). What is quoted was a text cell, what is bare a number.
 */
const csvFilter = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,true,false,false,false,-1";

function cellsOf(csv: string): { value: string; quoted: boolean }[][] {
  const cells = [...csv.matchAll(/(?:"((?:[^"]|"")*)"|([^,\n]*))(,|\n)/g)];
  const rows: { value: string; quoted: boolean }[][] = [[]];
  for (const [, text, bare, end] of cells) {
    rows.at(-1)!.push({ value: text?.replaceAll('""', '"') ?? bare!, quoted: text !== undefined });
    if (end === "\n") rows.push([]);
  }
  return rows.slice(0, -1);
}

const odd: Table = outcomesTable(
  outcomes.slice(0, 6).map((o, i) => ({
    ...o,
    temperature: 250.4 + i,
    grader: ["=1+1", "7", "+49", "-x", "@home", "'quoted"][i]!,
    note: ['=HYPERLINK("a")', "two\nlines", "a, b; c", 'say "so"', "_x0041_", "Schönau µm ²"][i]!,
  })),
);

describe("a workbook opened in an office suite", () => {
  it("shows the same cells, numbers as numbers and texts as texts", () => {
    const tables = [
      runSheetTable(trial, setup, ["pull-off"]),
      { ...outcomesTable(outcomes), title: "Graded" },
      odd,
      settingsTable(wire, window),
      comparisonTable(survey),
      windowMapTable(window)!,
      cautionsTable(wire.cautions),
    ];
    return tablesToXlsx(tables).then((bytes) => {
      writeFileSync(join(folder, "trial.xlsx"), bytes);
      convert(join(folder, "trial.xlsx"), csvFilter);
      for (const table of tables) {
        const shown = cellsOf(readFileSync(join(folder, `trial-${table.title}.csv`), "utf8"));
        expect(shown[0]!.map((c) => c.value)).toEqual(table.columns.map((c) => c.name));
        expect(shown).toHaveLength(table.rows.length + 1);
        table.rows.forEach((row, y) => {
          row.forEach((cell, x) => {
            const found = shown[y + 1]![x]!;
            const where = `${table.title} ${table.columns[x]!.name} row ${y + 2}`;
            if (cell === null) expect(found, where).toEqual({ value: "", quoted: false });
            else if (typeof cell === "string") expect(found, where).toEqual({ value: cell, quoted: true });
            else
              expect({ number: Number(found.value), quoted: found.quoted }, where).toEqual({
                number: cell,
                quoted: false,
              });
          });
        });
      }
    });
  });

  it("comes back from it as outcomes, also where it was saved by the suite", async () => {
    writeFileSync(join(folder, "outcomes.csv"), outcomesCsv);
    convert(join(folder, "outcomes.csv"), "xlsx");
    const saved = readFileSync(join(folder, "outcomes.xlsx"));
    expect(await outcomesFromXlsx(saved, trial)).toEqual(parseOutcomesCsv(outcomesCsv, trial));
    const ours = join(folder, "ours.xlsx");
    writeFileSync(ours, await tablesToXlsx([odd]));
    convert(ours, "ods");
    convert(join(folder, "ours.ods"), "xlsx");
    const back = await outcomesFromXlsx(readFileSync(ours), trial);
    expect(back.refused).toEqual([]);
    expect(outcomesTable(back.accepted)).toEqual(odd);
  });
});
