import { formatNumber } from "#units";
import type { HazardDistance } from "#safety";
import { at, type Axis, axisOf, tickText, ticks } from "./axis.ts";
import { metres, pathStyles } from "./hazard-reach.ts";
import { label } from "./lettering.ts";
import type { Theme } from "./palette.ts";
import { element } from "./xml.ts";

const ROW = 20;

/** Whole decades around all reaches. */
function decades(distances: readonly HazardDistance[], width: number): Axis {
  const values = distances.flatMap((d) => [d.eyeShown, d.skinShown]).filter((value) => value > 0);
  const low = Math.floor(Math.log10(Math.min(...values)) + 1e-9);
  const high = Math.max(low + 1, Math.ceil(Math.log10(Math.max(...values)) - 1e-9));
  return axisOf(10 ** low, 10 ** high, 150, width - 160, true);
}

/** Every path on one logarithmic scale: from the reach for skin (ring) to the reach for eyes (disc). */
export function hazardRanges(
  distances: readonly HazardDistance[],
  { y, width, theme }: { readonly y: number; readonly width: number; readonly theme: Theme },
): { readonly svg: string; readonly bottom: number } {
  const axis = decades(distances, width);
  const bottom = y + 18 + ROW * distances.length;
  const marks = ticks(axis, 6).map((value) => {
    const x = at(axis, value);
    return (
      element("line", { x1: x, x2: x, y1: y + 14, y2: bottom, stroke: theme.faint }) +
      label(x, bottom + 13, value < 1e5 ? tickText(value) : formatNumber(value, 1), 11, theme.muted, {
        "text-anchor": "middle",
      })
    );
  });
  const rows = distances.map((d, i) => {
    const middle = y + 28 + ROW * i;
    const known = d.skinShown > 0 && d.eyeShown > 0;
    const [skin, eye] = [at(axis, d.skinShown || axis.low), at(axis, d.eyeShown || axis.low)];
    return (
      label(0, middle + 4, pathStyles[d.path].short, 11, theme.ink) +
      (known
        ? element("line", { x1: skin, x2: eye, y1: middle, y2: middle, stroke: theme.line, "stroke-width": 3 })
        : "") +
      (d.eyeShown > 0 ? element("circle", { cx: eye, cy: middle, r: 4.5, fill: theme.accent }) : "") +
      (d.skinShown > 0
        ? element("circle", {
            cx: skin,
            cy: middle,
            r: 3.5,
            fill: theme.paper,
            stroke: theme.damage,
            "stroke-width": 1.6,
          })
        : "") +
      label(width - 152, middle + 4, `eye ${metres(d.eyeShown)} · skin ${metres(d.skinShown)}`, 11, theme.ink)
    );
  });
  const heading = label(0, y + 6, "All paths on one logarithmic scale (m): disc eye, ring skin", 11, theme.muted);
  return { svg: element("g", {}, heading, ...marks, ...rows), bottom: bottom + 16 };
}
