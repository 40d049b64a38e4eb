import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parseEnquiryFile, parseOutcomesCsv, runSheetCsv } from "#contract";
import { outcomesFromXlsx } from "#exchange";
import { main } from "#cli";
import { outcomesCsv, setup, trial } from "../exchange/examples.ts";
import { survey, window } from "../exchange/survey-wire.ts";

const examples = new URL("../../examples/", import.meta.url).pathname;
const trialFile = join(examples, "brackets.pulsed.trial.json");
const outcomesFile = join(examples, "brackets.pulsed.outcomes.csv");
const enquiry = join(examples, "enquiry.json");
let folder = "";
const at = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "exchange-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const burned = trial.patches.filter((p) => p.setting !== null).length;

async function run(...args: string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const code = await main(
    ["node", "scourlight", ...args],
    (text) => out.push(text),
    (text) => errors.push(text),
  );
  return { code, out: out.join("\n"), errors };
}

describe("export of tables", () => {
  it("writes a workbook that gives the outcomes back, and says the cautions", async () => {
    const { code, out } = await run("export", "--trial", trialFile, "--outcomes", outcomesFile, "--out", at("t.xlsx"));
    expect(code).toBe(0);
    expect(out).toContain(
      `run sheet (${trial.patches.length} rows), outcomes (${burned} rows), settings (${burned} rows), cautions`,
    );
    expect(out).toContain("  ! Class 4 laser");
    expect(await outcomesFromXlsx(readFileSync(at("t.xlsx")), trial)).toEqual(parseOutcomesCsv(outcomesCsv, trial));
  });

  it("writes the run sheet as plan does, with the tests of the enquiry, and any table by name", async () => {
    await run("export", "--trial", trialFile, "--enquiry", enquiry, "--out", at("run.csv"));
    const { parts } = parseEnquiryFile(JSON.parse(readFileSync(enquiry, "utf8")));
    const kinds = parts.find((p) => p.id === "brackets")!.acceptance.tests.map((t) => t.kind);
    expect(kinds.length).toBeGreaterThan(0);
    expect(readFileSync(at("run.csv"), "utf8")).toBe(runSheetCsv(trial, setup, kinds));
    await run("export", "--trial", trialFile, "--table", "settings", "--out", at("s.csv"));
    expect(readFileSync(at("s.csv"), "utf8")).toMatch(/^use,laser,patch,lens,power_W,/);
  });

  it("turns a workbook into a CSV and names the rows that do not fit", async () => {
    writeFileSync(at("bad.csv"), `${outcomesCsv.trimEnd()}\r\n999,1,,0,,,,,,,grader 1,\r\n`);
    const bad = await run("export", "--trial", trialFile, "--outcomes", at("bad.csv"), "--out", at("b.xlsx"));
    expect(bad.out).toContain(
      `1 rows refused\n  line ${burned + 2}: invalid patch: 999 (is not in trial brackets-pulsed)`,
    );
    await run("export", "--trial", trialFile, "--outcomes", at("b.xlsx"), "--out", at("b.csv"));
    expect(readFileSync(at("b.csv"), "utf8")).toBe(outcomesCsv.replaceAll(/\r?\n/g, "\r\n"));
  });

  it("takes window and comparison from what those commands print", async () => {
    writeFileSync(at("w.json"), JSON.stringify(window));
    writeFileSync(at("c.json"), JSON.stringify({ ...survey, part: "brackets", triage: {}, advice: [] }));
    const given = ["--window", at("w.json"), "--comparison", at("c.json")];
    const { code, out } = await run("export", "--trial", trialFile, ...given, "--out", at("all.xlsx"));
    expect(code).toBe(0);
    expect(out).toContain(`settings (${burned + 2} rows), comparison (1 rows), window map (6 rows)`);
    expect(out).toContain("  ! wear what the officer names");
    writeFileSync(at("c.json"), JSON.stringify(survey));
    const other = await run("export", "--trial", trialFile, ...given, "--out", at("other.xlsx"));
    expect(other.errors).toEqual(["invalid comparison: lid (must be of part brackets)"]);
  });

  it("says in one line what it cannot do", async () => {
    const line = async (...args: string[]) => {
      const { code, errors } = await run("export", ...args);
      expect([code, errors.length]).toEqual([2, 1]);
      return errors[0];
    };
    expect(await line("--trial", trialFile, "--out", at("t.ods"))).toMatch(/^invalid out: .*must end in \.xlsx/);
    expect(await line("--out", at("t.csv"))).toBe("invalid trial: missing (give --trial <file> or --trial-id <id>)");
    expect(await line("--trial", trialFile, "--out", at("t.zip"))).toMatch(/^invalid trial id: missing/);
    expect(await line("--trial-id", "x", "--out", at("t.zip"))).toMatch(/^invalid data: missing/);
    expect(await line("--trial-id", "x", "--data", at("none"), "--out", at("t.zip"))).toMatch(/no such folder/);
    expect(existsSync(at("none"))).toBe(false);
    expect(await line("--trial", trialFile, "--table", "map", "--out", at("t.csv"))).toMatch(/^invalid table: map/);
    copyFileSync(trialFile, at("no.xlsx"));
    expect(await line("--trial", trialFile, "--outcomes", at("no.xlsx"), "--out", at("t.csv"))).toMatch(
      /^invalid outcomes file: .*no zip archive/,
    );
  });
});

