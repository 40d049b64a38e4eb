import type { RandomStream } from "#numerics";
import { standardised } from "./regressors.ts";

/** A patch to burn as the sharing sees it. */
export interface SharedItem {
  /** scaled coordinates */
  readonly point: readonly number[];
  /** index of the item that it repeats, or null */
  readonly repeats: number | null;
}

/** What counts beside single factors: their products, less. */
const PRODUCT_WEIGHT = 0.2;
/** A repeat on its original's coupon costs more than any unbalance. */
const TOGETHER = 10;
/** Sums over columns that the exchange may take; plans of a few dozen patches end long before. */
const BUDGET = 3e7;
const STARTS = 3;

/**
 * Shares items over coupons so that the coupon does not pass for an effect: least Σ w·R² of the factors' columns (w 1)
 * and of their products (w 0.2) on the coupons, repeats on another coupon than their original. Starts: the signs of
 * products of factors (the block generators of two-level designs) and random ones; then exchanges of two items while
 * that helps. `sizes`: items per coupon, together as many as there are. Result: coupon of each item from 0.
 * Throws nothing. Source: blocking of factorials, Box, Hunter and Hunter; exchange: Cook and Nachtsheim, Technometrics
 * 31 (1989).
 */
export function shareOverCoupons(
  items: readonly SharedItem[],
  sizes: readonly number[],
  random: RandomStream,
): { readonly coupon: readonly number[]; readonly correlation: number } {
  if (sizes.length < 2) return { coupon: items.map(() => 0), correlation: 0 };
  const columns = columnsOf(items);
  let best: Sharing | null = null;
  for (let start = 0; start <= STARTS; start++) {
    const first = start === 0 ? bySigns(items, sizes.length) : items.map(() => random.integer(sizes.length));
    const sharing = new Sharing(items, columns, fitSizes(first, sizes, random), sizes);
    sharing.improve();
    if (best === null || sharing.badness() < best.badness() - 1e-12) best = sharing;
  }
  return { coupon: best!.coupon, correlation: best!.largestCorrelation() };
}

interface Column {
  readonly values: readonly number[];
  readonly weight: number;
}

/** Standardised columns of the factors and of the products of each two. */
function columnsOf(items: readonly SharedItem[]): Column[] {
  const factors = items[0]?.point.length ?? 0;
  const single = Array.from({ length: factors }, (_, k) => standardised(items.map((item) => item.point[k]!)));
  const columns = single.map((values): Column => ({ values, weight: 1 }));
  for (let a = 0; a < factors; a++) {
    for (let b = 0; b < a; b++) {
      const product = standardised(single[a]!.map((v, i) => v * single[b]![i]!));
      columns.push({ values: product, weight: PRODUCT_WEIGHT });
    }
  }
  return columns.filter((column) => column.values.some((v) => v !== 0));
}

/** Coupon numbers from the signs of products that leave out every (q + 1)-th factor, q of them for 2^q coupons. */
function bySigns(items: readonly SharedItem[], coupons: number): number[] {
  const bits = Math.ceil(Math.log2(coupons));
  const middles = (items[0]?.point ?? []).map((_, k) => {
    const values = items.map((item) => item.point[k]!);
    return 0.5 * (Math.min(...values) + Math.max(...values));
  });
  return items.map(({ point }) => {
    let number = 0;
    for (let bit = 0; bit < bits; bit++) {
      let odd = 0;
      point.forEach((value, k) => {
        if (bits > 1 && k % (bits + 1) === bit) return;
        if (value > middles[k]!) odd ^= 1;
      });
      number += odd << bit;
    }
    return number % coupons;
  });
}

/** Moves random items until every coupon has its number. */
function fitSizes(coupon: readonly number[], sizes: readonly number[], random: RandomStream): number[] {
  const fitted = [...coupon];
  const left = [...sizes];
  const homeless: number[] = [];
  for (const i of random.shuffle(fitted.map((_, k) => k))) {
    if (left[fitted[i]!]! > 0) left[fitted[i]!]!--;
    else homeless.push(i);
  }
  for (const i of homeless) {
    const room = left.findIndex((free) => free > 0);
    fitted[i] = room;
    left[room]!--;
  }
  return fitted;
}

