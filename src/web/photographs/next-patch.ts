interface Placed {
  readonly patch: number;
  /** m from the coupon's lower left corner */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const ways: Readonly<Record<string, readonly [number, number]>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** The patch nearest to one in the direction of an arrow key; null for another key, or where none lies that way. */
export function nextInDirection(patches: readonly Placed[], from: number, key: string): number | null {
  const way = ways[key];
  const here = patches.find((p) => p.patch === from);
  if (way === undefined || here === undefined) return null;
  let best: { readonly patch: number; readonly far: number } | null = null;
  for (const p of patches) {
    const dx = p.x + p.width / 2 - here.x - here.width / 2;
    const dy = p.y + p.height / 2 - here.y - here.height / 2;
    const along = dx * way[0] + dy * way[1];
    const across = Math.abs(dx * way[1]) + Math.abs(dy * way[0]);
    // Within 45 degrees of the arrow, and what lies straight ahead first.
    if (!(along > 1e-9) || across > along) continue;
    const far = along + 2 * across;
    if (best === null || far < best.far) best = { patch: p.patch, far };
  }
  return best?.patch ?? null;
}
