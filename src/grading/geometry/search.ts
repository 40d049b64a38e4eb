import type { FrameLayout, Photo } from "../frame.ts";
import type { FindMarkers, FoundMarker, PixelPoint } from "./found-marker.ts";
import { type Crop, greyPicture } from "./grey-picture.ts";
import type { LightPicture } from "./light-picture.ts";
import type { PlateMap } from "./pose.ts";
import { type RefinedMarker, refineMarker } from "./refine-marker.ts";

/** px of the long side that the first search works with: markers of a plate that fills the picture stay large enough */
const searchSide = 2000;

/** By how much the first search shrinks a photo: a whole number from 1. */
export function searchShrink(photo: Photo): number {
  return Math.max(1, Math.round(Math.max(photo.width, photo.height) / searchSide));
}

/** Markers in a photo or in a part of it, corners in px of the whole photo. */
export function searchIn(photo: Photo, findMarkers: FindMarkers, shrink: number, crop?: Crop): FoundMarker[] {
  const point = ({ u, v }: PixelPoint): PixelPoint => ({
    u: shrink * u + (crop?.left ?? 0),
    v: shrink * v + (crop?.top ?? 0),
  });
  return findMarkers(greyPicture(photo, shrink, crop)).map(({ id, corners: [a, b, c, d] }) => ({
    id,
    corners: [point(a), point(b), point(c), point(d)],
  }));
}

/** The first search: the whole photo, shrunk. */
export function coarseMarkers(photo: Photo, findMarkers: FindMarkers): FoundMarker[] {
  return searchIn(photo, findMarkers, searchShrink(photo));
}

/** Refines what was found and keeps each printed marker once, though two searches may have met it. */
export function refineAll(picture: LightPicture, found: readonly FoundMarker[]): RefinedMarker[] {
  const kept: RefinedMarker[] = [];
  for (const marker of found) {
    const refined = refineMarker(picture, marker);
    if (refined !== null && !kept.some((other) => sameMarker(other, refined))) kept.push(refined);
  }
  return kept;
}

function sameMarker(a: RefinedMarker, b: RefinedMarker): boolean {
  const apart = Math.hypot(a.corners[0].u - b.corners[0].u, a.corners[0].v - b.corners[0].v);
  return a.id === b.id && apart < a.side / 2;
}

/** Looks once more, unshrunk, where the pose says that planned markers should be which were not found. */
export function searchMissing(
  photo: Photo,
  layout: FrameLayout,
  findMarkers: FindMarkers,
  map: PlateMap,
  missing: ReadonlySet<number>,
): FoundMarker[] {
  return layout.markers
    .filter(({ id }) => missing.has(id))
    .flatMap(({ id, x, y, size }) => {
      const ends = [-1, 2].flatMap((i) => [-1, 2].map((j) => map.toPixel(x + i * size, y + j * size)));
      const left = Math.max(0, Math.floor(Math.min(...ends.map((p) => p.u))));
      const top = Math.max(0, Math.floor(Math.min(...ends.map((p) => p.v))));
      const width = Math.min(photo.width, Math.ceil(Math.max(...ends.map((p) => p.u)))) - left;
      const height = Math.min(photo.height, Math.ceil(Math.max(...ends.map((p) => p.v)))) - top;
      if (width < 24 || height < 24) return [];
      return searchIn(photo, findMarkers, 1, { left, top, width, height }).filter((marker) => marker.id === id);
    });
}
