import { mean, standardDeviation } from "#numerics";
import type { PlateRectangle } from "./coarse-plate.ts";
import type { PlatePoint } from "./found-marker.ts";
import type { LightPicture } from "./light-picture.ts";
import type { PlateMap } from "./pose.ts";

/** One side of a patch as it shows. */
export interface PatchEdge {
  /** m, middle of the planned side; its outward normal */
  readonly at: PlatePoint;
  readonly nx: number;
  readonly ny: number;
  /** m that the edge lies outwards of the planned one, and the standard error of that */
  readonly off: number;
  readonly error: number;
}

/** parts of a side that are measured apart, for the error; profiles in each; samples in a profile */
const parts = 6;
const profiles = 8;
const samples = 32;
/** share of a side at each end, and of a profile at each end */
const endShare = 0.12;
const plainShare = 0.28;
/** least difference of light across an edge, and how many times its own unrest it must be */
const leastContrast = 0.015;
const clearness = 4;
/** m: an error above which a side says nothing, and one below which it is not believed */
const errorMost = 0.15e-3;
const errorLeast = 0.02e-3;

/** Mean profile of a part of a side: light at `samples` distances from −half to half, outwards. */
function profileOf(
  picture: LightPicture,
  map: PlateMap,
  side: { at: PlatePoint; nx: number; ny: number; length: number },
  part: number,
  half: number,
): Float64Array {
  const out = new Float64Array(samples);
  for (let k = 0; k < profiles; k += 1) {
    const share = endShare + ((1 - 2 * endShare) * (part + (k + 0.5) / profiles)) / parts - 0.5;
    const x = side.at.x - share * side.length * side.ny;
    const y = side.at.y + share * side.length * side.nx;
    for (let i = 0; i < samples; i += 1) {
      const s = half * ((2 * i + 1) / samples - 1);
      const pixel = map.toPixel(x + s * side.nx, y + s * side.ny);
      out[i]! += picture.at(pixel.u, pixel.v) / profiles;
    }
  }
  return out;
}

/** Sides of a patch that are clear enough to say where it lies. half: m looked at on either side. Source: `crossing`. */
export function patchEdges(picture: LightPicture, map: PlateMap, patch: PlateRectangle, half: number): PatchEdge[] {
  const { x, y, width, height } = patch;
  const sides = [
    { at: { x, y: y + height / 2 }, nx: -1, ny: 0, length: height },
    { at: { x: x + width, y: y + height / 2 }, nx: 1, ny: 0, length: height },
    { at: { x: x + width / 2, y }, nx: 0, ny: -1, length: width },
    { at: { x: x + width / 2, y: y + height }, nx: 0, ny: 1, length: width },
  ];
  return sides.flatMap((side): PatchEdge[] => {
    const found = Array.from({ length: parts }, (_, part) => profileOf(picture, map, side, part, half));
    const whole = Float64Array.from({ length: samples }, (_, i) => mean(found.map((profile) => profile[i]!)));
    const plain = Math.round(plainShare * samples);
    const inner = whole.slice(0, plain);
    const outer = whole.slice(samples - plain);
    const step = mean(outer) - mean(inner);
    const unrest = Math.hypot(standardDeviation(inner), standardDeviation(outer));
    if (!(Math.abs(step) > leastContrast && Math.abs(step) > clearness * unrest)) return [];
    const offs = found.map((profile) => {
      const low = mean(profile.slice(0, plain));
      const high = mean(profile.slice(samples - plain));
      return half * (2 * ((high - mean(profile)) / (high - low)) - 1);
    });
    const error = Math.max(errorLeast, standardDeviation(offs) / Math.sqrt(parts));
    const off = mean(offs);
    if (!(error < errorMost && Math.abs(off) < half * (1 - plainShare))) return [];
    return [{ at: side.at, nx: side.nx, ny: side.ny, off, error }];
  });
}
