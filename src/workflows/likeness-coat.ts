import type { Metre, Stack, StackLayer } from "#terms";
import type { LayerWish } from "./likeness-terms.ts";

/** Own choices: what is shared between kinds that are not the same. */
const OTHER_COLOUR = 0.7;
const SAME_GROUP = 0.3;
/** Share of a layer's likeness that its thickness decides. */
const THICKNESS_PART = 0.3;
/** ln ratio of two thicknesses at which they are one standard deviation apart. */
const THICKNESS_SCALE = Math.LN2;

/**
 * How near two positive figures are.
 *
 * Equation: exp(−½·(ln(a/b)/scale)²). Units: a and b the same unit; scale ln ratio; result 1.
 * Range: a, b, scale above 0. Errors: none. Source: own.
 */
export function nearness(a: number, b: number, scale: number): number {
  return Math.exp(-0.5 * (Math.log(a / b) / scale) ** 2);
}

const thicknessNearness = (wish: Metre | null, layer: StackLayer): number =>
  wish === null ? 1 : nearness(wish, layer.thickness.value, THICKNESS_SCALE);

/**
 * Likeness of a layer to what is asked for.
 *
 * Equation: k·(0.7 + 0.3·exp(−½·(ln(t/t')/ln 2)²)); k = 1 for the same kind and colour, 0.7 in another colour, 0.3 for
 * another kind of the same group, 0 else; the best of the kinds asked for.
 * Units: thicknesses m; result 1, 0 to 1. Errors: none. Source: own.
 */
export function layerLikeness(wish: LayerWish, layer: StackLayer): number {
  const same = wish.kinds.some((k) => k.id === layer.kind.id);
  const group = wish.kinds.some((k) => k.group === layer.kind.group);
  const colour = wish.colour === null || wish.colour === layer.colour ? 1 : OTHER_COLOUR;
  const kind = same ? colour : group ? SAME_GROUP : 0;
  return kind * (1 - THICKNESS_PART + THICKNESS_PART * thicknessNearness(wish.thickness, layer));
}

/**
 * The figure of `coatLikeness` alone, for thousands of stacks.
 *
 * Equation: as `coatLikeness`, row by row. Units: result 1, 0 to 1. Errors: none. Source: own.
 */
export function coatShare(wishes: readonly LayerWish[], { layers }: Stack): number {
  const n = layers.length;
  if (wishes.length + n === 0) return 1;
  // below[j]: most that the wishes after this one and the layers from j on can give
  let below = new Float64Array(n + 1);
  let here = new Float64Array(n + 1);
  for (let i = wishes.length - 1; i >= 0; i -= 1) {
    const wish = wishes[i] as LayerWish;
    for (let j = n - 1; j >= 0; j -= 1)
      here[j] = Math.max(below[j]!, here[j + 1]!, layerLikeness(wish, layers[j] as StackLayer) + below[j + 1]!);
    [below, here] = [here, below];
    here.fill(0);
  }
  return (2 * below[0]!) / (wishes.length + n);
}

/** Which layer stands for which wish; null on either side: nothing does. Outermost first. */
export interface LayerPair {
  readonly wish: LayerWish | null;
  readonly layer: StackLayer | null;
}

/**
 * Likeness of a coat to what is asked for, with the pairs that it comes from.
 *
 * Equation: 2·Σ s/(n + n'), Σ over the pairs in the same order that give most, s as `layerLikeness`; bare metal is
 * wholly like bare metal.
 * Units: result 1, 0 to 1. Errors: none. Source: own (Dice's coefficient over the best alignment in order).
 */
export function coatLikeness(
  wishes: readonly LayerWish[],
  stack: Stack,
): { readonly likeness: number; readonly pairs: readonly LayerPair[] } {
  const { layers } = stack;
  if (wishes.length + layers.length === 0) return { likeness: 1, pairs: [] };
  // best[i][j]: most that the wishes from i and the layers from j on can give
  const best = Array.from({ length: wishes.length + 1 }, () => new Float64Array(layers.length + 1));
  const alike = wishes.map((w) => layers.map((l) => layerLikeness(w, l)));
  for (let i = wishes.length - 1; i >= 0; i -= 1)
    for (let j = layers.length - 1; j >= 0; j -= 1)
      best[i]![j] = Math.max(best[i + 1]![j]!, best[i]![j + 1]!, alike[i]![j]! + best[i + 1]![j + 1]!);
  return {
    likeness: (2 * best[0]![0]!) / (wishes.length + layers.length),
    pairs: pairsOf(wishes, layers, alike, best),
  };
}

function pairsOf(
  wishes: readonly LayerWish[],
  layers: readonly StackLayer[],
  alike: readonly (readonly number[])[],
  best: readonly Float64Array[],
): LayerPair[] {
  const pairs: LayerPair[] = [];
  let i = 0;
  let j = 0;
  while (i < wishes.length || j < layers.length) {
    const wish = wishes[i] ?? null;
    const layer = layers[j] ?? null;
    const s = wish && layer ? alike[i]![j]! : 0;
    if (s > 0 && best[i]![j]! === s + best[i + 1]![j + 1]!) {
      pairs.push({ wish, layer });
      i += 1;
      j += 1;
    } else if (layer === null || (wish !== null && best[i]![j]! === best[i + 1]![j]!)) {
      pairs.push({ wish, layer: null });
      i += 1;
    } else {
      pairs.push({ wish: null, layer });
      j += 1;
    }
  }
  return pairs;
}
