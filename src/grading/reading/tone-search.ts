import { minimise1d } from "#numerics";
import { SHAPE_HIGH, STRENGTH_HIGH, STRENGTH_LOW, type ToneCurve } from "./tone-curve.ts";

/** What is sought of a tone curve; its power follows from the greys. */
export type Tone = Omit<ToneCurve, "power">;

/** Strength of the S as phones usually have it, and its spread (own choice, weak). */
const STRENGTH = { usual: 0.15, spread: 0.4 } as const;
/** Shape of the S: about that of a logistic curve, and its spread (own choice, weak). */
const SHAPE = { usual: 0.25, spread: 0.5 } as const;
/** Share of full scale that stray light may add, and its spread (own choice, weak). */
const VEIL = { most: 0.03, spread: 0.012 } as const;
/** Where the search begins: strength and veil make up for each other, so that a search from one place may end in a wrong one. */
const GRID = { strength: [-0.4, -0.1, 0.1, 0.3, 0.5, 0.7, 0.9], veil: [0, 0.003, 0.006, 0.01, 0.014, 0.02] } as const;
/** Strength and veil on either side of the best so far. */
const REACH = { strength: 0.3, veil: 0.008 } as const;

/** A tone as phones usually have it. */
export const usualTone: Tone = { strength: STRENGTH.usual, shape: SHAPE.usual, veil: 0 };

/** How unusual a tone is: sum of squares of what it departs by, in spreads. */
export function unusual({ strength, shape, veil }: Tone): number {
  const s = (strength - STRENGTH.usual) / STRENGTH.spread;
  const m = (shape - SHAPE.usual) / SHAPE.spread;
  return s * s + m * m + (veil / VEIL.spread) ** 2;
}

/** The best tone of the grid, its shape as it is. */
export function bestOfGrid(cost: (tone: Tone) => number, { shape }: Tone): Tone {
  const all = GRID.strength.flatMap((strength) => GRID.veil.map((veil) => ({ strength, shape, veil })));
  const costs = all.map(cost);
  return all[costs.indexOf(Math.min(...costs))]!;
}

/** Strength, veil and shape in turn, each by a search along itself; they lean on each other, so twice. */
export function searchTone(cost: (tone: Tone) => number, start: Tone): Tone {
  let { strength, shape, veil } = start;
  for (let turn = 0; turn < 2; turn += 1) {
    const low = Math.max(STRENGTH_LOW, strength - REACH.strength);
    const high = Math.min(STRENGTH_HIGH, strength + REACH.strength);
    strength = minimise1d((s) => cost({ strength: s, shape, veil }), low, high, { tolerance: 0.01 }).x;
    const [least, most] = [Math.max(0, veil - REACH.veil), Math.min(VEIL.most, veil + REACH.veil)];
    veil = minimise1d((v) => cost({ strength, shape, veil: v }), least, most, { tolerance: 0.02 }).x;
    shape = minimise1d((m) => cost({ strength, shape: m, veil }), 0, SHAPE_HIGH, { tolerance: 0.05 }).x;
  }
  return { strength, shape, veil };
}
