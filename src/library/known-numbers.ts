import { normalCdf, normalQuantile } from "#numerics";
import { invalid } from "#units";

/** What is known of one uncertain number on the scale where the library's own spread is standard normal. */
export interface KnownNumber {
  readonly mean: number;
  readonly spread: number;
}

/** Known numbers by their names (`coordinateNames`). */
export type KnownNumbers = ReadonlyMap<string, KnownNumber>;

/** Draws keep within the 0.1 % and 99.9 % points of the library, whatever is known. */
const tail = 0.001;
const held = (share: number): number => Math.min(1 - tail, Math.max(tail, share));

/** Refuses what is no knowledge. Errors: InvalidInput for a mean that is no number or a spread that is not positive. */
export function requireKnown(known: KnownNumbers): void {
  for (const [name, { mean, spread }] of known) {
    if (!Number.isFinite(mean)) invalid(`mean of ${name}`, mean, "", "must be a finite number");
    if (!(spread > 0 && Number.isFinite(spread))) invalid(`spread of ${name}`, spread, "", "must be greater than 0");
  }
}

/**
 * Share at which a property is read once something is known of it.
 *
 * Equation: u' = Φ(mean + spread·Φ⁻¹(u)).
 * Units: share u 1 (held within 0.001 to 0.999, as is the result); mean and spread on the standard normal scale of the
 * library. Range: spread above 0; mean 0 and spread 1 give u back. Errors: none of its own, see `requireKnown`.
 * Source: own (a normal posterior on the scale of normal scores).
 */
export function knownShare(u: number, { mean, spread }: KnownNumber): number {
  return held(normalCdf(mean + spread * normalQuantile(held(u))));
}

/** The shares of one draw with every known number moved; all others stay as they are, to the bit. */
export function knownShares(
  u: ArrayLike<number>,
  names: readonly (string | null)[],
  known: KnownNumbers,
): ArrayLike<number> {
  return Float64Array.from(names, (name, i) => {
    const number = name === null ? undefined : known.get(name);
    return number === undefined ? u[i]! : knownShare(u[i]!, number);
  });
}
