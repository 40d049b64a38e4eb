import { label, wrapText } from "./lettering.ts";
import type { Theme } from "./palette.ts";
import { element } from "./xml.ts";

/** Words for what lies between two heights. */
export interface LetterRow {
  readonly from: number;
  readonly to: number;
  readonly words: string;
  readonly bold: boolean;
}

const size = 12;
const lineHeight = 15;
const gap = 4;

/** Words beside a column, each with a leader to its middle; moved down where they would run into each other. */
export function letterRows(
  rows: readonly LetterRow[],
  place: { readonly rail: number; readonly width: number },
  theme: Theme,
): { readonly svg: string; readonly bottom: number } {
  let free = 0;
  const parts: string[] = [];
  const textLeft = place.rail + 28;
  for (const row of rows) {
    const lines = wrapText(row.words, size, place.width - 4);
    const middle = (row.from + row.to) / 2;
    const height = lines.length * lineHeight;
    const top = Math.max(middle - height / 2, free);
    free = top + height + gap;
    const d = `M${place.rail} ${middle}H${place.rail + 8}L${place.rail + 20} ${top + height / 2}H${place.rail + 25}`;
    parts.push(element("path", { d, stroke: theme.muted, "stroke-width": 0.8, fill: "none" }));
    for (const [i, text] of lines.entries())
      parts.push(
        label(textLeft, top + i * lineHeight + 11, text, size, theme.ink, row.bold ? { "font-weight": "bold" } : {}),
      );
  }
  return { svg: element("g", {}, ...parts), bottom: free };
}
