import { invalid } from "#units";
import type { Language } from "./language.ts";
import { wordsDe } from "./words-de.ts";
import { wordsEn } from "./words-en.ts";
import type { Words } from "./words-shape.ts";

const catalogues: Readonly<Record<Language, Words>> = { en: wordsEn, de: wordsDe };

export const wordsOf = (language: Language): Words => catalogues[language];

/**
 * Puts values into the places of a sentence: fill("at most {limit}", { limit: "2 %" }) is "at most 2 %".
 * Throws InvalidInput for a place that no value was given for.
 */
export function fill(sentence: string, values: Readonly<Record<string, string | number>>): string {
  return sentence.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = values[name];
    return value === undefined ? invalid("words", name, "", "a place in a sentence has no value") : String(value);
  });
}
