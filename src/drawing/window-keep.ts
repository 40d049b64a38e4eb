import { invalid } from "#units";
import type { WindowMap } from "#terms";
import { contourLines } from "./contour.ts";
import { paperTheme } from "./palette.ts";
import { hatch } from "./picture.ts";
import type { FieldPlace } from "./window-field.ts";
import { coordinate, element } from "./xml.ts";

/** What the conservative window is called wherever it is drawn. */
export const keptWords = "kept by 95 of 100 versions under drift";

/** Ink of hatching and outline: told from the black lines of chance, and dark on the light end of the field in every theme. */
const ink = paperTheme.accent;
type Node = readonly [number, number];

/**
 * The places of a map that are kept, as a hatched outline. It runs between the nodes that are kept and their
 * neighbours that are not, and ends at the frame where the last node is kept. Nothing where the map does not know or no
 * node is kept; throws InvalidInput when there are not as many values as x times y.
 */
export function keptRegion(map: WindowMap, place: FieldPlace, id: string): string {
  const { conservative } = map;
  if (conservative === undefined) return "";
  const [columns, rows] = [map.x.length, map.y.length];
  if (conservative.length !== columns * rows)
    return invalid("conservative window", conservative.length, "values", "must be as many as x times y");
  const last = [columns - 1, rows - 1] as const;
  const rings = contourLines(...withRim(conservative, columns), 0.5).map((ring) =>
    rounded(ring.slice(0, -1)).map(([i, j]): Node => [within(i - 1, last[0]), within(j - 1, last[1])]),
  );
  if (rings.length === 0) return "";
  const point = ([i, j]: Node): string =>
    `${coordinate(place.left + (place.width * i) / last[0])} ${coordinate(place.top + place.height * (1 - j / last[1]))}`;
  const area = rings.map((ring) => `M${ring.map(point).join("L")}Z`).join("");
  // the frame is where the map ends, not where the window does: no outline along it
  const alongFrame = (a: Node, b: Node): boolean => ends(a[0], b[0], last[0]) || ends(a[1], b[1], last[1]);
  const edge = rings
    .flatMap((ring) =>
      ring.map((from, k) => {
        const to = ring[(k + 1) % ring.length]!;
        return alongFrame(from, to) ? "" : `M${point(from)}L${point(to)}`;
      }),
    )
    .join("");
  const outline = (stroke: string, width: number): string =>
    edge === ""
      ? ""
      : element("path", { d: edge, fill: "none", stroke, "stroke-width": width, "stroke-linecap": "round" });
  return element(
    "g",
    {},
    element("path", { d: area, fill: `url(#${id}-kept)`, "fill-rule": "evenodd" }),
    outline("#ffffff", 4),
    outline(ink, 2.2),
  );
}

const within = (node: number, last: number): number => Math.min(last, Math.max(0, node));
/** Both on the same side of the frame. */
const ends = (a: number, b: number, last: number): boolean => a === b && (a === 0 || a === last);

/** A ring with its corners cut twice, by a quarter of each side: it passes no node that it did not pass before. */
function rounded(ring: readonly Node[]): Node[] {
  let points = [...ring];
  for (let round = 0; round < 2; round++)
    points = points.flatMap(([x, y], k): Node[] => {
      const [u, v] = points[(k + 1) % points.length]!;
      return [
        [0.75 * x + 0.25 * u, 0.75 * y + 0.25 * v],
        [0.25 * x + 0.75 * u, 0.25 * y + 0.75 * v],
      ];
    });
  return points;
}

/** The nodes with a rim around them that is not kept, so that every ring closes at the frame. */
function withRim(kept: readonly boolean[], columns: number): [number[], number] {
  const wide = columns + 2;
  const rimmed = new Array<number>(wide * (kept.length / columns + 2)).fill(0);
  kept.forEach((yes, k) => {
    if (yes) rimmed[wide * (Math.floor(k / columns) + 1) + (k % columns) + 1] = 1;
  });
  return [rimmed, wide];
}

/** The hatching of what is kept, once per picture. */
export function keptHatch(id: string): string {
  return element("defs", {}, hatch(`${id}-kept`, ink, 6, 1, 45));
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
    "stroke-width": 2.2,
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
