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

/** The note of the figures, with a word where the price of the set-up is in another currency. */
export function currencyNote(note: string, currency: string, priceCurrency: string): string {
  return currency === priceCurrency ? note : `${note}; the set-up's price is in ${priceCurrency}, not converted`;
}
