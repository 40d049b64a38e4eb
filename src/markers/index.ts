/**
 * Finding the printed markers in a grey picture, by OpenCV compiled to WebAssembly. Only `grading` decides which of the
 * markers found belong to the plan; it takes the finder as a function.
 */
export { type MarkerFinder, openMarkerFinder } from "./find-markers.ts";
export type { OpenCvBox } from "./opencv.ts";
