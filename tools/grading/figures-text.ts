import type { errorsOf } from "./survey-figures.ts";

export type Errors = ReturnType<typeof errorsOf>;

const number = (value: number | null, digits: number): string => (value === null ? "-" : value.toFixed(digits));

/** What of the errors is printed: head, figure, digits. */
const columns: readonly (readonly [string, keyof Errors, number])[] = [
  ["patches", "patches", 0],
  ["L* mean", "lightnessMean", 2],
  ["L* MAE", "lightnessMae", 2],
  ["L* p95", "lightnessP95", 2],
  ["unflagged", "lightnessP95Unflagged", 2],
  ["flagged", "flagged", 2],
  ["L* held", "lightnessHeld", 2],
  ["glare p95", "glareP95", 2],
  ["res. mean", "residueMean", 3],
  ["res. MAE", "residueMae", 3],
  ["res. p95", "residueP95", 3],
  ["res. held", "residueHeld", 2],
  ["melt AUC", "meltAuc", 2],
];

const wide = 32;

export const head = (): string => ["".padEnd(wide), ...columns.map(([name]) => name.padStart(10))].join("");

export const line = (name: string, errors: Errors): string =>
  [name.padEnd(wide), ...columns.map(([, key, digits]) => number(errors[key], digits).padStart(10))].join("");
