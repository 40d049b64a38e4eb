import type { SurveyWire, VerdictWire } from "#contract";
import { settingCells, settingColumns } from "./setting-cells.ts";
import { type Cell, type Column, numbers, rowOf, type Table, texts } from "./table.ts";

const dose = "J_per_cm2";
const edgeColumns = ["removalEdge", "damageEdge"].flatMap((edge) =>
  ["Low", "Median", "High"].map((point) => `${edge}${point}_${dose}`),
);

const columns: readonly Column[] = [
  ...texts("laser", "name", "kind", "delivery", "windowExists", "shortfall"),
  ...numbers("areaRate_m2_per_h", "sureness", "meanPower_W"),
  ...settingColumns,
  ...texts("edgesAre"),
  ...numbers(...edgeColumns, `reachLow_${dose}`, `reachHigh_${dose}`, `best_${dose}`),
  ...texts("reason"),
];

function edgeCells(name: string, edge: VerdictWire["bar"]["removalEdge_J_per_cm2"]): Record<string, Cell> {
  if (edge === null) return {};
  return {
    [`${name}Low_${dose}`]: edge.low,
    [`${name}Median_${dose}`]: edge.median,
    [`${name}High_${dose}`]: edge.high,
  };
}

/** Every laser set-up on one part, one row each in the order of the survey (best first). */
export function comparisonTable(survey: SurveyWire): Table {
  const rows = survey.verdicts.map(({ bar, best, windowExists, ...same }) =>
    rowOf(columns, {
      laser: same.laser,
      name: same.name,
      kind: same.kind,
      delivery: same.delivery,
      windowExists: windowExists ? "yes" : "no",
      shortfall: same.shortfall,
      areaRate_m2_per_h: same.areaRate_m2_per_h,
      sureness: same.sureness,
      meanPower_W: same.meanPower_W,
      ...settingCells(best?.setting ?? null),
      edgesAre: bar.axis === "fluence" ? "peak fluence" : "areal dose of one pass",
      ...edgeCells("removalEdge", bar.removalEdge_J_per_cm2),
      ...edgeCells("damageEdge", bar.damageEdge_J_per_cm2),
      [`reachLow_${dose}`]: bar.reachLow_J_per_cm2,
      [`reachHigh_${dose}`]: bar.reachHigh_J_per_cm2,
      [`best_${dose}`]: bar.best_J_per_cm2,
      reason: same.reason,
    }),
  );
  return { name: "comparison", title: "Comparison", columns, rows };
}
