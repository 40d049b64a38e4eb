import { invalid } from "./invalid-input.ts";

/**
 * Guards. Each returns the value it was given, in the unit it was given in, or throws `InvalidInput`.
 * `unit` names the unit of `value`; it is only printed.
 */
export function requireFinite(name: string, value: unknown, unit = ""): number {
  if (typeof value !== "number" || !Number.isFinite(value)) invalid(name, value, unit, "must be a finite number");
  return value;
}

/** Finite and above zero. */
export function requirePositive(name: string, value: unknown, unit = ""): number {
  const number = requireFinite(name, value, unit);
  if (!(number > 0)) invalid(name, number, unit, "must be above 0");
  return number;
}

/** Finite, zero or above. */
export function requireNonNegative(name: string, value: unknown, unit = ""): number {
  const number = requireFinite(name, value, unit);
  if (number < 0) invalid(name, number, unit, "must be 0 or above");
  return number;
}

/** Finite and within low to high, both ends allowed. */
export function requireInRange(name: string, value: unknown, unit: string, low: number, high: number): number {
  const number = requireFinite(name, value, unit);
  if (number < low || number > high) {
    invalid(name, number, unit, `must be ${low} to ${high}${unit === "" ? "" : ` ${unit}`}`);
  }
  return number;
}

/** A share: 0 to 1, both ends allowed. */
export function requireShare(name: string, value: unknown): number {
  return requireInRange(name, value, "", 0, 1);
}

/** A whole number within low to high. */
export function requireInteger(
  name: string,
  value: unknown,
  low = Number.MIN_SAFE_INTEGER,
  high = Number.MAX_SAFE_INTEGER,
): number {
  const number = requireFinite(name, value);
  if (!Number.isSafeInteger(number)) invalid(name, number, "", "must be a whole number");
  if (number < low || number > high) {
    const rule =
      high === Number.MAX_SAFE_INTEGER
        ? `must be a whole number, ${low} or more`
        : `must be a whole number, ${low} to ${high}`;
    invalid(name, number, "", rule);
  }
  return number;
}

/** One of a list of words. */
export function requireOneOf<const T extends string>(name: string, value: unknown, allowed: readonly T[]): T {
  const found = allowed.find((word) => word === value);
  if (found === undefined) invalid(name, value, "", `must be one of ${allowed.join(", ")}`);
  return found;
}

/** Text that is not empty and not longer than `longest` characters. */
export function requireText(name: string, value: unknown, longest = 2000): string {
  if (typeof value !== "string" || value.trim() === "") invalid(name, value, "", "must be text");
  if (value.length > longest) invalid(name, value, "", `must have at most ${longest} characters`);
  return value;
}
