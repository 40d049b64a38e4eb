import { at, axisOf, tickText, ticks } from "./axis.ts";
import { label, wrapText } from "./lettering.ts";
import { paperTheme } from "./palette.ts";
import { picture, type PictureOptions } from "./picture.ts";
import { element } from "./xml.ts";

/** One bar; `value` is null where nothing is known, and then the words in `text` say so. */
export interface ComparisonRow {
  readonly label: string;
  readonly value: number | null;
  readonly low?: number | null;
  readonly high?: number | null;
  /** the value as it is read, with its unit */
  readonly text: string;
  readonly emphasised?: boolean;
}

export interface ComparisonBarsOptions extends PictureOptions {
  readonly width?: number;
  /** name of the quantity with its unit, under the axis */
  readonly axisName: string;
}

/** Plain horizontal bars from zero, with a whisker where a spread is known. */
export function comparisonBarsSvg(rows: readonly ComparisonRow[], options: ComparisonBarsOptions): string {
  const theme = options.theme ?? paperTheme;
  const id = options.id ?? "bars";
  const width = options.width ?? 680;
  const rowHeight = 26;
  const largest = Math.max(...rows.flatMap((r) => [r.value ?? 0, r.high ?? 0]), 0);
  const axis = axisOf(0, largest > 0 ? largest * 1.02 : 1, 190, width - 130, false);
  const bottom = rows.length * rowHeight + 6;
  const parts = ticks(axis, 5).map((value) => {
    const x = at(axis, value);
    return (
      element("line", { x1: x, x2: x, y1: 2, y2: bottom + 4, stroke: theme.faint }) +
      label(x, bottom + 17, tickText(value), 11, theme.muted, { "text-anchor": "middle" })
    );
  });
  for (const [i, row] of rows.entries()) {
    const middle = i * rowHeight + rowHeight / 2 + 3;
    const name = wrapText(row.label, 12, 180)[0] ?? "";
    parts.push(label(0, middle + 4, name, 12, theme.ink));
    parts.push(label(width - 122, middle + 4, row.text, 12, theme.ink));
    if (row.value === null) continue;
    const x = at(axis, row.value);
    const fill = row.emphasised === true ? theme.accent : theme.line;
    const barWidth = Math.max(x - axis.from, 1);
    parts.push(element("rect", { x: axis.from, y: middle - 7, width: barWidth, height: 14, fill }));
    if (typeof row.low === "number" && typeof row.high === "number") {
      const [from, to] = [at(axis, row.low), at(axis, row.high)];
      const d = `M${from} ${middle - 4}v8M${from} ${middle}H${to}M${to} ${middle - 4}v8`;
      parts.push(element("path", { d, stroke: theme.ink, "stroke-width": 1.3, fill: "none" }));
    }
  }
  parts.push(
    label((axis.from + axis.to) / 2, bottom + 34, options.axisName, 11, theme.muted, { "text-anchor": "middle" }),
  );
  return picture(
    {
      id,
      title: options.title ?? options.axisName,
      description: options.description ?? rows.map((r) => `${r.label}: ${r.text}`).join("; "),
      width,
      height: bottom + 42,
      unit: "",
      background: theme.paper,
    },
    ...parts,
  );
}
