import { runSheetCsv } from "#contract";
import { buildRunSheet, type Cell, type RunSheetInput } from "#report";
import { describe, expect, it } from "vitest";
import { continuousSetting, continuousSetup, longPart, runInput, setting } from "./fixture.ts";
import { blockOf, blocksOf } from "./sheet-text.ts";

const wanted = runInput.acceptance.tests.map(({ kind }) => kind);
const words = (cell: Cell): string => (cell.kind === "text" ? cell.words.replace(/^−/, "-") : "");

/** The file as rows of columns by name; none of its cells holds a comma. */
function fileRows(input: RunSheetInput): Record<string, string>[] {
  const [header, ...lines] = runSheetCsv(input.trial, input.setup, wanted).trim().split("\r\n");
  const names = header!.split(",");
  return lines.map((line) => Object.fromEntries(line.split(",").map((cell, k) => [names[k]!, cell])));
}

/** What the paper says of each patch by the names of the file, what is said once included. */
function paperRows(input: RunSheetInput): { settings: Record<string, string>; patch: string }[] {
  const sheet = buildRunSheet(input);
  const table = blockOf(sheet, "order", "table");
  const units: Record<string, string> = {
    power: "power_W",
    level: "level_percent",
    frequency: "frequency_kHz",
    "pulse width": "pulseWidth_ns",
    duty: "duty_percent",
    speed: "speed_mm_per_s",
    spacing: "lineSpacing_mm",
    passes: "passes",
    defocus: "defocus_mm",
    lens: "lens",
  };
  const same = blockOf(sheet, "same", "strip")
    .rows.slice(1)
    .map(({ name, value }): [string, string] => [
      units[name]!,
      name === "lens" ? words(value) : words(value).split(" ")[0]!.replace(/^−/, "-"),
    ]);
  return table.rows.map((row) => {
    const own = table.columns.map(({ key }, k): [string, string] => [key, words(row[k]!)]);
    return { settings: Object.fromEntries([...same, ...own]), patch: words(row[2]!) };
  });
}

const dash = (cell: string | undefined): string => (cell === undefined || cell === "" ? "–" : cell);
const settingKeys = [
  "power_W",
  "level_percent",
  "frequency_kHz",
  "speed_mm_per_s",
  "lineSpacing_mm",
  "passes",
  "defocus_mm",
  "lens",
];

function expectAgreement(input: RunSheetInput, keys: readonly string[]): void {
  const file = fileRows(input);
  const paper = paperRows(input);
  expect(paper).toHaveLength(file.length);
  file.forEach((row, k) => {
    const { settings } = paper[k]!;
    expect(settings.runOrder).toBe(dash(row.runOrder));
    for (const key of ["patch", "couponLabel"]) expect(settings[key]).toBe(row[key]);
    expect(settings.wait_s).toBe(row.wait_s === "0" ? "–" : dash(row.wait_s));
    // a patch that is not burned has no setting; what all share is said of the burned ones
    if (row.power_W !== "") for (const key of keys) expect([key, settings[key]]).toEqual([key, dash(row[key])]);
  });
}

/** A trial on a continuous set-up in which every value changes from patch to patch. */
function changing(): RunSheetInput {
  let k = 0;
  const patches = runInput.trial.patches.map((patch) =>
    patch.setting === null
      ? patch
      : {
          ...patch,
          setting: {
            ...continuousSetting,
            power: 1000.1 + ++k,
            level: 0.5 + 0.011 * k,
            speed: 1 + 0.0137 * k,
            lineSpacing: 1.03e-4 + 1e-6 * k,
            passes: 1 + (k % 2),
            defocus: -1e-4 * k,
            ...(k % 3 === 0 ? { duty: 1, frequency: null } : { duty: 0.5 + 0.01 * (k % 2), frequency: 4987 + k }),
          },
        },
  );
  const input = { ...runInput, setup: continuousSetup, trial: { ...runInput.trial, patches } };
  return input;
}

