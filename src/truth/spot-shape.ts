import type { WorldLaws } from "./draw-laws.ts";

/** Local strength over that at the centre, as powers of it, by the squared distance in spot radii: looked up, not computed. */
export interface SpotShape {
  /** beyond this squared distance (spot radii) an event counts for nothing */
  readonly reach2: number;
  /** g, g⁴, and g^p for the dose power of each layer */
  readonly g: Float64Array;
  readonly fourth: Float64Array;
  readonly doses: readonly Float64Array[];
  /** entries per unit of squared distance */
  readonly scale: number;
}

const REACH = 2.4;
const ENTRIES = 1024;

/**
 * Super-Gaussian with a ring of weak light around it: g = (1 − ρ)·exp(−2·(r/w)^m) + ρ·exp(−2·(r/(b·w))²).
 * Units: r and w m, g 1 (1 at the centre). Range: r up to 2.4 w, 0 beyond. Errors: none. Source: own, invented.
 */
export function spotShape(laws: WorldLaws): SpotShape {
  const reach2 = REACH * REACH;
  const scale = (ENTRIES - 1) / reach2;
  const g = Float64Array.from({ length: ENTRIES }, (_, i) => {
    const r2 = i / scale;
    const core = Math.exp(-2 * r2 ** (laws.spotOrder / 2));
    const ring = Math.exp((-2 * r2) / (laws.ringWidth * laws.ringWidth));
    return (1 - laws.ringShare) * core + laws.ringShare * ring;
  });
  return {
    reach2,
    scale,
    g,
    fourth: g.map((v) => v ** 4),
    doses: laws.layers.map((layer) => g.map((v) => v ** layer.dosePower)),
  };
}
