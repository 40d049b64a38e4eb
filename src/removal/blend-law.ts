import type { CharLaw } from "./char-law.ts";
import type { LawTable } from "./law-table.ts";

/** Law between two durations, blended linearly by `weight` of the second. Both must share their grids. */
export function blendLaw(first: LawTable, second: LawTable, weight: number): LawTable {
  if (weight <= 0) return first;
  const mix = (a: Float64Array, b: Float64Array) => {
    const mixed = new Float64Array(a.length);
    // Infinite where the layer cannot be eaten, on both sides alike.
    for (let i = 0; i < a.length; i++) mixed[i] = Number.isFinite(a[i]) ? a[i] + weight * (b[i] - a[i]) : a[i];
    return mixed;
  };
  const { columns } = first;
  const eaten = new Float64Array(first.eaten.length);
  const strength = new Float64Array(first.strength.length);
  const byStress = new Uint8Array(first.byStress.length);
  const ready = new Uint8Array(first.remaining.length);
  const inner =
    first.inner && second.inner
      ? { strength: new Float64Array(first.eaten.length), left: new Float64Array(first.eaten.length) }
      : null;
  let char: CharLaw | null | undefined;
  return {
    ...first,
    eaten,
    strength,
    byStress,
    inner,
    metalRise: mix(first.metalRise, second.metalRise),
    stayRise: mix(first.stayRise, second.stayRise),
    firstEaten: mix(first.firstEaten, second.firstEaten),
    reactionTime: first.reactionTime * (second.reactionTime / first.reactionTime) ** weight,
    need(row) {
      if (ready[row] === 1) return;
      ready[row] = 1;
      first.need(row);
      second.need(row);
      for (let i = row * columns; i < (row + 1) * columns; i++) {
        eaten[i] = first.eaten[i] + weight * (second.eaten[i] - first.eaten[i]);
        strength[i] = first.strength[i] + weight * (second.strength[i] - first.strength[i]);
        if (inner && first.inner && second.inner) {
          inner.strength[i] = first.inner.strength[i] + weight * (second.inner.strength[i] - first.inner.strength[i]);
          inner.left[i] = weight < 0.5 ? first.inner.left[i] : second.inner.left[i];
        }
        byStress[i] = weight < 0.5 ? first.byStress[i] : second.byStress[i];
      }
    },
    char() {
      if (char === undefined) {
        const a = first.char();
        const b = second.char();
        char =
          a && b
            ? {
                remaining: a.remaining,
                gone: (row, column) => a.gone(row, column) + weight * (b.gone(row, column) - a.gone(row, column)),
                metalRise: mix(a.metalRise, b.metalRise),
              }
            : (a ?? b);
      }
      return char;
    },
  };
}
