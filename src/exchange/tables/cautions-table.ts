import { type Table, texts } from "./table.ts";

/** Stands under every list of cautions, and alone where there is none. */
export const lastCaution =
  "Class 4 lasers, fume and fire can maim: every figure here is an aid, local law and the laser safety officer decide.";

/** The cautions, each once: they go wherever settings go. */
export function cautionsTable(cautions: readonly string[]): Table {
  const lines = [...new Set([...cautions, lastCaution])];
  return { name: "cautions", title: "Cautions", columns: texts("caution"), rows: lines.map((line) => [line]) };
}
