import { invalid } from "#units";

/** Largest file and picture that are read, and the least side: more is an attack or a mistake, less shows no plate. */
export const photoLimits = { bytes: 30_000_000, pixels: 60_000_000, side: 64 } as const;

/** Refuses a size from the head of a file, before anything is decoded. px. */
export function requireSize(width: number, height: number): void {
  const pixels = width * height;
  if (pixels > photoLimits.pixels) {
    invalid("photo", Number((pixels / 1e6).toPrecision(4)), "MP", `must have at most ${photoLimits.pixels / 1e6} MP`);
  }
  if (!(Math.min(width, height) >= photoLimits.side)) {
    invalid("photo", `${width} × ${height}`, "px", `must have at least ${photoLimits.side} px on each side`);
  }
}
