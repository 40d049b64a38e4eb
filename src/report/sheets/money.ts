import { invalid, requireInRange, requireNonNegative, requireText } from "#units";
import type { PriceRange } from "./offer-input.ts";

/** Three figures, the low end down and the high end up, so that rounding never narrows a range. */
export function roundOut(value: number, way: "down" | "up" | "nearest"): number {
  if (value === 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(value)) - 2);
  const steps = value / step;
  // a value that is whole in steps but for its last bits stays as it is
  const near = Math.round(steps);
  const whole =
    Math.abs(steps - near) < 1e-9 * near || way === "nearest"
      ? near
      : way === "up"
        ? Math.ceil(steps)
        : Math.floor(steps);
  return Number((whole * step).toPrecision(12));
}

/** 12400 is "12 400" with a space that does not break; a decimal comma in German is put in by the caller. */
export const grouped = (value: number): string => {
  const [whole = "0", decimals] = String(value).split(".");
  const spaced = whole.replace(/\B(?=(\d{3})+$)/g, "\u00a0");
  return decimals === undefined ? spaced : `${spaced}.${decimals}`;
};

/** Throws InvalidInput for a price without spread, below zero, without currency, meaning or basis; returns it. */
export function requirePrice(name: string, price: PriceRange): PriceRange {
  requireNonNegative(`${name}, low`, price.low, price.currency);
  requireNonNegative(`${name}, high`, price.high, price.currency);
  if (!(price.high > price.low))
    invalid(name, `${price.low} to ${price.high}`, price.currency, "must have a spread: high above low");
  if (price.middle !== null) requireInRange(`${name}, middle`, price.middle, price.currency, price.low, price.high);
  requireText(`${name}, currency`, price.currency, 12);
  requireText(`${name}, what it is for`, price.per, 200);
  if (price.basis.length === 0) invalid(`${name}, basis`, 0, "lines", "must say what the figure rests on");
  return price;
}
