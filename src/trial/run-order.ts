import type { RandomStream } from "#numerics";

/** Where a patch lies; any one unit. */
interface Place {
  readonly x: number;
  readonly y: number;
}

const TRIES = 30;

/**
 * A random order of places in which two that touch (next to each other, above one another or at a corner) follow each
 * other as seldom as can be: each next one is drawn from those that do not touch the last, of several such orders the
 * one with the fewest touches. `pitchX`, `pitchY`: from one place to the next, in the unit of the places.
 * Result: indexes. Throws nothing. Source: own.
 */
export function orderApart(
  places: readonly Place[],
  pitchX: number,
  pitchY: number,
  random: RandomStream,
): { readonly order: readonly number[]; readonly touching: number } {
  const cost = (a: Place, b: Place): number => {
    const across = Math.abs(a.x - b.x) / pitchX;
    const down = Math.abs(a.y - b.y) / pitchY;
    if (across > 1.5 || down > 1.5) return 0;
    return across < 0.5 || down < 0.5 ? 2 : 1;
  };
  let best: { order: number[]; touching: number } = { order: [], touching: Number.POSITIVE_INFINITY };
  let least = Number.POSITIVE_INFINITY;
  for (let attempt = 0; attempt < TRIES && least > 0; attempt++) {
    const left = random.shuffle(places.map((_, i) => i));
    const order: number[] = [];
    let total = 0;
    let touching = 0;
    while (left.length > 0) {
      const last = order.at(-1);
      let pick = left.length - 1;
      let lowest = Number.POSITIVE_INFINITY;
      for (let k = left.length - 1; k >= 0 && lowest > 0; k--) {
        const price = last === undefined ? 0 : cost(places[last]!, places[left[k]!]!);
        if (price < lowest) [pick, lowest] = [k, price];
      }
      order.push(left.splice(pick, 1)[0]!);
      total += lowest;
      if (lowest > 0) touching++;
    }
    if (total < least) [best, least] = [{ order, touching }, total];
  }
  return best.order.length === places.length ? best : { order: [], touching: 0 };
}
