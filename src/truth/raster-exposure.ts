import type { WorldLaws } from "./draw-laws.ts";
import type { SpotShape } from "./spot-shape.ts";

/** How events lie on the plate. Lengths in m. */
export interface Raster {
  /** between events along a line; infinite for a beam that stays on */
  readonly pitch: number;
  /** along which one event is drawn out by the motion */
  readonly drawnOut: number;
  readonly spacing: number;
  readonly passes: number;
  readonly spotRadius: number;
}

/** What reaches the points of one cell of the raster over all passes, per unit of strength at the centre of an event. */
export interface Exposure {
  /** ln of what counts against the threshold of each layer, per point */
  readonly layers: readonly Float64Array[];
  /** ln of the events that count at the hottest point of the metal */
  readonly lnEvents: number;
}

const ACROSS = 8;
const ALONG = 6;
/** Passes that are laid out one by one; more passes repeat these. */
const PASSES = 4;
/** Events closer than this (spot radii) are summed in strides. */
const DENSE = 0.25;
/** Least local strength, so that no logarithm is infinite. */
const DARK = 1e-9;

interface Sum {
  strongest: number;
  fourth: number;
  readonly doses: Float64Array;
}

/** Adds the events of one pass around a point, each line shifted along itself by its phase. */
function addPass(sum: Sum, raster: Raster, shape: SpotShape, x: number, y: number, phase: number, linePhase: number) {
  const { pitch, drawnOut, spacing, spotRadius: w } = raster;
  const reach = Math.sqrt(shape.reach2) * w;
  const lineStride = Math.max(1, Math.floor((DENSE * w) / spacing));
  const stride = Number.isFinite(pitch) ? Math.max(1, Math.floor((DENSE * w) / pitch)) : 1;
  const lines = Math.ceil(reach / (spacing * lineStride)) + 1;
  const step = stride * pitch;
  const half = drawnOut / 2;
  const weight = lineStride * stride;
  const inverse = 1 / (w * w);
  for (let k = -lines; k <= lines; k++) {
    // Dense events are a carpet: one of those that stand for their stride lies right on the point.
    const dy = (lineStride > 1 ? 0 : y) - k * lineStride * spacing;
    const dy2 = dy * dy * inverse;
    if (dy2 >= shape.reach2) continue;
    if (!Number.isFinite(pitch)) {
      add(sum, shape, dy2, weight);
      continue;
    }
    const from = stride > 1 ? 0 : x - pitch * (phase + k * linePhase);
    const first = Math.ceil((from - reach - half) / step);
    const last = Math.floor((from + reach + half) / step);
    for (let j = first; j <= last; j++) {
      const dx = Math.max(0, Math.abs(from - j * step) - half);
      add(sum, shape, dx * dx * inverse + dy2, weight);
    }
  }
}

function add(sum: Sum, shape: SpotShape, r2: number, weight: number): void {
  if (r2 >= shape.reach2) return;
  const at = (r2 * shape.scale + 0.5) | 0;
  const g = shape.g[at]!;
  if (g > sum.strongest) sum.strongest = g;
  sum.fourth += weight * shape.fourth[at]!;
  for (let l = 0; l < sum.doses.length; l++) sum.doses[l] = sum.doses[l]! + weight * shape.doses[l]![at]!;
}

/**
 * Exposure of one repeating cell (pitch × spacing) over all passes.
 *
 * Equation: thrown off: g_max·n^(1−S) with n = Σ(g/g_max)⁴; eaten: (Σ g^p)^(1/p); a further pass counts with the pass effect.
 * Units: lengths m, results ln of a pure number. Range: positive lengths, passes ≥ 1. Errors: none. Source: own, invented.
 */
export function rasterExposure(raster: Raster, laws: WorldLaws, shape: SpotShape): Exposure {
  const { pitch, spacing, spotRadius: w } = raster;
  const along = !Number.isFinite(pitch) || pitch < DENSE * w ? 1 : pitch < w ? 3 : ALONG;
  const across = spacing < DENSE * w ? 2 : spacing < w ? ACROSS / 2 : ACROSS;
  const laid = Math.min(raster.passes, Number.isFinite(pitch) && along > 1 ? PASSES : 1);
  const counted = 1 + laws.passEffect * (raster.passes - 1);
  const layers = laws.layers.map(() => new Float64Array(along * across));
  for (let i = 0; i < along; i++) {
    for (let j = 0; j < across; j++) {
      const sum: Sum = { strongest: DARK, fourth: 0, doses: new Float64Array(laws.layers.length) };
      const x = Number.isFinite(pitch) ? ((i + 0.5) / along) * pitch : 0;
      const y = ((j + 0.5) / across) * spacing;
      for (let p = 0; p < laid; p++) addPass(sum, raster, shape, x, y, p * laws.passPhase, laws.linePhase);
      const each = counted / laid;
      laws.layers.forEach((law, l) => {
        const events = Math.max(1, (each * sum.fourth) / sum.strongest ** 4);
        layers[l]![i * across + j] = law.eaten
          ? Math.log(Math.max(DARK, each * sum.doses[l]!)) / law.dosePower
          : Math.log(sum.strongest) - law.countExponent * Math.log(events);
      });
    }
  }
  const centre: Sum = { strongest: DARK, fourth: 0, doses: new Float64Array(laws.layers.length) };
  addPass(centre, raster, shape, 0, 0, 0, laws.linePhase);
  return { layers, lnEvents: Math.log(Math.max(1, centre.fourth * raster.passes)) };
}
