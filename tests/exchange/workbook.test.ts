import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it, vi } from "vitest";
import writeXlsxFile from "write-excel-file/node";
import { parseOutcomesCsv } from "#contract";
import { outcomesFromXlsx, outcomesTable, runSheetTable, settingsTable, type Table, tablesToXlsx } from "#exchange";
import { outcomes, outcomesCsv, setup, trial, wire } from "./examples.ts";

const sheetXml = (book: Uint8Array, n: number) => strFromU8(unzipSync(book)[`xl/worksheets/sheet${n}.xml`]!);
const patched = (book: Uint8Array, path: string, change: (xml: string) => string): Uint8Array => {
  const parts = unzipSync(book);
  return zipSync({ ...parts, [path]: strToU8(change(strFromU8(parts[path]!))) });
};

/** A workbook as a spreadsheet writes it: what is a number is a number, what is null is no cell. */
const book = async (rows: readonly (readonly unknown[])[]): Promise<Uint8Array> =>
  writeXlsxFile(rows.map((row) => row.map((c) => c as string | number | null))).toBuffer();

describe("writing", () => {
  it("gives the same bytes for the same tables, whatever the time of day", async () => {
    const tables = [runSheetTable(trial, setup), settingsTable(wire)];
    vi.useFakeTimers({ toFake: ["Date"], now: new Date(2026, 0, 1) });
    const first = await tablesToXlsx(tables);
    vi.setSystemTime(new Date(2027, 5, 6, 7, 8, 9));
    const second = await tablesToXlsx(tables);
    vi.useRealTimers();
    expect(Buffer.compare(first, second)).toBe(0);
  });

  it("writes no formula, whatever a text begins with", async () => {
    const risky = ["=1+1", "+1", "-1", "@SUM(A1)", "=cmd|' /C calc'!A0", "_x0041_"];
    const table: Table = {
      name: "t",
      title: "T",
      columns: [{ name: "note", kind: "text" }],
      rows: risky.map((text) => [text]),
    };
    const written = await tablesToXlsx([table]);
    const xml = sheetXml(written, 1);
    expect(xml).not.toContain("<f>");
    expect(xml.match(/<c [^>]*t="s"/g)).toHaveLength(1 + risky.length);
    expect(strFromU8(unzipSync(written)["xl/sharedStrings.xml"]!)).toContain("_x005F_x0041_");
  });
});

