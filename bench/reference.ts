/**
 * References timed in the same run as the product's own code, so that a slow machine slows both. Each does the same
 * work by the plainest method that gives the same numbers.
 */

/** A patch pulse by pulse on a fine grid of cells, threshold removal: what the repeating cell of the product avoids. */
export function pulseByPulse(side: number, cells: number, pitch: number, spacing: number, radius: number): number {
  const dose = new Float64Array(cells * cells);
  const step = side / cells;
  const reach = 1.5 * radius;
  for (let y = 0; y < side; y += spacing) {
    for (let x = 0; x < side; x += pitch) {
      const i0 = Math.max(0, Math.ceil((x - reach) / step));
      const i1 = Math.min(cells - 1, Math.floor((x + reach) / step));
      const j0 = Math.max(0, Math.ceil((y - reach) / step));
      const j1 = Math.min(cells - 1, Math.floor((y + reach) / step));
      for (let j = j0; j <= j1; j++) {
        for (let i = i0; i <= i1; i++) {
          const r2 = (i * step - x) ** 2 + (j * step - y) ** 2;
          const f = Math.exp((-2 * r2) / (radius * radius));
          if (f > dose[j * cells + i]) dose[j * cells + i] = f;
        }
      }
    }
  }
  return dose.reduce((a, b) => a + (b > 0.5 ? 1 : 0), 0);
}
