import { invalid } from "#units";
import type { WindowMap } from "#terms";
import { at, type Axis, axisOf, tickText, ticks } from "./axis.ts";
import { contourLines } from "./contour.ts";
import { label } from "./lettering.ts";
import { type OutcomeState, outcomeMark } from "./outcome-mark.ts";
import { paperTheme, type Theme } from "./palette.ts";
import { picture, type PictureOptions } from "./picture.ts";
import { type FieldPlace, fieldSvg, refined } from "./window-field.ts";
import { keptHatch, keptRegion, keptShare } from "./window-keep.ts";
import { key, recommendedMark } from "./window-key.ts";
import { bothLevels, fieldInk, levelLabels, line } from "./window-lines.ts";
import { coordinate, element } from "./xml.ts";

/** A patch on the map, in the units of the map's own axes. */
export interface MapMark {
  readonly patch: number;
  readonly x: number;
  readonly y: number;
  readonly state: OutcomeState;
}

export interface MapPoint {
  readonly x: number;
  readonly y: number;
}

export interface WindowMapOptions extends PictureOptions {
  readonly width?: number;
  readonly height?: number;
}

/** The map of a process window: probability field, lines, what is kept under drift, patches, recommended point. */
export function windowMapSvg(
  map: WindowMap,
  marks: readonly MapMark[],
  recommended: MapPoint | null,
  options: WindowMapOptions = {},
): string {
  const theme = options.theme ?? paperTheme;
  const id = options.id ?? "window-map";
  const [width, height] = [options.width ?? 680, options.height ?? 430];
  const columns = map.x.length;
  if (
    map.probabilityClean.length !== columns * map.y.length ||
    map.probabilityUndamaged.length !== columns * map.y.length
  )
    return invalid("window map", map.probabilityClean.length, "values", "must be as many as x times y");
  const both = map.probabilityClean.map((p, i) => p * map.probabilityUndamaged[i]!);
  const place: FieldPlace = { left: 66, top: 12, width: width - 66 - 196, height: height - 12 - 52 };
  const x = nodesAxis(map.x, place.left, place.left + place.width);
  const y = nodesAxis(map.y, place.top + place.height, place.top);
  const toPoint = ([i, j]: readonly [number, number]): MapPoint => ({
    x: place.left + (place.width * i) / (columns - 1),
    y: place.top + place.height * (1 - j / (map.y.length - 1)),
  });
  const toPicture = (node: readonly [number, number]): string => {
    const point = toPoint(node);
    return `${coordinate(point.x)} ${coordinate(point.y)}`;
  };
  const path = (values: readonly number[], level: number): string =>
    contourLines(values, columns, level)
      .map((line) => `M${line.map(toPicture).join("L")}`)
      .join("");
  const inside = (p: MapPoint): boolean => p.x >= x.low && p.x <= x.high && p.y >= y.low && p.y <= y.high;
  const shown = marks.filter(inside);
  const point =
    recommended !== null && inside(recommended) ? { x: at(x, recommended.x), y: at(y, recommended.y) } : null;
  const keyX = place.left + place.width + 18;
  const outside = marks.length - shown.length;
  return picture(
    {
      id,
      title: options.title ?? `Process window over ${map.xName} and ${map.yName}`,
      description: options.description ?? describe(map, both, marks, recommended),
      width,
      height,
      unit: "",
      background: theme.paper,
    },
    map.conservative === undefined ? "" : keptHatch(id),
    fieldSvg(...refined(both, columns), place),
    keptRegion(map, place, id),
    ...bothLevels.map((level, k) => line(path(both, level), fieldInk, 0.8 + 0.6 * k, null)),
    ...levelLabels(both, columns, toPoint, point),
    line(path(map.probabilityClean, 0.5), "#ffffff", 3.4, null) +
      line(path(map.probabilityClean, 0.5), theme.residue, 2, "9 4"),
    line(path(map.probabilityUndamaged, 0.5), "#ffffff", 3.4, null) +
      line(path(map.probabilityUndamaged, 0.5), theme.damage, 2, "2 3"),
    ...shown.map((m) => outcomeMark(m.state, at(x, m.x), at(y, m.y), 4.6, theme)),
    point === null ? "" : recommendedMark(point.x, point.y, theme),
    frame(place, x, y, map, theme),
    key(keyX, place.top, theme, { id, map, outside, hasRecommended: recommended !== null }),
  );
}

/** Logarithmic where the nodes are evenly spaced in the logarithm and span more than a factor of 1.5. */
function nodesAxis(nodes: readonly number[], from: number, to: number): Axis {
  const [first, last] = [nodes[0]!, nodes[nodes.length - 1]!];
  const middle = nodes[Math.floor((nodes.length - 1) / 2)]!;
  const share = Math.floor((nodes.length - 1) / 2) / (nodes.length - 1);
  const positive = nodes.every((v) => v > 0);
  const geometric = positive ? first * (last / first) ** share : Number.POSITIVE_INFINITY;
  const arithmetic = first + (last - first) * share;
  const logarithmic = positive && Math.abs(middle - geometric) < Math.abs(middle - arithmetic);
  return axisOf(first, last, from, to, logarithmic);
}

function frame(place: FieldPlace, x: Axis, y: Axis, map: WindowMap, theme: Theme): string {
  const bottom = place.top + place.height;
  const stroke = { stroke: theme.muted, "stroke-width": 1 };
  const middleY = place.top + place.height / 2;
  return element(
    "g",
    {},
    element("rect", { x: place.left, y: place.top, width: place.width, height: place.height, fill: "none", ...stroke }),
    ...ticks(x, 6).map(
      (v) =>
        element("line", { x1: at(x, v), x2: at(x, v), y1: bottom, y2: bottom + 4, ...stroke }) +
        label(at(x, v), bottom + 17, tickText(v), 11, theme.muted, { "text-anchor": "middle" }),
    ),
    ...ticks(y, 6).map(
      (v) =>
        element("line", { x1: place.left - 4, x2: place.left, y1: at(y, v), y2: at(y, v), ...stroke }) +
        label(place.left - 7, at(y, v) + 4, tickText(v), 11, theme.muted, { "text-anchor": "end" }),
    ),
    label(place.left + place.width / 2, bottom + 38, map.xName, 12, theme.ink, { "text-anchor": "middle" }),
    label(14, middleY, map.yName, 12, theme.ink, { "text-anchor": "middle", transform: `rotate(-90 14 ${middleY})` }),
  );
}

function describe(
  map: WindowMap,
  both: readonly number[],
  marks: readonly MapMark[],
  recommended: MapPoint | null,
): string {
  const count = (state: OutcomeState): number => marks.filter((m) => m.state === state).length;
  const best = Math.max(...both);
  const kept = keptShare(map);
  const point =
    recommended === null
      ? "No setting is recommended."
      : `Recommended: ${tickText(recommended.x)} and ${tickText(recommended.y)}.`;
  return (
    `Chance of clean and undamaged over ${map.xName} and ${map.yName}, at most ${best.toFixed(2)}. ` +
    (kept === null ? "" : `${kept} `) +
    `Patches: ${count("good")} clean and undamaged, ${count("residue")} with residue, ${count("damaged")} damaged. ${point}`
  );
}
