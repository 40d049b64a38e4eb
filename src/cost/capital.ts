import { invalid, requireInteger, requireNonNegative } from "#units";

/**
 * Capital recovery factor: CRF = i(1 + i)^n/((1 + i)^n − 1); 1/n without interest.
 * @param interest i, share a year, 0 or more (0.08 for 8 %)
 * @param years n, whole, 1 or more
 * @returns share of the sum paid back each year
 * Throws InvalidInput outside these ranges. Source: engineering-economy tables.
 */
export function capitalRecoveryFactor(interest: number, years: number): number {
  requireNonNegative("interest", interest, "a year");
  requireInteger("years", years, 1, 100);
  // expm1 and log1p keep digits where the interest is next to nothing.
  return interest === 0 ? 1 / years : interest / -Math.expm1(-years * Math.log1p(interest));
}

/**
 * Annual cost of capital: (P − S)·CRF + S·i.
 * @param price P, money
 * @param salvage S, money at the end, 0 to P
 * @param interest i, share a year
 * @param years n
 * @returns money a year
 * Throws InvalidInput outside these ranges. Source: engineering-economy tables.
 */
export function annualCapital(price: number, salvage: number, interest: number, years: number): number {
  requireNonNegative("price", price);
  if (requireNonNegative("salvage value", salvage) > price)
    invalid("salvage value", salvage, "", "not above the price");
  return (price - salvage) * capitalRecoveryFactor(interest, years) + salvage * interest;
}
