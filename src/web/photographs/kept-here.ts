import type { KeptHere } from "./protocol.ts";
import type { SheetTyped } from "./sheet-as-printed.ts";

const nothing: KeptHere = { pending: [], refused: [] };
const read = (key: string): unknown => {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "null");
  } catch {
    return null;
  }
};
/** Storage may be full or forbidden; then the copy in the page is all there is. */
const write = (key: string, value: unknown): void => {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    return;
  }
};

const keptKey = (trialId: string): string => `scourlight.photographs.${trialId}`;
const sheetKey = (trialId: string): string => `scourlight.sheet.${trialId}`;
const graderKey = "scourlight.grader";

export function readKept(trialId: string): KeptHere {
  const kept = read(keptKey(trialId));
  return typeof kept === "object" && kept !== null && "pending" in kept && "refused" in kept
    ? (kept as KeptHere)
    : nothing;
}

export const keepHere = (trialId: string, kept: KeptHere): void => write(keptKey(trialId), kept);

export function readSheet(trialId: string): SheetTyped {
  const kept = read(sheetKey(trialId));
  return typeof kept === "object" && kept !== null && "ruler" in kept && "greys" in kept
    ? (kept as SheetTyped)
    : { ruler: "", greys: "" };
}

export const keepSheet = (trialId: string, sheet: SheetTyped): void => write(sheetKey(trialId), sheet);

export function readGrader(): string {
  const name = read(graderKey);
  return typeof name === "string" ? name : "";
}

export const keepGrader = (name: string): void => write(graderKey, name);
