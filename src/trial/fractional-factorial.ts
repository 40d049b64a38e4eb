import { invalid, requireInteger } from "#units";
import { twoLevelFactorial } from "./two-level.ts";

/** A two-level fraction: what it is built from and what it cannot tell apart. */
export interface Fraction {
  /** rows of −1 and +1 */
  readonly rows: number[][];
  /** "D=ABC": each added factor and the product of columns that it takes */
  readonly generators: readonly string[];
  /** all words of the defining relation, shortest first: the effects of "ABCD" are AB = CD and so on */
  readonly words: readonly string[];
  /** length of the shortest word: 3 confounds single factors with pairs, 4 pairs with pairs, 5 pairs with triples */
  readonly resolution: number;
}

const letters = "ABCDEFG";

/** Generators of least aberration by factors and halvings. Source: Box, Hunter and Hunter, table of fractions. */
const generatorTable: Readonly<Record<string, readonly string[]>> = {
  "3-1": ["C=AB"],
  "4-1": ["D=ABC"],
  "5-1": ["E=ABCD"],
  "5-2": ["D=AB", "E=AC"],
  "6-1": ["F=ABCDE"],
  "6-2": ["E=ABC", "F=BCD"],
  "6-3": ["D=AB", "E=AC", "F=BC"],
  "7-1": ["G=ABCDEF"],
  "7-2": ["F=ABCD", "G=ABDE"],
  "7-3": ["E=ABC", "F=BCD", "G=ACD"],
  "7-4": ["D=AB", "E=AC", "F=BC", "G=ABC"],
};

/** How often 2^k can be halved in the table: 0 for one or two factors. */
export function mostHalvings(factors: number): number {
  return Math.max(0, ...Object.keys(generatorTable).map((key) => (key.startsWith(`${factors}-`) ? +key[2]! : 0)));
}

/**
 * Two-level fractional factorial 2^(k−p) of highest resolution and least aberration, in coded units: a full factorial
 * in k − p factors, each added factor the product of the columns that its generator names.
 * `factors` k: 3 to 7; `halvings` p: 1 to 4 as far as columns suffice. Columns balanced and orthogonal.
 * Throws InvalidInput on a fraction outside the table. Source: Box, Hunter and Hunter, Statistics for Experimenters.
 */
export function fractionalFactorial(factors: number, halvings: number): Fraction {
  requireInteger("factors", factors, 3, 7);
  requireInteger("halvings", halvings, 1, 4);
  const generators =
    generatorTable[`${factors}-${halvings}`] ??
    invalid("halvings", halvings, "", `at most ${mostHalvings(factors)} for ${factors} factors`);
  const rows = twoLevelFactorial(factors - halvings).map((row) => {
    const full = [...row];
    for (const generator of generators) {
      let product = 1;
      for (const letter of generator.slice(2)) product *= full[letters.indexOf(letter)]!;
      full.push(product);
    }
    return full;
  });
  const words = definingRelation(generators);
  return { rows, generators, words, resolution: words[0]!.length };
}

/**
 * All words of the defining relation: every product of the generators' words, letters that occur twice dropping out
 * (2^p − 1 of them), shortest first. Generators as "E=ABC". Throws nothing for those. Source: group algebra of the
 * columns, Box, Hunter and Hunter.
 * @example definingRelation(["D=AB", "E=AC"]) // ["ABD", "ACE", "BCDE"]
 */
export function definingRelation(generators: readonly string[]): string[] {
  const words: string[] = [];
  for (let subset = 1; subset < 2 ** generators.length; subset++) {
    const odd = new Set<string>();
    generators.forEach((generator, i) => {
      if (((subset >> i) & 1) === 0) return;
      for (const letter of generator.replace("=", "")) {
        if (!odd.delete(letter)) odd.add(letter);
      }
    });
    words.push([...odd].sort().join(""));
  }
  return words.sort((a, b) => a.length - b.length || (a < b ? -1 : 1));
}
