import { requireFinite } from "#units";
import type { Sensitivity } from "#cost";
import { at, type Axis, axisOf, tickText, ticks } from "./axis.ts";
import { fitText, label, textWidth } from "./lettering.ts";
import { paperTheme, type Theme } from "./palette.ts";
import { hatch, picture, type PictureOptions } from "./picture.ts";
import { element } from "./xml.ts";

/** Words of one figure: its name, and its low and high end with unit. */
export interface CostBarWords {
  readonly name: string;
  readonly low: string;
  readonly high: string;
}

export interface CostBarsOptions extends PictureOptions {
  readonly width?: number;
  /** name of the result with its unit, under the axis, for example "cost (EUR/m²)" */
  readonly axisName: string;
  readonly words: (name: string) => CostBarWords;
  /** sentence under the picture: where the figures come from */
  readonly note: string;
}

const ROW = 30;
const NAMES = 200;

/**
 * One bar for each figure: how far the result goes when that figure alone goes to its low end (hatched) and to its high
 * end (filled), around the line at the middle; largest swing on top.
 * @param found sensitivity, any unit
 * @returns SVG
 * Throws InvalidInput for a result that is no number.
 */
export function costBarsSvg(found: Sensitivity, options: CostBarsOptions): string {
  const theme = options.theme ?? paperTheme;
  const id = options.id ?? "cost-bars";
  const width = options.width ?? 680;
  const { rows, middle } = found;
  const values = [middle, ...rows.flatMap((row) => [row.resultAtLow, row.resultAtHigh])];
  for (const value of values) requireFinite("result", value);
  const axis = spanOf(values, width);
  const bottom = ROW * rows.length + 8;
  const grid = ticks(axis, 6).map((value) => {
    const x = at(axis, value);
    return (
      element("line", { x1: x, x2: x, y1: 4, y2: bottom, stroke: theme.faint }) +
      label(x, bottom + 15, tickText(value), 11, theme.muted, { "text-anchor": "middle" })
    );
  });
  const bars = rows.map((row, i) => {
    const words = options.words(row.name);
    const y = 8 + ROW * i;
    const half = (value: number, text: string, fill: string): string =>
      barHalf(axis, middle, value, y, text, fill, theme);
    return (
      label(0, y + 15, fitText(words.name, 12, NAMES - 8), 12, theme.ink) +
      half(row.resultAtLow, words.low, `url(#${id}-low)`) +
      half(row.resultAtHigh, words.high, theme.accent)
    );
  });
  const x = at(axis, middle);
  const line = element("line", { x1: x, x2: x, y1: 0, y2: bottom, stroke: theme.ink, "stroke-width": 1.6 });
  const centre = { "text-anchor": "middle" } as const;
  const described = rows.map((row) => sentence(options.words(row.name), row.resultAtLow, row.resultAtHigh)).join("; ");
  const none = rows.length === 0 ? "No figure has a spread." : described;
  return picture(
    {
      id,
      title: options.title ?? `What moves the ${options.axisName}`,
      description: options.description ?? `Middle ${tickText(middle)} ${options.axisName}. ${none}. ${options.note}`,
      width,
      height: bottom + 68,
      unit: "",
      background: theme.paper,
    },
    element("defs", {}, hatch(`${id}-low`, theme.residue, 4, 2, 45)),
    ...grid,
    ...bars,
    line,
    label((axis.from + axis.to) / 2, bottom + 31, options.axisName, 11, theme.muted, centre),
    label(
      0,
      bottom + 48,
      `hatched: figure at its low end · filled: at its high end · line: all at the middle, ${tickText(middle)}`,
      11,
      theme.muted,
    ),
    label(0, bottom + 63, fitText(options.note, 11, width), 11, theme.muted),
  );
}

function sentence(words: CostBarWords, low: number, high: number): string {
  return `${words.name}: ${tickText(low)} at ${words.low}, ${tickText(high)} at ${words.high}`;
}

/** Axis over all results, with room for the letters at both ends of the longest bar. */
function spanOf(values: readonly number[], width: number): Axis {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = high > low ? (high - low) * 0.3 : Math.max(Math.abs(high) * 0.1, 1);
  return axisOf(low - room, high + room, NAMES, width - 8, false);
}

/** The bar from the middle to one result, with the figure's own end written beyond it. */
function barHalf(
  axis: Axis,
  middle: number,
  value: number,
  y: number,
  text: string,
  fill: string,
  theme: Theme,
): string {
  if (value === middle) return "";
  const [from, to] = [at(axis, middle), at(axis, value)];
  const rightwards = to > from;
  const box = { x: Math.min(from, to), y: y + 3, width: Math.abs(to - from), height: 16 };
  const wide = textWidth(text, 10);
  // Where the letters would leave the picture they stand inside of its end.
  const x = rightwards ? Math.min(to + 4, axis.to + 8 - wide) : Math.max(to - 4, NAMES + wide);
  return (
    element("rect", { ...box, fill, stroke: theme.ink, "stroke-width": 0.6 }) +
    label(x, y + 15, text, 10, theme.ink, { "text-anchor": rightwards ? "start" : "end" })
  );
}
