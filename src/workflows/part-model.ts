import { centralSample, drawStacks } from "#library";
import { Draw, type MetalAnswers, metalAnswers } from "#patch";
import type { Belief, PartEnquiry, Stack } from "#terms";
import { invalid } from "#units";
import { type Carried, carried, type KnownShelves } from "./beliefs.ts";

/** One part with its versions of the physics, ready to be asked about settings. */
export interface PartModel {
  readonly part: PartEnquiry;
  /** every uncertain input drawn; the first ones serve quick looks */
  readonly draws: readonly Draw[];
  /** the shares that the properties of each draw were read at, see `coordinateNames` */
  readonly shares: readonly ArrayLike<number>[];
  /** the heaviest stack of the mixture, for geometry that does not differ between draws */
  readonly stack: Stack;
  readonly central: Draw;
  readonly seed: number;
  /** what earlier jobs left this one to start from; the draws have it in them */
  readonly carried: Carried;
  /** the beliefs that were handed in, for what belongs to a source (`carried` with its set-up gives the shifts) */
  readonly beliefs: readonly Belief[];
  /** the library that the beliefs are read with; ours as it comes where left out */
  readonly shelves?: KnownShelves;
}

export interface PartModelOptions {
  readonly seed: number;
  readonly drawCount: number;
  /** Answers of metals solved before; filled as metals are met, so that a caller with several parts pays once. */
  readonly answers?: Map<string, MetalAnswers>;
  /** What earlier trials taught; `carried` says how much of it counts here. */
  readonly beliefs?: readonly Belief[];
  /** the library that the beliefs are read with; ours as it comes where left out */
  readonly shelves?: KnownShelves | undefined;
}

/** Draws the versions of the physics of one part and solves the full column for its metal. */
export function createPartModel(part: PartEnquiry, options: PartModelOptions): PartModel {
  if (part.mixture.length === 0)
    invalid("material", part.material, "", "a metal of the library; this part is declined by triage");
  const answers = options.answers ?? new Map<string, MetalAnswers>();
  const beliefs = options.beliefs ?? [];
  const earlier = carried(beliefs, part, { shelves: options.shelves });
  const drawn = drawStacks(part.mixture, options.drawCount, options.seed, earlier.properties);
  const heaviest = part.mixture.reduce((a, b) => (b.weight > a.weight ? b : a));
  const central = centralSample(heaviest.stack, earlier.properties);
  const answersFor = (stack: Stack): MetalAnswers => {
    const known = answers.get(stack.metal.id);
    if (known) return known;
    const solved = metalAnswers(centralSample(stack).metal);
    answers.set(stack.metal.id, solved);
    return solved;
  };
  return {
    part,
    draws: drawn.map(({ sample }) => new Draw(sample, answersFor(part.mixture[sample.stackIndex].stack))),
    shares: drawn.map((d) => d.shares),
    stack: heaviest.stack,
    central: new Draw(central, answersFor(heaviest.stack)),
    seed: options.seed,
    carried: earlier,
    beliefs,
    ...(options.shelves === undefined ? {} : { shelves: options.shelves }),
  };
}
