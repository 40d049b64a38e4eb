import { requireStated } from "./stated.ts";
import { middleOf, type StatedFigures, type Values } from "./spread-of.ts";

/** What one figure does to the result when it alone goes from its low to its high end. */
export interface SensitivityRow {
  readonly name: string;
  /** the figure's own ends */
  readonly low: number;
  readonly high: number;
  readonly resultAtLow: number;
  readonly resultAtHigh: number;
  /** |resultAtHigh − resultAtLow| */
  readonly swing: number;
}

export interface Sensitivity {
  /** result with every figure at its middle */
  readonly middle: number;
  /** largest swing first; equal ones in the order given; figures without a spread left out */
  readonly rows: readonly SensitivityRow[];
}

/**
 * One figure at a time to its low and its high end, all others at their middle.
 * @param figures by name
 * @param f the result, any unit
 * @returns see Sensitivity, unit of f
 * Throws InvalidInput on a spread that is none. Source: definition of one-at-a-time sensitivity.
 */
export function sensitivity<F extends StatedFigures>(figures: F, f: (values: Values<F>) => number): Sensitivity {
  const middle = middleOf(figures);
  const rows = Object.entries(figures)
    .filter(([name, stated]) => requireStated(name, stated).low < stated.high)
    .map(([name, { low, high }]): SensitivityRow => {
      const resultAtLow = f({ ...middle, [name]: low });
      const resultAtHigh = f({ ...middle, [name]: high });
      return { name, low, high, resultAtLow, resultAtHigh, swing: Math.abs(resultAtHigh - resultAtLow) };
    })
    .sort((a, b) => b.swing - a.swing);
  return { middle: f(middle), rows };
}
