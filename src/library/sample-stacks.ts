import { createRandom, sobolMaxDimension, sobolPoints } from "#numerics";
import type { Property, Stack, StackSample, WeightedStack } from "#terms";
import { invalid } from "#units";
import { allocateDraws } from "./allocate-draws.ts";
import { coordinateNames } from "./coordinate-names.ts";
import { charDimensions, drawLayer, layerDimensions } from "./draw-layer.ts";
import { drawMetal, metalDimensions } from "./draw-metal.ts";
import { type KnownNumbers, knownShares, requireKnown } from "./known-numbers.ts";
import { drawProperty } from "./property-quantile.ts";
import { conversionEnergy, conversionRate, plumeFactor } from "./removal-priors.ts";

const machine = { unit: "1", validRange: "a maintained machine", source: "machine-spread", fromMemory: true } as const;

/** Factor on the nominal spot diameter: within 5 % in 9 of 10 cases. */
export const spotFactorSpread: Property = {
  value: 1,
  low: 1 / 1.05,
  high: 1.05,
  distribution: "lognormal",
  ...machine,
};
/** Factor on the delivered power: within 3 % in 9 of 10 cases. */
export const powerFactorSpread: Property = {
  value: 1,
  low: 1 / 1.03,
  high: 1.03,
  distribution: "lognormal",
  ...machine,
};

/** Shares used up by plume and conversion, at the very end. */
const priorDimensions = 3;

/** Shares one draw of a stack uses up: machine, metal, layers, the chars of the layers, plume and conversion. */
const dimensionsOf = (stack: Stack): number =>
  2 + metalDimensions + stack.layers.length * (layerDimensions + charDimensions) + priorDimensions;

function drawStack(stack: Stack, stackIndex: number, u: ArrayLike<number>): StackSample {
  const layers = 2 + metalDimensions;
  const chars = layers + stack.layers.length * layerDimensions;
  const priors = chars + stack.layers.length * charDimensions;
  return {
    stackIndex,
    plumeFactor: drawProperty(plumeFactor, u[priors]!),
    conversionRate: drawProperty(conversionRate, u[priors + 1]!),
    conversionEnergy: drawProperty(conversionEnergy, u[priors + 2]!),
    spotFactor: drawProperty(spotFactorSpread, u[0]!),
    powerFactor: drawProperty(powerFactorSpread, u[1]!),
    metal: drawMetal(stack.metal, stack.metalThickness, u, 2),
    layers: stack.layers.map((layer, i) =>
      drawLayer(layer, u, layers + i * layerDimensions, chars + i * charDimensions),
    ),
  };
}

/** Shares of `count` draws: scrambled Sobol as far as it reaches, a seeded stream beyond. */
function shares(count: number, dimensions: number, seed: number): ArrayLike<number>[] {
  const even = Math.min(dimensions, sobolMaxDimension);
  const points = sobolPoints(count, even, { seed });
  if (dimensions === even) return points;
  const random = createRandom(seed);
  return points.map((point, i) => {
    const stream = random.substream(i);
    return Float64Array.from({ length: dimensions }, (_, j) => (j < even ? point[j]! : stream.next()));
  });
}

/** Shares of a stack as they come, or moved to where something is known. */
function mover(stack: Stack, known: KnownNumbers | undefined): (u: ArrayLike<number>) => ArrayLike<number> {
  if (known === undefined || known.size === 0) return (u) => u;
  requireKnown(known);
  const names = coordinateNames(stack);
  return (u) => knownShares(u, names, known);
}

/**
 * Draws from a mixture of stacks: every uncertain property replaced by a number of its own distribution.
 * Stacks get draws in proportion to their weights (at least one each), in the order of the mixture. The same seed
 * gives the same draws, and for a mixture of one stack draw i does not depend on drawCount.
 * Properties are drawn independently; a temperature table is scaled as a whole. Where something is known of a number
 * it is drawn about its known mean (`knownShare`); names that a stack has not are passed over. SI.
 * @throws InvalidInput when drawCount is no whole number from 1, the seed no whole number, the mixture empty, a
 * colour class unknown to its kind, or a known number has no finite mean and positive spread
 */
export function sampleStacks(
  mixture: readonly WeightedStack[],
  drawCount: number,
  seed: number,
  known?: KnownNumbers,
): StackSample[] {
  return drawStacks(mixture, drawCount, seed, known).map((d) => d.sample);
}

/** A draw with the shares (quantile levels, 0 to 1) that its properties were read at, in the order of `coordinateNames`. */
export interface DrawnStack {
  readonly sample: StackSample;
  readonly shares: ArrayLike<number>;
}

/** The same draws as `sampleStacks`, each with its shares. Errors as there. */
export function drawStacks(
  mixture: readonly WeightedStack[],
  drawCount: number,
  seed: number,
  known?: KnownNumbers,
): DrawnStack[] {
  if (mixture.length === 0) invalid("mixture", "empty", "", "must hold at least one stack");
  if (!Number.isSafeInteger(seed)) invalid("seed", seed, "", "must be a whole number");
  const counts = allocateDraws(
    mixture.map((w) => w.weight),
    drawCount,
  );
  return mixture.flatMap(({ stack }, index) => {
    const streamSeed = (seed + index * 1_000_003) % Number.MAX_SAFE_INTEGER;
    const move = mover(stack, known);
    return shares(counts[index]!, dimensionsOf(stack), streamSeed).map((even) => {
      const u = move(even);
      return { sample: drawStack(stack, index, u), shares: u };
    });
  });
}

/** The stack with every property at its median, or at the mean of what is known of it. Errors as `sampleStacks`. */
export function centralSample(stack: Stack, known?: KnownNumbers): StackSample {
  return drawStack(stack, 0, mover(stack, known)(new Float64Array(dimensionsOf(stack)).fill(0.5)));
}
