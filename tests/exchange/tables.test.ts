import { describe, expect, it } from "vitest";
import { outcomesToCsv, runSheetCsv } from "#contract";
import {
  cautionsTable,
  comparisonTable,
  lastCaution,
  outcomesTable,
  runSheetTable,
  settingsTable,
  type Table,
  tableToCsv,
  windowMapTable,
} from "#exchange";
import { outcomes, setup, trial, wire } from "./examples.ts";
import { setting, survey, window } from "./survey-wire.ts";

const at = (table: Table, row: number, column: string) =>
  table.rows[row]![table.columns.findIndex((c) => c.name === column)];

describe("tables of a trial", () => {
  it("are the product's own CSV, cell by cell", () => {
    expect(tableToCsv(runSheetTable(trial, setup, ["pull-off"]))).toBe(runSheetCsv(trial, setup, ["pull-off"]));
    expect(tableToCsv(outcomesTable(outcomes))).toBe(outcomesToCsv(outcomes));
  });

  it("hold numbers as numbers and words as words, even a grader called 7", () => {
    const table = outcomesTable([{ ...outcomes[0]!, grader: "7", note: "-40 °C outside" }]);
    expect(at(table, 0, "residue_percent")).toBeCloseTo(100 * outcomes[0]!.residueFraction!, 9);
    expect(at(table, 0, "grader")).toBe("7");
    expect(at(table, 0, "note")).toBe("-40 °C outside");
    expect(at(table, 0, "temperature_degC")).toBeNull();
    const sheet = runSheetTable(trial, setup);
    const first = trial.patches.find((p) => p.runOrder === 1)!;
    expect(at(sheet, 0, "patch")).toBe(first.patch);
    expect(at(sheet, 0, "power_W")).toBeCloseTo(first.setting!.power, 9);
    expect(at(sheet, 0, "laser")).toBe("pulsed-500");
  });
});

describe("settings", () => {
  it("lists the recommended one, the next and every planned one with the laser", () => {
    const table = settingsTable(wire, window);
    const planned = wire.patches.filter((p) => p.setting !== null);
    expect(table.rows).toHaveLength(2 + planned.length);
    expect(at(table, 0, "use")).toBe("recommended, not proven");
    expect(at(table, 0, "level_percent")).toBe(7);
    expect(at(table, 0, "duty_percent")).toBe(100);
    expect(at(table, 0, "defocus_mm")).toBe(-1.5);
    expect(at(table, 0, "probabilityBoth")).toBe(0.86);
    expect(at(table, 1, "why")).toBe("near the edge");
    expect(at(table, 1, "patch")).toBeNull();
    expect(at(table, 2, "patch")).toBe(planned[0]!.patch);
    expect(at(table, 2, "speed_mm_per_s")).toBe(planned[0]!.setting!.speed_mm_per_s);
    expect(at(table, 2, "probabilityClean")).toBe(planned[0]!.predictedClean);
    expect(at(table, 2, "probabilityUndamaged")).toBe(planned[0]!.predictedUndamaged);
    expect(at(table, 0, "probabilityUndamaged")).toBe(0.95);
    expect(at(table, 1, "probabilityUndamaged")).toBe(0.6);
    expect(new Set(table.rows.map((_, i) => at(table, i, "laser")))).toEqual(new Set(["pulsed-500"]));
    expect(settingsTable(wire).rows).toHaveLength(planned.length);
  });
});

describe("comparison", () => {
  it("has a row for each set-up, with its best setting and its edges", () => {
    const table = comparisonTable(survey);
    expect(table.rows).toHaveLength(1);
    expect(at(table, 0, "laser")).toBe("pulsed-100");
    expect(at(table, 0, "power_W")).toBe(setting.power_W);
    expect(at(table, 0, "removalEdgeMedian_J_per_cm2")).toBe(1.5);
    expect(at(table, 0, "removalEdgeHigh_J_per_cm2")).toBe(2);
    expect(at(table, 0, "damageEdgeLow_J_per_cm2")).toBeNull();
    expect(at(table, 0, "reachHigh_J_per_cm2")).toBe(10);
    expect(at(table, 0, "reason")).toBe("=HYPERLINK(1)");
    expect(tableToCsv(table)).toContain(",'=HYPERLINK(1)\r\n");
  });
});

describe("window map", () => {
  it("puts every grid point on a line, y outer, in the units of its axes", () => {
    const table = windowMapTable(window)!;
    expect(table.columns.map((c) => c.name).slice(0, 2)).toEqual(["power (W)", "speed (mm/s)"]);
    expect(table.rows.map((r) => [r[0], r[1], r[2]])).toEqual([
      [10, 100, 0.1],
      [20, 100, 0.2],
      [30, 100, 0.3],
      [10, 200, 0.4],
      [20, 200, 0.5],
      [30, 200, 0.6],
    ]);
    expect(table.rows.map((r) => r[3])).toEqual([0.9, 0.8, 0.7, 0.6, 0.5, 0.4]);
    expect(table.rows.map((r) => r[4])).toEqual(["no", "no", "no", "yes", "no", "no"]);
    expect(table.rows.map((r) => r[5])).toEqual(["no", "no", "yes", "no", "no", "no"]);
    expect(windowMapTable({ ...window, map: null })).toBeNull();
  });
});

describe("cautions", () => {
  it("stand each once, and never none", () => {
    expect(cautionsTable(["a", "b", "a"]).rows).toEqual([["a"], ["b"], [lastCaution]]);
    expect(cautionsTable([]).rows).toEqual([[lastCaution]]);
  });
});
