import type { TwoEdgeBar } from "#terms";
import { invalid } from "#units";
import { type BarRange, barRange, sharesAt } from "./two-edge-axis.ts";

/** What the characters of `twoEdgeBarText` mean. */
export const twoEdgeTextLegend =
  "· layer stays  ░▒▓ layer comes off, spread  █ clean gap  ╳ metal changes  [ ] reach of the machine  ◆ best setting";

/** Below this share neither clean nor damaged is likely: the layer stays. */
const shades: readonly (readonly [number, string])[] = [
  [0.9, "█"],
  [0.6, "▓"],
  [0.35, "▒"],
  [0.1, "░"],
];

/**
 * The two-edge bar as one line of `width` characters on a logarithmic axis. Bars in one table should be given the same
 * `range` (J/m²), otherwise each takes its own.
 */
export function twoEdgeBarText(bar: TwoEdgeBar, width: number, range: BarRange = barRange([bar])): string {
  if (!Number.isInteger(width) || width < 8)
    return invalid("width", width, "characters", "must be a whole number from 8");
  const cells: string[] = [];
  const step = (range.high / range.low) ** (1 / width);
  for (let i = 0; i < width; i++) {
    const { removed, damaged } = sharesAt(bar, range.low * step ** (i + 0.5));
    const both = removed * (1 - damaged);
    cells.push(damaged >= 0.5 ? "╳" : (shades.find(([least]) => both >= least)?.[1] ?? "·"));
  }
  const cellOf = (value: number): number => Math.floor(Math.log(value / range.low) / Math.log(step));
  const put = (value: number, character: string): void => {
    const cell = cellOf(value);
    if (value > 0 && cell >= 0 && cell < width) cells[cell] = character;
  };
  put(bar.reachLow, "[");
  put(bar.reachHigh, "]");
  if (bar.best !== null) put(bar.best, "◆");
  return cells.join("");
}
