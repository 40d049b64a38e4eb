/**
 * Greedy maximin: the allowed point whose distance to the nearest chosen point is largest; the first allowed point
 * when nothing is chosen yet; −1 when none is allowed. Points in scaled coordinates; ties go to the earlier point.
 * Throws nothing. Source: Johnson, Moore and Ylvisaker, J. Statistical Planning and Inference 26 (1990).
 */
export function farthestPoint(
  points: readonly (readonly number[])[],
  chosen: readonly (readonly number[])[],
  allowed: (index: number) => boolean,
): number {
  let best = -1;
  let bestDistance = -1;
  for (let i = 0; i < points.length; i++) {
    if (!allowed(i)) continue;
    let nearest = Number.POSITIVE_INFINITY;
    for (const other of chosen) nearest = Math.min(nearest, squaredDistance(points[i]!, other));
    if (nearest > bestDistance) {
      best = i;
      bestDistance = nearest;
    }
  }
  return best;
}

/** Squared Euclidean distance; arguments of equal length, any unit. */
export function squaredDistance(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k]! - b[k]!) ** 2;
  return sum;
}