describe("export and import of a whole trial", () => {
  it("carries it from one data folder into another, twice the same, with its times", async () => {
    await run("record", "--trial", trialFile, "--outcomes", outcomesFile, "--enquiry", enquiry, "--data", at("one"));
    const archive = at("t.crate.zip");
    const written = await run("export", "--trial-id", trial.id, "--data", at("one"), "--out", archive);
    expect(written.out).toContain(
      `wrote ${archive}: trial brackets-pulsed, 2 records, ${burned} outcomes, 0 answers, 0 photos`,
    );
    expect(written.out).toContain("Cautions\n  ! ");
    const first = await run("import", "--archive", archive, "--data", at("two"));
    expect(first).toEqual({
      code: 0,
      errors: [],
      out: `Trial brackets-pulsed: added 2 versions of records, ${burned} outcomes, 0 answers and 0 photos to ${at("two")}`,
    });
    expect((await run("import", "--archive", archive, "--data", at("two"))).out).toMatch(/nothing to add/);
    await run("export", "--trial-id", trial.id, "--data", at("two"), "--out", at("again.crate.zip"));
    expect(Buffer.compare(readFileSync(archive), readFileSync(at("again.crate.zip")))).toBe(0);
    await run("export", "--trial-id", trial.id, "--data", at("two"), "--out", at("kept.csv"));
    expect(parseOutcomesCsv(readFileSync(at("kept.csv"), "utf8"), trial)).toEqual(parseOutcomesCsv(outcomesCsv, trial));
  });

  it("refuses a folder that says otherwise, and a file that is no archive, and makes no folder for it", async () => {
    const wire = { ...JSON.parse(readFileSync(trialFile, "utf8")), seed: 1 };
    writeFileSync(at("other.trial.json"), JSON.stringify(wire));
    await run("record", "--trial", at("other.trial.json"), "--outcomes", outcomesFile, "--data", at("three"));
    const { code, errors } = await run("import", "--archive", at("t.crate.zip"), "--data", at("three"));
    expect(code).toBe(2);
    expect(errors).toEqual([
      "invalid trial: brackets-pulsed (another one is kept under this name in the data folder; nothing was imported)",
    ]);
    const none = await run("import", "--archive", trialFile, "--data", at("four"));
    expect(none.code).toBe(2);
    expect(none.errors[0]).toMatch(/^invalid archive: .*is no zip archive/);
    expect(existsSync(at("four"))).toBe(false);
    expect((await run("import", "--archive", at("nowhere.zip"))).errors[0]).toMatch(/there is no such file/);
  });
});