describe("coupon run sheet", () => {
  it("agrees with the run sheet file in order, place, waits and every figure", () => {
    expectAgreement(runInput, [...settingKeys, "pulseWidth_ns"]);
  });

  it("agrees where every value changes, on a continuous beam, unmodulated ones among them", () => {
    const input = changing();
    expectAgreement(input, [...settingKeys, "duty_percent"]);
    expect(blockOf(buildRunSheet(input), "same", "strip").rows.map(({ name }) => name)).toEqual([
      "laser set-up",
      "lens",
    ]);
  });

  it("has a box to tick for each patch to burn, and a blank for each reading wanted", () => {
    const table = blockOf(buildRunSheet(runInput), "order", "table");
    const keys = table.columns.map(({ key }) => key);
    expect(keys.slice(-7)).toEqual([
      "residue_percent",
      "metalCondition",
      "temperature_degC",
      "test:pull-off",
      "test:salts",
      "test:dimension-loss",
      "note",
    ]);
    const first = keys.indexOf("residue_percent");
    for (const row of table.rows) expect(row.slice(first, -1).every(({ kind }) => kind === "blank")).toBe(true);
    expect(table.rows.filter((row) => row[1]!.kind === "tick")).toHaveLength(23);
    expect(words(table.rows.at(-1)!.at(-1)!)).toBe("leave untouched");
    expect(table.caption).toContain(
      "22 patches to burn, 1 to clean by another way (ref.), 1 to leave untouched (keep)",
    );
    expect(table.columns.find(({ key }) => key === "test:pull-off")!.unit).toBe("at least 5 MPa");
    const { acceptance } = runInput;
    const plain = buildRunSheet({ ...runInput, acceptance: { ...acceptance, metalTemperatureMax: null, tests: [] } });
    expect(blockOf(plain, "order", "table").columns.map(({ key }) => key)).not.toContain("temperature_degC");
  });

  it("gives the tests a table of their own where one table would be too narrow to read", () => {
    const wide = changing();
    const tests = longPart.acceptance.tests;
    const sheet = buildRunSheet({ ...wide, acceptance: longPart.acceptance });
    const order = blockOf(sheet, "order", "table");
    expect(order.columns.map(({ key }) => key).filter((key) => key.startsWith("test:"))).toEqual([]);
    const readings = blockOf(sheet, "tests", "table");
    expect(readings.columns.map(({ key }) => key)).toEqual([
      "runOrder",
      "patch",
      "couponLabel",
      ...tests.map(({ kind }) => `test:${kind}`),
      "note",
    ]);
    const column = (rows: readonly (readonly Cell[])[], k: number) => rows.map((row) => words(row[k]!));
    expect(column(readings.rows, 0)).toEqual(column(order.rows, 0));
    expect(column(readings.rows, 1)).toEqual(column(order.rows, 2));
    expect(readings.rows.every((row) => row.length === readings.columns.length)).toBe(true);
    expect(order.rows.every((row) => row.length === order.columns.length)).toBe(true);
  });

  it("draws each coupon with the patches where the plan has them", () => {
    const sketches = blocksOf(buildRunSheet(runInput)).flatMap((block) =>
      block.kind === "sketch" ? [block.coupon] : [],
    );
    expect(sketches.map(({ label, patches }) => [label, patches.length])).toEqual([
      ["A", 12],
      ["B", 12],
    ]);
    for (const patch of runInput.trial.patches)
      expect(sketches[patch.coupon - 1]!.patches).toContainEqual(
        expect.objectContaining({ patch: patch.patch, x: patch.x, y: patch.y, width: patch.width }),
      );
    expect(sketches[1]!.patches.at(-1)).toMatchObject({ under: "keep", reference: true });
  });

  it("says that nothing on it is released, carries cautions, and refuses what cannot be burned", () => {
    const sheet = buildRunSheet(runInput, "de");
    expect(blockOf(sheet, "trial-only", "banner").words).toContain("nur für den Versuch");
    expect(blockOf(sheet, "cautions", "box").notices).toHaveLength(1);
    expect(() => buildRunSheet({ ...runInput, trial: { ...runInput.trial, patches: [] } })).toThrow(
      "invalid patches: 0 (trial T-014 has none to burn)",
    );
    const [first, ...others] = runInput.trial.patches;
    const wrong = { ...first!, setting: { ...setting, power: 900 } };
    expect(() => buildRunSheet({ ...runInput, trial: { ...runInput.trial, patches: [wrong, ...others] } })).toThrow(
      /^invalid power: 900 W/,
    );
  });
});
