import { quantiles, sobolPoints } from "#numerics";
import { invalid } from "#units";
import { requireStated, type Stated, statedQuantile } from "./stated.ts";

/** Named figures with their spreads, and the same names with one value each. */
export type StatedFigures = Readonly<Record<string, Stated>>;
export type Values<F extends StatedFigures> = Readonly<Record<keyof F & string, number>>;

export interface ResultSpread {
  /** exceeded in 95 of 100 cases */
  readonly low: number;
  /** exceeded in half of them */
  readonly middle: number;
  /** exceeded in 5 of 100 */
  readonly high: number;
  /** the sentence that belongs beside the three */
  readonly note: string;
}

/** 2^12 points less the first, at the origin, where every figure would be 0. */
const POINTS = 4095;
/** The points stand at k/4096, k from 1: the share p lies at the (4096·p)th of them, counted from 1. */
const place = (p: number): number => ((POINTS + 1) * p - 1) / (POINTS - 1);

export const spreadNote =
  "5, 50 and 95 of 100 cases from the stated spreads, each figure drawn by itself: what moves several figures at once makes the true spread wider.";

/** Every figure at its middle. */
export const middleOf = <F extends StatedFigures>(figures: F): Values<F> =>
  Object.fromEntries(Object.entries(figures).map(([name, stated]) => [name, stated.middle])) as Values<F>;

/**
 * Spread of a result from the stated spreads of its figures: 5, 50 and 95 % quantiles of f over 4,095 points of a Sobol
 * sequence, each coordinate turned into a figure by statedQuantile. No dice: the same figures give the same answer.
 * @param figures by name; fixed ones (low = high) take no coordinate
 * @param f the result, any unit, finite wherever the figures can fall
 * @returns same unit as f
 * Valid: figures independent of each other. Error of the quantiles below 1 % of the spread from low to high, up to a dozen figures (tests).
 * Throws InvalidInput on a spread that is none, or where f gives no number. Sources: joe-kuo-2008; own choice of model.
 */
export function spreadOf<F extends StatedFigures>(figures: F, f: (values: Values<F>) => number): ResultSpread {
  for (const [name, stated] of Object.entries(figures)) requireStated(name, stated);
  const free = Object.keys(figures).filter((name) => figures[name].low < figures[name].high);
  const values: Record<string, number> = { ...middleOf(figures) };
  const at = (point: ArrayLike<number>): number => {
    free.forEach((name, i) => {
      values[name] = statedQuantile(figures[name], point[i]);
    });
    const result = f(values as Values<F>);
    return Number.isFinite(result) ? result : invalid("result", result, "", "must be a finite number for every case");
  };
  if (free.length === 0) {
    const only = at([]);
    return { low: only, middle: only, high: only, note: "No figure has a spread." };
  }
  const results = sobolPoints(POINTS, free.length, { skip: 1 }).map(at);
  const [low, middle, high] = quantiles(results, [place(0.05), place(0.5), place(0.95)]);
  return { low, middle, high, note: spreadNote };
}
