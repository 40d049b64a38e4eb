import { type LateralCase, lateralFactorFrom, movingLateralTable } from "#heat";
import {
  buildKernel,
  effectiveMetal,
  type EffectiveMetal,
  type Kernel,
  type MetalResponse,
  metalResponse,
  responseTable,
  type ResponseTable,
  type Strip,
  stripOf,
} from "#removal";
import type { MetalSample, StackSample } from "#terms";

/** Real answer of a metal to square pulses and to a passing Gaussian spot. */
export interface MetalAnswers {
  readonly square: ResponseTable;
  readonly gaussian: ResponseTable;
  /** how much of a column's rise is left when heat spreads sideways */
  readonly lateralFactor: (c: LateralCase) => number;
}

/** Solves the full column for one metal; the result serves all draws, durations and spots on that metal. */
export function metalAnswers(metal: MetalSample): MetalAnswers {
  return {
    square: responseTable(metal, "square"),
    gaussian: responseTable(metal, "gaussian"),
    lateralFactor: lateralFactorFrom(movingLateralTable()),
  };
}

/** Durations between which kernels are blended, for beams whose event length varies freely. */
const LADDER = 2;

/** One version of the physics, ready to be asked about any setting. Kernels are built when first needed. */
export class Draw {
  readonly sample: StackSample;
  readonly strip: Strip;
  readonly metal: EffectiveMetal;
  readonly square: MetalResponse;
  readonly gaussian: MetalResponse;
  readonly lateralFactor: (c: LateralCase) => number;
  readonly #answers: MetalAnswers;
  #kernels = new Map<string, Kernel>();

  constructor(sample: StackSample, answers: MetalAnswers) {
    this.#answers = answers;
    this.sample = sample;
    this.strip = stripOf(sample);
    this.metal = effectiveMetal(sample.metal);
    // Draws differ in melting point; the table is in ratios to it, so only the anchor moves.
    const anchored = (table: ResponseTable) =>
      metalResponse({ ...table, meltingTemperature: sample.metal.meltingTemperature });
    this.square = anchored(answers.square);
    this.gaussian = anchored(answers.gaussian);
    this.lateralFactor = answers.lateralFactor;
  }

  /** The same version with another spot or power factor: kernels do not depend on them and are shared. */
  withBeam(change: { readonly spotFactor?: number; readonly powerFactor?: number }): Draw {
    const other = new Draw({ ...this.sample, ...change }, this.#answers);
    other.#kernels = this.#kernels;
    return other;
  }

  /** The same version with every layer that comes off thicker by a factor. */
  withThickness(factor: number): Draw {
    const layers = this.sample.layers.map((l) => (l.mustStay ? l : { ...l, thickness: l.thickness * factor }));
    return new Draw({ ...this.sample, layers }, this.#answers);
  }

  /** Kernel for exactly this duration (s). */
  kernel(duration: number, shape: "square" | "gaussian"): Kernel {
    const key = `${shape}:${duration}`;
    let kernel = this.#kernels.get(key);
    if (!kernel) {
      kernel = buildKernel(this.sample, duration, shape);
      this.#kernels.set(key, kernel);
    }
    return kernel;
  }

  /** The two ladder kernels around a duration (s) and the weight of the second in ln duration. */
  kernelsAround(duration: number, shape: "square" | "gaussian"): { first: Kernel; second: Kernel; weight: number } {
    const rung = Math.log(duration) / Math.log(LADDER);
    const low = Math.floor(rung);
    return {
      first: this.kernel(LADDER ** low, shape),
      second: this.kernel(LADDER ** (low + 1), shape),
      weight: rung - low,
    };
  }
}