/** An assignment with the sums that its badness is made of. */
class Sharing {
  readonly coupon: number[];
  readonly #columns: readonly Column[];
  readonly #sizes: readonly number[];
  readonly #partners: number[][];
  /** sums[column][coupon] */
  readonly #sums: number[][];
  readonly #count: number;

  constructor(items: readonly SharedItem[], columns: readonly Column[], coupon: number[], sizes: readonly number[]) {
    this.coupon = coupon;
    this.#columns = columns;
    this.#sizes = sizes;
    this.#count = items.length;
    this.#partners = items.map(() => []);
    items.forEach((item, i) => {
      if (item.repeats === null) return;
      this.#partners[i]!.push(item.repeats);
      this.#partners[item.repeats]!.push(i);
    });
    this.#sums = columns.map(({ values }) => {
      const sums = sizes.map(() => 0);
      values.forEach((v, i) => {
        sums[coupon[i]!]! += v;
      });
      return sums;
    });
  }

  /** Σ over coupons of sum²/(size·n): the share of a column's variance between coupons, R². */
  #between(column: number): number {
    return this.#sums[column]!.reduce((sum, s, b) => sum + (s * s) / (Math.max(1, this.#sizes[b]!) * this.#count), 0);
  }

  badness(): number {
    const together = this.#partners.reduce(
      (sum, list, i) => sum + list.filter((j) => this.coupon[i] === this.coupon[j]).length,
      0,
    );
    return this.#columns.reduce((sum, { weight }, k) => sum + weight * this.#between(k), 0) + 0.5 * TOGETHER * together;
  }

  largestCorrelation(): number {
    return Math.sqrt(Math.max(0, ...this.#columns.map(({ weight }, k) => (weight === 1 ? this.#between(k) : 0))));
  }

  #gain(i: number, j: number): number {
    const [a, b] = [this.coupon[i]!, this.coupon[j]!];
    let change = 0;
    for (let k = 0; k < this.#columns.length; k++) {
      const { values, weight } = this.#columns[k]!;
      const shift = values[j]! - values[i]!;
      const sums = this.#sums[k]!;
      change += (weight * ((2 * sums[a]! + shift) * shift)) / (this.#sizes[a]! * this.#count);
      change += (weight * ((shift - 2 * sums[b]!) * shift)) / (this.#sizes[b]! * this.#count);
    }
    const meets = (who: number, where: number, other: number): number =>
      this.#partners[who]!.filter((p) => p !== other && this.coupon[p] === where).length;
    change += TOGETHER * (meets(i, b, j) + meets(j, a, i) - meets(i, a, j) - meets(j, b, i));
    return -change;
  }

  #swap(i: number, j: number): void {
    const [a, b] = [this.coupon[i]!, this.coupon[j]!];
    for (let k = 0; k < this.#columns.length; k++) {
      const shift = this.#columns[k]!.values[j]! - this.#columns[k]!.values[i]!;
      this.#sums[k]![a]! += shift;
      this.#sums[k]![b]! -= shift;
    }
    this.coupon[i] = b;
    this.coupon[j] = a;
  }

  /** Exchanges two items while that helps, each time the best partner of an item. */
  improve(): void {
    let cost = 0;
    for (let moved = true; moved && cost < BUDGET; ) {
      moved = false;
      for (let i = 0; i < this.#count && cost < BUDGET; i++) {
        let best = -1;
        let bestGain = 1e-9;
        for (let j = 0; j < this.#count; j++) {
          if (this.coupon[i] === this.coupon[j]) continue;
          const gain = this.#gain(i, j);
          if (gain > bestGain) [best, bestGain] = [j, gain];
        }
        cost += this.#count * (this.#columns.length + 1);
        if (best < 0) continue;
        this.#swap(i, best);
        moved = true;
      }
    }
  }
}
