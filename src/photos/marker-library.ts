import { createRequire } from "node:module";

/**
 * The library that finds markers, for `openMarkerFinder` of the markers room: 10 MB, about 0.3 s, kept by Node once
 * loaded. In a box, because it must not be handed on by a promise.
 */
export function markerLibrary(): { readonly cv: unknown } {
  return { cv: createRequire(import.meta.url)("@techstark/opencv-js/dist/opencv.js") };
}
