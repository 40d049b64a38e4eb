/** One way in which something unknown may be, with its share (shares of a list add up to 1). */
export interface Alternative<T> {
  readonly value: T;
  readonly weight: number;
  /** what is assumed, in words; "" when nothing is */
  readonly assumption: string;
}

export function equalShares<T>(values: readonly T[], assumption: (value: T) => string): Alternative<T>[] {
  return values.map((value) => ({ value, weight: 1 / values.length, assumption: assumption(value) }));
}

/** Largest number of combinations that is written out in full, and the number of points when it is exceeded. */
const largest = 60;
const points = 61;

/** Strides of a rank-1 lattice of 61 points, one per axis; 61 is prime, so every axis is met evenly. */
const strides = [1, 17, 28, 43, 7, 50, 23, 37, 11, 54, 13, 31, 47, 19, 41, 5, 58, 26, 34, 3, 52, 9, 45, 21];

/**
 * Combines independent alternatives into whole cases. Up to 60 combinations are all listed with the product of
 * their shares. Beyond that 61 cases are taken from a rank-1 lattice on the shares: each axis by itself keeps its
 * shares to within 1/61, and the number of cases stays bounded whatever is unknown. Equal cases are merged.
 */
export function combine(
  axes: readonly (readonly Alternative<unknown>[])[],
): { readonly choice: readonly number[]; readonly weight: number }[] {
  const total = axes.reduce((product, axis) => product * axis.length, 1);
  if (total <= largest) {
    let cases: { choice: number[]; weight: number }[] = [{ choice: [], weight: 1 }];
    for (const axis of axes) {
      cases = cases.flatMap((c) =>
        axis.map((alternative, i) => ({ choice: [...c.choice, i], weight: c.weight * alternative.weight })),
      );
    }
    return cases;
  }
  const merged = new Map<string, { choice: number[]; weight: number }>();
  for (let point = 0; point < points; point += 1) {
    const choice = axes.map((axis, a) =>
      atShare(axis, (((point * strides[a % strides.length]!) % points) + 0.5) / points),
    );
    const key = choice.join(",");
    const held = merged.get(key);
    if (held === undefined) merged.set(key, { choice, weight: 1 / points });
    else held.weight += 1 / points;
  }
  return [...merged.values()];
}

function atShare(axis: readonly Alternative<unknown>[], share: number): number {
  let sum = 0;
  for (let i = 0; i < axis.length; i += 1) {
    sum += axis[i]!.weight;
    if (share < sum) return i;
  }
  return axis.length - 1;
}