describe("reading outcomes", () => {
  it("gives what the CSV gives", async () => {
    const read = await outcomesFromXlsx(await tablesToXlsx([outcomesTable(outcomes)]), trial);
    expect(read).toEqual(parseOutcomesCsv(outcomesCsv, trial));
    expect(read.accepted.length).toBeGreaterThan(30);
  });

  it("keeps every text, line breaks and signs included", async () => {
    const odd = outcomes.slice(0, 4).map((o, i) => ({
      ...o,
      grader: ["=A", "'=A", "B;C", "_x0041_"][i]!,
      note: ["first line\nsecond line", "+5 V", "a\tb, c", '"quoted"'][i]!,
      tests: [{ kind: "pull-off" as const, method: "", limit: "", value: "-6.2 MPa", passed: i > 1 }],
    }));
    const { accepted, refused } = await outcomesFromXlsx(await tablesToXlsx([outcomesTable(odd)]), trial);
    expect(refused).toEqual([]);
    expect(accepted.map((o) => o.grader)).toEqual(odd.map((o) => o.grader));
    expect(accepted.map((o) => o.note)).toEqual(odd.map((o) => o.note));
    expect(accepted.map((o) => [o.tests[0]!.value, o.tests[0]!.passed])).toEqual([
      ["-6.2 MPa", false],
      ["-6.2 MPa", false],
      ["-6.2 MPa", true],
      ["-6.2 MPa", true],
    ]);
  });

  it("refuses by the row of the sheet, also after empty rows and cells with line breaks", async () => {
    const bytes = await book([
      ["patch", "residue_percent", "metalCondition", "note"],
      [2, 1.3, 0, "two\nlines\nand a third"],
      [],
      [3, 140, 0, null],
      [2, 5, 0, null],
      [4, "1,5", 0, null],
      [99, 1, 0, null],
      [5, 1, 0, null, "stray"],
    ]);
    const { accepted, refused } = await outcomesFromXlsx(bytes, trial);
    expect(accepted.map((o) => o.patch)).toEqual([2, 4]);
    expect(accepted[0]!.residueFraction).toBeCloseTo(0.013, 12);
    expect(accepted[1]!.residueFraction).toBeCloseTo(0.015, 12);
    expect(accepted[0]!.note).toBe("two\nlines\nand a third");
    expect(refused.map((r) => [r.line, r.message])).toEqual([
      [4, expect.stringMatching(/^invalid residue_percent: 140 % /)],
      [5, "invalid patch: 2 (already on line 2 from the same grader)"],
      [7, "invalid patch: 99 (is not in trial brackets-pulsed)"],
      [8, expect.stringMatching(/^invalid row: 5 cells /)],
    ]);
  });

  it("takes 5 % shown as per cent for 5 %, not for 0.05 %", async () => {
    const bytes = await writeXlsxFile([
      ["patch", "residue_percent", "lightness"],
      [2, { value: 0.05, type: Number, format: "0%" }, { value: 60, type: Number, format: "0.00" }],
      [3, { value: 0.07, type: Number, format: "0.0 %" }, null],
      [4, 0.5, null],
      [5, { value: 5, type: Number, format: "0%" }, null],
      [6, { value: 5, type: Number, format: '0"%"' }, null],
      [7, { value: 5, type: Number, format: "0\\%" }, null],
    ]).toBuffer();
    const { accepted, refused } = await outcomesFromXlsx(bytes, trial);
    expect(accepted.map((o) => [o.patch, o.residueFraction, o.lightness])).toEqual([
      [2, 0.05, 60],
      [3, 0.07, null],
      [4, 0.005, null],
      [6, 0.05, null],
      [7, 0.05, null],
    ]);
    expect(refused.map((r) => [r.line, r.message])).toEqual([
      [5, expect.stringMatching(/^invalid residue_percent: 500%/)],
    ]);
  });

  it("knows per cent by the two built-in formats too, and beside styled cells that are empty", async () => {
    const plain = await writeXlsxFile([
      ["patch", "lightness", "residue_percent"],
      [2, { value: 60, type: Number, format: "0.00" }, { value: 0.05, type: Number, format: "0.0 %" }],
    ]).toBuffer();
    // ECMA-376-1, 18.8.30: format 9 is 0% and 10 is 0.00%.
    for (const builtIn of ["9", "10"]) {
      const own = /numFmtId="(\d+)" formatCode="0.0 %"/;
      const styles = strFromU8(unzipSync(plain)["xl/styles.xml"]!);
      const id = own.exec(styles)![1]!;
      const numbered = patched(plain, "xl/styles.xml", (xml) =>
        xml.replace(own, 'numFmtId="199" formatCode="0.0"').replaceAll(`numFmtId="${id}"`, `numFmtId="${builtIn}"`),
      );
      const bytes = patched(numbered, "xl/worksheets/sheet1.xml", (xml) =>
        xml.replace(/(<c r="B2"[^>]*)><v>60<\/v><\/c>/, "$1/>"),
      );
      expect(sheetXml(bytes, 1)).toMatch(/<c r="B2" s="\d+"\/><c r="C2"/);
      const { accepted } = await outcomesFromXlsx(bytes, trial);
      expect(accepted.map((o) => [o.residueFraction, o.lightness])).toEqual([[0.05, null]]);
    }
  });

  it("refuses the error of a formula and a date instead of reading an empty cell or a number", async () => {
    const plain = await writeXlsxFile([
      ["patch", "residue_percent", "metalCondition"],
      [2, 77, 0],
      [3, { value: new Date(Date.UTC(2026, 0, 5)), type: Date, format: "mm/dd/yyyy" }, 0],
    ]).toBuffer();
    const bytes = patched(plain, "xl/worksheets/sheet1.xml", (xml) =>
      xml.replace(/<c r="B2"[^>]*><v>77<\/v>/, '<c r="B2" t="e"><f>1/0</f><v>#DIV/0!</v>'),
    );
    const { accepted, refused } = await outcomesFromXlsx(bytes, trial);
    expect(accepted).toEqual([]);
    expect(refused.map((r) => r.message)).toEqual([
      expect.stringMatching(/^invalid residue_percent: #DIV\/0!/),
      expect.stringMatching(/^invalid residue_percent: 2026-01-05/),
    ]);
  });

  it("reads the filled run sheet out of a workbook, and not two sheets at once", async () => {
    const sheet = runSheetTable(trial, setup);
    const column = sheet.columns.findIndex((c) => c.name === "residue_percent");
    const filled: Table = {
      ...sheet,
      rows: sheet.rows.map((row, i) => (i < 3 ? row.map((c, x) => (x === column ? 10 * i : c)) : row)),
    };
    const { accepted, refused } = await outcomesFromXlsx(await tablesToXlsx([settingsTable(wire), filled]), trial);
    expect(accepted.map((o) => o.residueFraction)).toEqual([0, 0.1, 0.2]);
    expect(refused).toHaveLength(sheet.rows.length - 3);
    const both = await tablesToXlsx([filled, outcomesTable(outcomes)]);
    await expect(outcomesFromXlsx(both, trial)).rejects.toThrow(
      "invalid outcomes file: Run sheet, Outcomes (outcomes stand on more than one sheet; keep them on one)",
    );
    const empty = await tablesToXlsx([sheet, outcomesTable(outcomes)]);
    expect((await outcomesFromXlsx(empty, trial)).accepted).toHaveLength(outcomes.length);
  });

  it("says in one line what is no workbook", async () => {
    const none = (bytes: Uint8Array) => outcomesFromXlsx(bytes, trial);
    await expect(none(strToU8("patch,residue_percent\n1,2"))).rejects.toThrow(/^invalid outcomes file: .*no zip arch/);
    await expect(none(zipSync({ "a.txt": strToU8("a") }))).rejects.toThrow(
      "invalid outcomes file: a zip archive (is no XLSX workbook)",
    );
    await expect(none(await book([["power"], [1]]))).rejects.toThrow(/no sheet has the column patch/);
    const whole = await book([["patch", "residue_percent"]]);
    await expect(none(whole)).rejects.toThrow("invalid outcomes file: header only (must have at least one row)");
    await expect(none(whole.subarray(0, whole.length - 30))).rejects.toThrow(/^invalid outcomes file: /);
    const torn = patched(whole, "xl/workbook.xml", () => "<workbook");
    await expect(none(torn)).rejects.toThrow(/^invalid outcomes file: /);
  });

  it("passes over formatted rows at the end of a sheet, and refuses a cell that lies beyond all reason", async () => {
    const whole = await book([
      ["patch", "residue_percent"],
      [2, 5],
    ]);
    const withRow = (row: string) =>
      patched(whole, "xl/worksheets/sheet1.xml", (xml) => xml.replace("</sheetData>", `${row}</sheetData>`));
    const formatted = withRow('<row r="1048575"/><row r="1048576" s="1"><c r="A1048576" s="0"/></row>');
    expect((await outcomesFromXlsx(formatted, trial)).accepted).toHaveLength(1);
    for (const row of [
      '<row r="3"><c r="ZZ3"><v>1</v></c></row><row r="9000"><c r="ZZ9000"><v>1</v></c></row>',
      '<row r="3"><c r="XFD3"><v>1</v></c></row>',
      '<row r="999999"><c r="A999999"><v>1</v></c></row>',
      "<row r='999999' ><c r = 'A999999'><v>1</v></c></row>",
      '<row ht=">" r="999999"><c r="A999999"><v>1</v></c></row>',
    ])
      await expect(outcomesFromXlsx(withRow(row), trial), row).rejects.toThrow(
        /^invalid outcomes file: \d+ rows, \d+ columns \(at most /,
      );
    const parts = unzipSync(withRow('<row r="999999"><c r="A999999"><v>1</v></c></row>'));
    const elsewhere = Object.entries(parts).map(([path, bytes]) => [
      path.replace("worksheets/sheet1.xml", "pages/one.xml"),
      path.endsWith(".rels") || path.endsWith("Types].xml")
        ? strToU8(strFromU8(bytes).replace("worksheets/sheet1.xml", "pages/one.xml"))
        : bytes,
    ]);
    await expect(outcomesFromXlsx(zipSync(Object.fromEntries(elsewhere)), trial)).rejects.toThrow(/999999 rows/);
    for (const place of ["1e15", "90000000000000000000", "&#57;e15", "-3"])
      await expect(
        outcomesFromXlsx(withRow(`<row r="${place}"><c r="A3"><v>1</v></c></row>`), trial),
        place,
      ).rejects.toThrow(/^invalid outcomes file: .* \(is no place on a sheet\)$/);
  });

  it("refuses a small file whose cells share one long text", async () => {
    const long = "x".repeat(30_000);
    const rows = Array.from({ length: 1000 }, (_, i) => [i, 5, long]);
    const bytes = await book([["patch", "residue_percent", "note"], ...rows]);
    expect(bytes.length).toBeLessThan(100_000);
    await expect(outcomesFromXlsx(bytes, trial)).rejects.toThrow(
      "invalid outcomes file: over 20 MB (at most 20 MB of text are read)",
    );
  });

  it("is quick to refuse cells and rows that never end", async () => {
    const whole = await book([["patch", "residue_percent"]]);
    const endless = patched(
      whole,
      "xl/worksheets/sheet1.xml",
      () => `<worksheet><sheetData>${"<row><c>".repeat(300_000)}`,
    );
    await expect(outcomesFromXlsx(endless, trial)).rejects.toThrow(/^invalid outcomes file: /);
    const openTags = patched(whole, "xl/worksheets/sheet1.xml", () => `<sheetData>${"<c ".repeat(300_000)}`);
    await expect(outcomesFromXlsx(openTags, trial)).rejects.toThrow(/^invalid outcomes file: /);
    const quotes = patched(whole, "xl/worksheets/sheet1.xml", () => `<sheetData>${"<row a=\"' ".repeat(300_000)}`);
    await expect(outcomesFromXlsx(quotes, trial)).rejects.toThrow(/^invalid outcomes file: /);
    const styles = patched(whole, "xl/styles.xml", () => `<styleSheet>${"<cellXfs>".repeat(300_000)}`);
    expect((await outcomesFromXlsx(styles, trial).catch((e: Error) => e)) as Error).toBeInstanceOf(Error);
  }, 20_000);
});
