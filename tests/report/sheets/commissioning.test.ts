import { buildCommissioningSheet, type Cell } from "#report";
import { describe, expect, it } from "vitest";
import { commissioningInput, setting } from "./fixture.ts";
import { blockOf } from "./sheet-text.ts";

const sheet = buildCommissioningSheet(commissioningInput);
const shown = (rows: readonly (readonly Cell[])[]): string[][] =>
  rows.map((row) =>
    row.map((cell) => (cell.kind === "text" ? cell.words : cell.kind === "tick" ? "☐" : `_${cell.unit}`)),
  );

describe("commissioning sheet", () => {
  it("puts the expected power and its limits beside each blank", () => {
    expect(shown(blockOf(sheet, "power", "table").rows)).toEqual([
      ["50 %", "100 W", "95 to 105 W", "_W", "_W", "_W", "☐"],
      ["90 %", "180 W", "171 to 189 W", "_W", "_W", "_W", "☐"],
      ["100 %", "200 W", "190 to 210 W", "_W", "_W", "_W", "☐"],
    ]);
    const german = shown(blockOf(buildCommissioningSheet(commissioningInput, "de"), "power", "table").rows);
    expect(german[1]!.slice(0, 3)).toEqual(["90 %", "180 W", "171 bis 189 W"]);
  });

  it("leaves a limit to the approver where no tolerance was handed in, and refuses a silly one", () => {
    const open = buildCommissioningSheet({ ...commissioningInput, powerTolerance: null });
    expect(shown(blockOf(open, "power", "table").rows)[0]![2]).toBe("to be set by the approver");
    expect(() => buildCommissioningSheet({ ...commissioningInput, powerTolerance: 0.6 })).toThrow(
      "invalid power tolerance: 0.6 (must be 0 to 0.5)",
    );
  });

  it("works out the spot at each height: d0·√(1 + (z/z_R)²), with limits", () => {
    const rows = shown(
      blockOf(buildCommissioningSheet({ ...commissioningInput, spotTolerance: 0.1 }), "focus-burn", "table").rows,
    );
    const lens = commissioningInput.setup.lenses.find(({ id }) => id === setting.lens)!;
    expect(rows).toHaveLength(5);
    for (const [height, spot, limits] of rows) {
      const z = Number(height!.replace("−", "-").replace(" mm", "")) * 1e-3;
      const expected = 1e6 * lens.spotDiameter * Math.sqrt(1 + (z / lens.rayleighLength) ** 2);
      expect(Math.abs(Number(spot!.replace(" µm", "")) - expected)).toBeLessThan(0.51);
      expect(Math.abs(Number(limits!.split(" ")[0]) - 0.9 * expected)).toBeLessThan(0.51);
      expect(Math.abs(Number(limits!.split(" ")[2]) - 1.1 * expected)).toBeLessThan(0.51);
    }
    expect(rows[2]![0]).toBe("0 mm");
    const flat = { ...commissioningInput.setup, defocusMax: 0.005 };
    expect(
      blockOf(buildCommissioningSheet({ ...commissioningInput, setup: flat }), "focus-burn", "table").rows,
    ).toHaveLength(3);
  });

  it("lists the verification patches: what changes in the table, what does not once above it", () => {
    const table = blockOf(sheet, "verification", "table");
    expect(table.columns.map(({ key }) => key)).toEqual([
      "patch",
      "level_percent",
      "expect",
      "residue_percent",
      "metalCondition",
      "passed",
    ]);
    expect(shown(table.rows)).toEqual([
      ["V1 to V3", "90", "clean and undamaged", "_", "_", "☐"],
      ["V4", "50", "residue left: the edge is where it was", "_", "_", "☐"],
    ]);
    expect(blockOf(sheet, "verification", "strip").rows.map(({ name }) => name)).toContain("speed");
    expect(table.caption).toContain("residue at most 2 % of the area; metal condition at most 1, discoloured");
    expect(() => buildCommissioningSheet({ ...commissioningInput, verification: [] })).toThrow(
      "invalid verification patches: 0 (at least one is wanted)",
    );
    const beyond = [{ label: "V9", setting: { ...setting, speed: 1e3 }, mustShow: "" }];
    expect(() => buildCommissioningSheet({ ...commissioningInput, verification: beyond })).toThrow(/^invalid speed: /);
  });

  it("has every limit of the acceptance in the first article", () => {
    const rows = shown(blockOf(sheet, "first-article", "table").rows);
    expect(rows.map((row) => row[2])).toEqual([
      "at most 2 %",
      "at most 1, discoloured",
      "at most 150 °C",
      "at least 5 MPa",
      "at most 20 mg/m²",
      "at most 5 µm",
    ]);
    for (const row of rows) expect(row.slice(3)).toEqual(["_", "☐"]);
  });

  it("leaves how often open unless it was handed in", () => {
    const usual = shown(blockOf(sheet, "recheck", "table").rows);
    expect(usual).toHaveLength(6);
    for (const row of usual) expect(row.slice(1)).toEqual(["_", "_", "_"]);
    const rechecks = [{ what: "power at the work", interval: "shift", limits: "171 to 189 W" }];
    const own = buildCommissioningSheet({ ...commissioningInput, rechecks });
    expect(shown(blockOf(own, "recheck", "table").rows)).toEqual([["power at the work", "shift", "171 to 189 W", "_"]]);
  });

  it("has as many lines for operators as asked, and marks an unproven setting", () => {
    expect(blockOf(sheet, "trained", "table").rows).toHaveLength(4);
    expect(() => buildCommissioningSheet({ ...commissioningInput, operatorLines: 0 })).toThrow(
      "invalid operator lines: 0",
    );
    const trial = buildCommissioningSheet({ ...commissioningInput, footing: { kind: "predicted" } });
    expect(trial.marks).toContain("Not proven: for trial only");
    expect(blockOf(trial, "signatures", "text").words).toContain("this sheet releases no production");
    expect(blockOf(sheet, "signatures", "text").words).toContain("production may begin once all have signed");
    expect(trial.footer).toContain("the cautions on page 1 hold here too");
  });
});
