import { median } from "#numerics";
import { edgeWidth } from "./edge-width.ts";
import type { Corners, FoundMarker, PixelPoint } from "./found-marker.ts";
import type { LightPicture } from "./light-picture.ts";
import { type Edge, meeting, refineEdge } from "./marker-edge.ts";

/** A marker with corners to a few hundredths of a pixel. */
export interface RefinedMarker extends FoundMarker {
  /** px, mean length of its sides */
  readonly side: number;
  /** width of its edges between 10 % and 90 % as a share of the marker: upper, right, lower, left; null where unclear */
  readonly edgeShares: readonly (number | null)[];
}

/** cells along a marker with its black border */
const cells = 6;
/** share of a cell that profiles reach: black border on one side, white around the marker on the other */
const reach = 0.45;
/** px that the finder's corners may be off before a second look, and after the last one */
const settled = 0.02;
const rounds = 6;

/**
 * Refines the corners of a marker in linear light: its four sides as straight edges, its corners where they meet, from
 * rough corners in a few rounds. Markers need about 7.5 px per cell.
 * Returns null where a side does not show or the rounds do not settle. Source: see `refineEdge`.
 */
export function refineMarker(picture: LightPicture, marker: FoundMarker): RefinedMarker | null {
  let corners = marker.corners;
  for (let round = 0; round < rounds; round += 1) {
    const edges = sidesOf(corners).map((edge, k) => refineEdge(picture, edge, halfOf(corners, k)));
    if (edges.some((edge) => edge === null)) return null;
    const sides = edges as Edge[];
    const met = [3, 0, 1, 2].map((before, k) => meeting(sides[before]!, sides[k]!));
    if (met.some((point) => point === null)) return null;
    const next = met as unknown as Corners;
    const moved = Math.max(...next.map((p, k) => Math.hypot(p.u - corners[k]!.u, p.v - corners[k]!.v)));
    corners = next;
    if (moved < settled || round === rounds - 1) {
      if (moved > 20 * settled) return null;
      const side = corners.reduce((sum, p, k) => sum + distance(p, corners[(k + 1) % 4]!), 0) / 4;
      const edgeShares = sides.map((edge, k) => {
        const half = halfOf(corners, k);
        const width = edgeWidth(picture, edge, 2 * half);
        return width === null ? null : (width * reach) / (half * cells);
      });
      return { id: marker.id, corners, side, edgeShares };
    }
  }
  return null;
}

const distance = (a: PixelPoint, b: PixelPoint): number => Math.hypot(a.u - b.u, a.v - b.v);

/** The four sides between the corners, light outside. */
function sidesOf(corners: Corners): Edge[] {
  return corners.map((start, k) => {
    const end = corners[(k + 1) % 4]!;
    const length = distance(start, end);
    const du = (end.u - start.u) / length;
    const dv = (end.v - start.v) / length;
    // Corners run clockwise as seen, v downwards: outwards is to the left of the way.
    return { start, du, dv, nu: dv, nv: -du, length, dark: 0, light: 1 };
  });
}

/** px that profiles across side k reach: a share of the marker's depth behind it. */
function halfOf(corners: Corners, k: number): number {
  const edge = sidesOf(corners)[k]!;
  const depth = (p: PixelPoint): number => Math.abs((p.u - edge.start.u) * edge.nu + (p.v - edge.start.v) * edge.nv);
  return (reach / cells) * median([depth(corners[(k + 2) % 4]!), depth(corners[(k + 3) % 4]!)]);
}
