import { invalid } from "#units";

/**
 * A currency by its three letters.
 * @param text for example "EUR"
 * @returns the same
 * Throws InvalidInput on anything else. Source: form of ISO 4217 codes; whether the code exists is not checked.
 */
export function requireCurrency(text: unknown): string {
  if (typeof text !== "string" || !/^[A-Z]{3}$/.test(text))
    invalid("currency", text, "", "must be three capital letters, such as EUR");
  return text;
}
