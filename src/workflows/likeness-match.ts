/** Spellings that are the same word here. */
const SPELLINGS = new Map(
  Object.entries({
    aluminum: "aluminium",
    galvanized: "galvanised",
    anodized: "anodised",
    chrome: "chromium",
    rusty: "rust",
    rusted: "rust",
    pu: "polyurethane",
  }),
);

/** Words that say what many entries are and none in particular. */
const COMMON = new Set(["or", "and", "rich", "low", "surface"]);

/** A word cut short still counts, but less than the whole one. */
const CUT_LEAST = 4;
const CUT = 0.9;

/** Lower-case words and numbers of a text, spelt in one way. */
export function wordsOf(text: string): string[] {
  return (text.toLowerCase().match(/[\p{L}\d]+/gu) ?? []).map((w) => SPELLINGS.get(w) ?? w);
}

export function namesOf(...texts: readonly string[]): string[] {
  return [...new Set(texts.flatMap(wordsOf))];
}

/** What a family's name is worth above a word of the entry: "steel" means steels, not stainless ones. */
const FAMILY = 1.5;

/** Entries that most of the words name, with the words that name them. Empty where no word does. */
export function bestMatches<T>(
  words: readonly string[],
  entries: readonly T[],
  names: (entry: T) => readonly string[],
  family: (entry: T) => readonly string[] = () => [],
): { readonly entries: readonly T[]; readonly used: ReadonlySet<string>; readonly score: number } {
  const scored = entries.map((entry) => {
    const own = names(entry);
    const kin = family(entry);
    const used = new Set<string>();
    let score = 0;
    for (const word of new Set(words)) {
      const worth = wordWorth(word, own, kin);
      if (worth > 0) used.add(word);
      score += worth;
    }
    return { entry, used, score: [...used].every((w) => COMMON.has(w)) ? 0 : score };
  });
  const score = Math.max(0, ...scored.map((s) => s.score));
  const best = score === 0 ? [] : scored.filter((s) => s.score === score);
  return { entries: best.map((s) => s.entry), used: new Set(best.flatMap((s) => [...s.used])), score };
}

function wordWorth(word: string, own: readonly string[], kin: readonly string[]): number {
  if (kin.length > 0 && kin.includes(word)) return FAMILY / kin.length;
  if (own.includes(word)) return 1;
  return word.length >= CUT_LEAST && own.some((name) => name.startsWith(word)) ? CUT : 0;
}
