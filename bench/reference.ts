/**
 * References timed in the same run as the product's own code, so that a slow machine slows both. Each does the same
 * work by the plainest method that gives the same numbers.
 */

/** One ns pulse on a bare half-space by explicit Euler on a uniform grid: 100 cells, steps at the stability limit. */
export function explicitColumn(cells: number, depth: number, diffusivity: number, duration: number): number {
  const dz = depth / cells;
  const dt = (0.4 * dz * dz) / diffusivity;
  let now = new Float64Array(cells);
  let next = new Float64Array(cells);
  const end = 2.5 * duration;
  const r = (diffusivity * dt) / (dz * dz);
  let hottest = 0;
  for (let t = 0; t < end; t += dt) {
    const source = t < duration ? dt / duration / dz : 0;
    for (let i = 1; i < cells - 1; i++) next[i] = now[i] + r * (now[i - 1] - 2 * now[i] + now[i + 1]);
    next[0] = now[0] + r * (now[1] - now[0]) + source;
    next[cells - 1] = now[cells - 1];
    [now, next] = [next, now];
    if (now[0] > hottest) hottest = now[0];
  }
  return hottest;
}

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
