import type { LaserSetup, PartEnquiry, Stack } from "#terms";
import { coatLikeness, coatShare } from "./likeness-coat.ts";
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
 * any more counts as another kind (S = 0.3). The figure alone: of thousands of pairs one is put in words.
 * Units: result 1, 0 to 1; 1 where all that is asked for is met. Errors: none. Source: own.
 */
function likenessOf(
  { layers, metals, setups }: LikeQuery,
  stack: Stack,
  setup: LaserSetup | null,
  alike: typeof setupLikeness,
): number {
  let whole = 0;
  let product = 1;
  const count = (value: number, weight: number) => {
    product *= value ** weight;
    whole += weight;
  };
  if (layers.length > 0) count(coatShare(layers, stack), WEIGHTS.coat);
  if (metals.length > 0)
    count(
      best(metals, (m) => metalLikeness(m, stack.metal)),
      WEIGHTS.metal,
    );
  if (setups.length > 0) count(setup === null ? UNKNOWN_SETUP : best(setups, (s) => alike(s, setup)), WEIGHTS.setup);
  return whole === 0 ? 1 : product ** (1 / whole);
}

const best = <T>(list: readonly T[], of: (one: T) => number): number =>
  list.reduce((most, one) => Math.max(most, of(one)), 0);

/** `setupLikeness` that works out each pair once: there are many trials and few set-ups. */
function setupsOnce(): typeof setupLikeness {
  const known = new Map<LaserSetup, Map<LaserSetup, number>>();
  return (a, b) => {
    const of = known.get(a) ?? new Map<LaserSetup, number>();
    known.set(a, of);
    const likeness = of.get(b) ?? setupLikeness(a, b);
    of.set(b, likeness);
    return likeness;
  };
}

function likenessWords({ layers, metals, setups }: LikeQuery, stack: Stack, setup: LaserSetup | null): string[] {
  const words: string[] = [];
  if (layers.length > 0) words.push(...coatWords(coatLikeness(layers, stack).pairs));
  if (metals.length > 0) words.push(metalWords(metals, stack.metal));
  if (setups.length > 0) words.push(setup === null ? "set-up not in the library" : setupWords(setups, setup));
  return words;
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
  const alike = setupsOnce();
  const found = cases.map((one) => {
    let likeness = 0;
    let most = -1;
    let nearest: { readonly query: LikeQuery; readonly stack: Stack } | null = null;
    for (const { query, weight } of queries) {
      for (const { stack, weight: share } of one.mixture) {
        const part = weight * share * likenessOf(query, stack, one.setup, alike);
        likeness += part;
        if (part > most) {
          most = part;
          nearest = { query, stack };
        }
      }
    }
    const words = nearest === null ? [] : likenessWords(nearest.query, nearest.stack, one.setup);
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
