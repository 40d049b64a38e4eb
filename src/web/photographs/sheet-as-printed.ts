import type { SheetAsPrinted } from "./protocol.ts";

/** The fields of the sheet as a person typed them. */
export interface SheetTyped {
  /** mm, as typed */
  readonly ruler: string;
  readonly greys: string;
}

/** What was typed of the frame sheet, read; the name of a field where it does not fit. */
export type SheetRead = SheetAsPrinted | { readonly wrong: "ruler" | "greys" };

const numberOf = (text: string): number => Number(text.trim().replace(",", "."));

/** nominal: mm of the ruler as drawn. An empty field means a sheet printed at 100 %, and greys that nobody measured. */
export function sheetAsPrinted({ ruler, greys }: SheetTyped, nominal: number): SheetRead {
  const printScale = ruler.trim() === "" ? 1 : numberOf(ruler) / nominal;
  if (!(printScale >= 0.9 && printScale <= 1.1)) return { wrong: "ruler" };
  if (greys.trim() === "") return { printScale, greys: null };
  // A comma may be a decimal one: what parts the numbers is a space or a semicolon.
  const steps = greys
    .trim()
    .split(/[\s;]+/)
    .map(numberOf);
  const rising = steps.every((v, k) => v >= 0 && v <= 100 && (k === 0 || v > steps[k - 1]!));
  return steps.length === 7 && rising ? { printScale, greys: steps } : { wrong: "greys" };
}
