import { fromSI } from "#units";
import type { SourceKind, TwoEdgeBar } from "#terms";
import { at, type Axis, axisOf, tickText, ticks } from "./axis.ts";
import { fitText, label, wrapText } from "./lettering.ts";
import { paperTheme, type Theme } from "./palette.ts";
import { hatch, picture, type PictureOptions } from "./picture.ts";
import { barRow, type RowPlace } from "./two-edge-row.ts";
import { axisNames, barRange, barSentence } from "./two-edge-axis.ts";
import { element } from "./xml.ts";

/** One row of the drawing: a set-up with its bar and a short note in words. */
export interface LabelledBar {
  readonly label: string;
  readonly kind: SourceKind;
  readonly bar: TwoEdgeBar;
  readonly note: string;
}

export interface TwoEdgeBarOptions extends PictureOptions {
  readonly width?: number;
  /** without the legend, for places where the page has it once */
  readonly legend?: boolean;
}

const labelSize = 12;
const noteSize = 11;
const rowHeight = 50;
const axisHeight = 46;
const labelColumn = 178;
const noteColumn = 166;

/** Two-edge bars, one row per set-up: fluence axis for pulsed sources, dose axis for continuous ones, both logarithmic. */
export function twoEdgeBarSvg(bars: readonly LabelledBar[], options: TwoEdgeBarOptions = {}): string {
  const theme = options.theme ?? paperTheme;
  const id = options.id ?? "two-edge";
  const width = options.width ?? 680;
  const parts: string[] = [element("defs", {}, hatch(`${id}-hatch`, theme.damage, 5, 1.6, 45))];
  let y = 4;
  for (const axisKind of ["fluence", "dose"] as const) {
    const group = bars.filter((row) => row.bar.axis === axisKind);
    if (group.length === 0) continue;
    const range = barRange(group.map((row) => row.bar));
    const axis = axisOf(range.low, range.high, labelColumn + 8, width - noteColumn - 8, true);
    const heading = axisKind === "fluence" ? "Pulsed" : "Continuous";
    parts.push(label(0, y + 14, heading, labelSize, theme.muted, { "font-weight": "bold" }));
    y += 20;
    const top = y;
    const rows: string[] = [];
    for (const [index, row] of group.entries()) {
      const place: RowPlace = { id: `${id}-${axisKind}-${index}`, hatchId: `${id}-hatch`, y, axis, theme };
      rows.push(rowGroup(row, place, width));
      y += rowHeight;
    }
    parts.push(gridLines(axis, top, y, theme), ...rows, axisLine(axis, y, axisNames[axisKind], theme));
    y += axisHeight;
  }
  if (options.legend !== false) {
    parts.push(legend(id, y + 2, width, theme));
    y += 50;
  }
  const description = bars.map((row) => `${row.label}: ${barSentence(row.bar)}. ${row.note}`).join(" ");
  return picture(
    {
      id,
      title: options.title ?? "Where the layer comes off and where the metal changes, per laser set-up",
      description: options.description ?? description,
      width,
      height: Math.max(y, 20),
      unit: "",
      background: theme.paper,
    },
    ...parts,
  );
}

function rowGroup(row: LabelledBar, place: RowPlace, width: number): string {
  const { theme, y } = place;
  const noteX = width - noteColumn + 4;
  const notes = wrapText(row.note, noteSize, noteColumn - 6).slice(0, 3);
  const names = wrapText(row.label, labelSize, labelColumn).slice(0, 2);
  return element(
    "g",
    {},
    ...names.map((line, i) => label(0, y + (names.length === 1 ? 32 : 24) + i * 16, line, labelSize, theme.ink)),
    barRow(row.bar, place),
    ...notes.map((line, i) =>
      label(
        noteX,
        y + 32 - (notes.length - 1) * 7 + i * 14,
        fitText(line, noteSize, noteColumn),
        noteSize,
        theme.muted,
      ),
    ),
  );
}

function gridLines(axis: Axis, top: number, bottom: number, theme: Theme): string {
  const lines = ticks(axis).map((value) => {
    const x = at(axis, value);
    return element("line", { x1: x, x2: x, y1: top, y2: bottom, stroke: theme.faint, "stroke-width": 1 });
  });
  return element("g", {}, ...lines);
}

function axisLine(axis: Axis, y: number, name: string, theme: Theme): string {
  const marks = ticks(axis).map((value) => {
    const x = at(axis, value);
    return (
      element("line", { x1: x, x2: x, y1: y, y2: y + 4, stroke: theme.muted, "stroke-width": 1 }) +
      label(x, y + 16, tickText(fromSI(value, "J/cm2")), noteSize, theme.muted, { "text-anchor": "middle" })
    );
  });
  const middle = (axis.from + axis.to) / 2;
  return element(
    "g",
    {},
    element("line", { x1: axis.from, x2: axis.to, y1: y, y2: y, stroke: theme.muted, "stroke-width": 1 }),
    ...marks,
    label(middle, y + 32, `${name} (J/cm²)`, noteSize, theme.muted, { "text-anchor": "middle" }),
  );
}

/** The legend is drawn from the same row as the data, so that it cannot come to differ from it. */
function legend(id: string, y: number, width: number, theme: Theme): string {
  const axis = axisOf(1, 100, 8, 168, true);
  const sample: TwoEdgeBar = {
    axis: "fluence",
    removalEdge: { low: 2, median: 3, high: 4.5 },
    damageEdge: { low: 18, median: 27, high: 40 },
    reachLow: 1.4,
    reachHigh: 60,
    best: 9,
  };
  const words = wrapText(
    "bracket: reach of the machine, faded beyond it · solid line: layer comes off · filled: clean gap · " +
      "dashed line, hatching: metal changes · soft edges: 5 to 95 % · diamond: best setting",
    noteSize,
    width - 182,
  );
  return element(
    "g",
    {},
    barRow(sample, { id: `${id}-legend`, hatchId: `${id}-hatch`, y: y - 8, axis, theme }),
    ...words.map((line, i) => label(182, y + 6 + i * 15, line, noteSize, theme.muted)),
  );
}
