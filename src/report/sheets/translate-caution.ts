import { cautionsDe, namesDe } from "./cautions-de.ts";
import type { Language } from "./language.ts";
import type { Sentence } from "./model.ts";
import { fill } from "./words.ts";

interface Pattern {
  readonly places: readonly string[];
  readonly whole: RegExp;
  readonly de: string;
}

const literal = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

function patternOf(en: string, de: string): Pattern {
  const places: string[] = [];
  const source = en
    .split(/(\{\w+\})/)
    .map((piece) => {
      const place = /^\{(\w+)\}$/.exec(piece)?.[1];
      if (place === undefined) return literal(piece);
      places.push(place);
      const names = Object.keys(namesDe[place] ?? {});
      return names.length === 0 ? "(\\d+)" : `(${names.map(literal).join("|")})`;
    })
    .join("");
  return { places, whole: new RegExp(`^${source}$`), de };
}

const patterns = cautionsDe.map(({ en, de }) => patternOf(en, de));

/**
 * A caution in the language of the paper by its whole sentence, never word by word. A sentence that the catalogue does
 * not hold comes back in English, marked as English, so that it is shown and never dropped.
 */
export function translateCaution(caution: string, language: Language): Sentence {
  const english: Sentence = { words: caution, language: "en", mark: "" };
  if (language === "en") return english;
  for (const { places, whole, de } of patterns) {
    const found = whole.exec(caution);
    if (found === null) continue;
    const values = places.map((place, k) => [place, namesDe[place]?.[found[k + 1]!] ?? found[k + 1]!] as const);
    return { words: fill(de, Object.fromEntries(values)), language: "de", mark: "" };
  }
  return english;
}
