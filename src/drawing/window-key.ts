import type { WindowMap } from "#terms";
import { label, wrapText } from "./lettering.ts";
import { outcomeMark, outcomeWords } from "./outcome-mark.ts";
import type { Theme } from "./palette.ts";
import { fieldKey } from "./window-field.ts";
import { keptKey, keptWords } from "./window-keep.ts";
import { fieldInk, line } from "./window-lines.ts";
import { element } from "./xml.ts";

export function recommendedMark(x: number, y: number, theme: Theme): string {
  const d = `M${x} ${y - 9}L${x + 8} ${y}L${x} ${y + 9}L${x - 8} ${y}Z`;
  return element("path", { d, fill: theme.paper, stroke: theme.ink, "stroke-width": 2.2 });
}

interface Keyed {
  readonly id: string;
  readonly map: WindowMap;
  readonly outside: number;
  readonly hasRecommended: boolean;
}

/** What every colour, line and mark of the map means, beside it. */
export function key(x: number, top: number, theme: Theme, { id, map, outside, hasRecommended }: Keyed): string {
  const parts: string[] = [];
  let y = top + 8;
  const row = (mark: string, words: string): void => {
    const lines = wrapText(words, 11, 148);
    parts.push(mark, ...lines.map((line, k) => label(x + 30, y + 4 + 14 * k, line, 11, theme.ink)));
    y += 20 + 14 * (lines.length - 1);
  };
  const dash = (stroke: string, width: number, pattern: string | null): string =>
    line(`M${x} ${y}h22`, stroke, width, pattern);
  parts.push(label(x, y + 4, "clean and undamaged, chance", 11, theme.ink), fieldKey(x, y + 10, 160, 10));
  for (const [share, words] of [
    [0, "0"],
    [0.5, "0.5"],
    [0.8, "0.8"],
    [0.95, "0.95"],
  ] as const) {
    parts.push(
      label(x + 160 * share, y + 33, words, 10, theme.muted, { "text-anchor": share === 0 ? "start" : "middle" }),
    );
    if (share > 0) parts.push(line(`M${x + 160 * share} ${y + 10}v10`, fieldInk, 1.4, null));
  }
  y += 54;
  row(dash(theme.residue, 2, "9 4"), "edge of clean, 0.5");
  row(dash(theme.damage, 2, "2 3"), "edge of damage, 0.5");
  if (map.conservative !== undefined)
    row(keptKey(x, y, id), map.conservative.some(Boolean) ? keptWords : `${keptWords}: nowhere here`);
  for (const state of ["good", "residue", "damaged", "unknown"] as const)
    row(outcomeMark(state, x + 11, y, 4.6, theme), outcomeWords[state].words);
  if (hasRecommended) row(recommendedMark(x + 11, y, theme), "recommended");
  if (outside > 0)
    parts.push(
      label(x, y + 6, `${outside} ${outside === 1 ? "patch lies" : "patches lie"} off this map`, 11, theme.muted),
    );
  return element("g", {}, ...parts);
}
