import { normalQuantile } from "#numerics";
import type { Property } from "#terms";

/** Standard normal quantile of 95 %. */
const z95 = 1.6448536269514722;
/** Draws keep within the 0.1 % and 99.9 % points: tails beyond them are nobody's knowledge. */
const tail = 0.001;

/**
 * Quantile of a property: the value below which a share u of its distribution lies.
 * Equation: u = 0.5 gives `value`, 0.05 gives `low`, 0.95 gives `high`; each side is scaled by itself, so that an
 * uneven range is kept (split normal; split lognormal in ln; straight lines for uniform).
 * Unit of `u`: share 0 to 1 (held within 0.001 to 0.999); result in the property's own SI unit.
 * Valid range: low <= value <= high; lognormal needs low > 0.
 * Source: own definition of what the library's three points mean.
 */
export function propertyQuantile(property: Property, u: number): number {
  const { value, low, high, distribution } = property;
  if (distribution === "fixed" || low === high) return value;
  const p = Math.min(1 - tail, Math.max(tail, u));
  const upper = p > 0.5;
  if (distribution === "uniform") return value + (Math.abs(p - 0.5) / 0.45) * ((upper ? high : low) - value);
  const z = Math.abs(normalQuantile(p)) / z95;
  if (distribution === "lognormal") return value * ((upper ? high : low) / value) ** z;
  return value + z * ((upper ? high : low) - value);
}

/**
 * The same, held inside what is physically possible: above 0, and below 1 where the quantity is a share.
 * `least` is a thousandth of the median, so that a wide normal range cannot reach 0.
 * Unit of `u`: share; result in the property's unit. Valid range and source as above.
 */
export function drawProperty(
  property: Property,
  u: number,
  bound: "positive" | "share" | "signed" = "positive",
): number {
  const x = propertyQuantile(property, u);
  if (bound === "signed") return x;
  const least = property.value / 1000;
  if (bound === "share") return Math.min(0.999, Math.max(Math.min(least, 0.999), x));
  return Math.max(least, x);
}
