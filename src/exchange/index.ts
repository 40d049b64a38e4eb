export { cautionsTable, lastCaution } from "./tables/cautions-table.ts";
export { comparisonTable } from "./tables/comparison-table.ts";
export { settingsTable } from "./tables/settings-table.ts";
export type { Cell, Column, Table } from "./tables/table.ts";
export { tableToCsv } from "./tables/table-csv.ts";
export { outcomesTable, runSheetTable } from "./tables/trial-tables.ts";
export { windowMapTable } from "./tables/window-map-table.ts";
export { outcomesFromXlsx } from "./workbook/outcomes-xlsx.ts";
export { tablesToXlsx } from "./workbook/write-workbook.ts";
