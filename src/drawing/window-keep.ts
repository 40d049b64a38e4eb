import { invalid } from "#units";
import type { WindowMap } from "#terms";
import { contourLines } from "./contour.ts";
import { hatch } from "./picture.ts";
import type { FieldPlace } from "./window-field.ts";
import { coordinate, element } from "./xml.ts";

/** What the conservative window is called wherever it is drawn. */
export const keptWords = "kept by 95 of 100 versions under drift";

/** Ink of the hatching: it lies on the light end of the field, in every theme. */
const ink = "#1c1d20";

/**
 * The places of a map that are kept, as a hatched outline. Rings run half way between a node that is kept and its
 * neighbour that is not, and along the frame where the last node is kept. Nothing where the map does not know or no
 * node is kept; throws InvalidInput when there are not as many values as x times y.
 */
export function keptRegion(map: WindowMap, place: FieldPlace, id: string): string {
  const { conservative } = map;
  if (conservative === undefined) return "";
  const [columns, rows] = [map.x.length, map.y.length];
  if (conservative.length !== columns * rows)
    return invalid("conservative window", conservative.length, "values", "must be as many as x times y");
  const [wide, rimmed] = withRim(conservative, columns);
  const within = (node: number, count: number): number => Math.min(1, Math.max(0, node / (count - 1)));
  const point = (i: number, j: number): string =>
    `${coordinate(place.left + place.width * within(i, columns))} ${coordinate(place.top + place.height * (1 - within(j, rows)))}`;
  const area = contourLines(rimmed, wide, 0.5)
    .map((ring) => `M${ring.map(([i, j]) => point(i - 1, j - 1)).join("L")}Z`)
    .join("");
  if (area === "") return "";
  // the frame is where the map ends, not where the window does: no outline along it
  const edge = contourLines(conservative.map(Number), columns, 0.5)
    .map((line) => `M${line.map(([i, j]) => point(i, j)).join("L")}`)
    .join("");
  const outline = (stroke: string, width: number): string =>
    edge === "" ? "" : element("path", { d: edge, fill: "none", stroke, "stroke-width": width });
  return element(
    "g",
    {},
    element("path", { d: area, fill: `url(#${id}-kept)`, "fill-rule": "evenodd" }),
    outline("#ffffff", 3.6),
    outline(ink, 1.8),
  );
}

/** The hatching of what is kept, once per picture. */
export function keptHatch(id: string): string {
  return element("defs", {}, hatch(`${id}-kept`, ink, 7, 0.9, 45));
}

/** The nodes with a rim around them that is not kept, so that every ring closes at the frame. */
function withRim(kept: readonly boolean[], columns: number): [number, number[]] {
  const wide = columns + 2;
  const rimmed = new Array<number>(wide * (kept.length / columns + 2)).fill(0);
  kept.forEach((yes, k) => {
    if (yes) rimmed[wide * (Math.floor(k / columns) + 1) + (k % columns) + 1] = 1;
  });
  return [wide, rimmed];
}

/** The same in small, for a key. */
export function keptKey(x: number, y: number, id: string): string {
  return element("rect", {
    x,
    y: y - 6,
    width: 22,
    height: 12,
    fill: `url(#${id}-kept)`,
    stroke: ink,
    "stroke-width": 1.8,
  });
}

/** How much of the map is kept, in words; null where the map does not know. */
export function keptShare(map: WindowMap): string | null {
  const { conservative } = map;
  if (conservative === undefined || conservative.length === 0) return null;
  const share = conservative.filter(Boolean).length / conservative.length;
  if (share === 0) return `No place on this map is ${keptWords}.`;
  return `${Math.max(1, Math.round(100 * share))} % of this map is ${keptWords}.`;
}
