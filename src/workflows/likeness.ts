import type { LaserSetup, PartEnquiry, Stack } from "#terms";
import { coatLikeness } from "./likeness-coat.ts";
import { metalLikeness, setupLikeness } from "./likeness-setup.ts";
import type { LikeCase, LikeQuery, WeightedQuery } from "./likeness-terms.ts";
import { coatWords, metalWords, setupWords } from "./likeness-words.ts";

/** How much coat, metal and set-up count; of what is not asked for the weight goes to the rest. Own choice. */
const WEIGHTS = { coat: 0.5, metal: 0.3, setup: 0.2 } as const;

export interface Likeness {
  /** 0 to 1 */
  readonly likeness: number;
  /** why, shortest first things first: coat, metal, set-up */
  readonly words: readonly string[];
}

/**
 * Likeness of a stack on a set-up to what is asked for.
 *
 * Equation: C^a·M^b·S^c with a, b, c = 0.5, 0.3, 0.2 divided by the sum over what is asked for; C as `coatLikeness`,
 * M as `metalLikeness`, S as `setupLikeness`, each the best of what would do equally well. A set-up that nobody knows
 * any more counts as another kind (S = 0.3).
 * Units: result 1, 0 to 1; 1 where all that is asked for is met. Errors: none. Source: own.
 */
export function stackLikeness(query: LikeQuery, stack: Stack, setup: LaserSetup | null): Likeness {
  const terms: [value: number, weight: number][] = [];
  const words: string[] = [];
  if (query.layers.length > 0) {
    const { likeness, pairs } = coatLikeness(query.layers, stack);
    terms.push([likeness, WEIGHTS.coat]);
    words.push(...coatWords(pairs));
  }
  if (query.metals.length > 0) {
    terms.push([Math.max(...query.metals.map((m) => metalLikeness(m, stack.metal))), WEIGHTS.metal]);
    words.push(metalWords(query.metals, stack.metal));
  }
  if (query.setups.length > 0) {
    terms.push([
      setup === null ? UNKNOWN_SETUP : Math.max(...query.setups.map((s) => setupLikeness(s, setup))),
      WEIGHTS.setup,
    ]);
    words.push(setup === null ? "set-up not in the library" : setupWords(query.setups, setup));
  }
  const whole = terms.reduce((sum, [, weight]) => sum + weight, 0);
  return { likeness: terms.reduce((product, [value, weight]) => product * value ** (weight / whole), 1), words };
}

const UNKNOWN_SETUP = 0.3;

/** A part's own question: every stack that it may be, with its share. */
export function queriesOfPart(part: PartEnquiry, setup: LaserSetup | null): WeightedQuery[] {
  return part.mixture.map(({ stack, weight }) => ({
    weight,
    query: {
      layers: stack.layers.map((l) => ({ kinds: [l.kind], colour: l.colour, thickness: l.thickness.value })),
      metals: [stack.metal],
      setups: setup === null ? [] : [setup],
    },
  }));
}

/**
 * Cases by their likeness, likest first; of equals the order given. What may be several stacks is as like as its stacks
 * are in the mean of their shares; the words are those of the pair that brings most.
 */
export function searchLike<T extends LikeCase>(
  queries: readonly WeightedQuery[],
  cases: readonly T[],
): (Likeness & { readonly case: T })[] {
  const found = cases.map((one) => {
    let likeness = 0;
    let most = -1;
    let words: readonly string[] = [];
    for (const { query, weight } of queries) {
      for (const { stack, weight: share } of one.mixture) {
        const pair = stackLikeness(query, stack, one.setup);
        const part = weight * share * pair.likeness;
        likeness += part;
        if (part > most) {
          most = part;
          words = pair.words;
        }
      }
    }
    const sure = kindsOfStack(one) === 1 ? [] : ["what it was burned on is not known for sure"];
    return { case: one, likeness: Math.min(1, likeness), words: [...words, ...sure] };
  });
  return found.sort((a, b) => b.likeness - a.likeness);
}

/** How many different coats and metals a case may be; thicknesses do not tell them apart. */
function kindsOfStack({ mixture }: LikeCase): number {
  return new Set(
    mixture.map(({ stack }) => [stack.metal.id, ...stack.layers.map((l) => `${l.kind.id}:${l.colour}`)].join("|")),
  ).size;
}
