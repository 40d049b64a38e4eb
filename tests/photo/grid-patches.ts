import type { FrameLayout } from "#grading";
import type { PhotoPatch } from "./plate-spec.ts";

/** Patches in rows from the lower left as a trial lays them, the first untouched and the second a cleaned reference. */
export function gridPatches(frame: FrameLayout, columns: number, rows: number, rim = 10e-3, gap = 5e-3): PhotoPatch[] {
  const width = (frame.couponWidth - 2 * rim - (columns - 1) * gap) / columns;
  const height = (frame.couponHeight - 2 * rim - (rows - 1) * gap) / rows;
  return Array.from({ length: columns * rows }, (_, k) => ({
    patch: k + 1,
    x: rim + (k % columns) * (width + gap),
    y: rim + Math.floor(k / columns) * (height + gap),
    width,
    height,
    role: k === 0 ? "untouched" : k === 1 ? "cleaned-reference" : "test",
  }));
}
