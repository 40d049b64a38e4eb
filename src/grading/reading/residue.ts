import { mean, quantile } from "#numerics";
import { requireNonNegative } from "#units";

/** How much of a patch is still covered, as one photograph shows it. Shares of area, 0 to 1. */
export interface Residue {
  /** mean of coverage and contrast */
  readonly value: number;
  /** standard uncertainty */
  readonly uncertainty: number;
  /** share of pixels nearer to the coated than to the bare reference */
  readonly coverage: number;
  /** mean place between the patch's own cleanest metal and the coat */
  readonly contrast: number;
  /** mean place between the bare reference and the coat, as it is */
  readonly unmixed: number;
  /** |coverage − contrast|: large where the patch is evenly darker rather than spotted */
  readonly gap: number;
  /** share below which nothing is told from nothing, 0.02 to 0.05 */
  readonly detectionLimit: number;
}

/** Standard deviations from the 5 % quantile up to the middle of an even face. */
const Q05_TO_MIDDLE = 1.645;
/** Nothing is cleaner than the bare reference by more than the light may be off; what seems so is melt that glints. */
const CLEANEST = -0.03;
/** Pixels beyond the references count this far: textured coat lies on either side of its colour. */
const BEYOND = 0.25;
/** From here on the cleanest pixels of a patch may be coat, from there on they are taken for it (own choice). */
const MAYBE_COAT = 0.3;
const SURELY_COAT = 0.6;
/**
 * Spread of the residue's error: a part of the gap between its two numbers, a part that is widest at half cover, and what
 * is left of either; set by simulated patches (tests/grading/residue.test.ts), own choice.
 */
const RESIDUE_SPREAD = { gap: 0.4, half: 0.018, least: 0.006 } as const;
const LIMIT_LOW = 0.02;
const LIMIT_HIGH = 0.05;
/** Growth of the detection limit with the scatter of bare metal and with the gap (own choice, held by tests). */
const LIMIT_PER = { scatter: 0.6, gap: 0.4 } as const;

const clip = (value: number, low: number, high: number): number => (value < low ? low : value > high ? high : value);

/**
 * Share of area below which a reading is not told from none. Equation: 0.6·scatter + 0.4·gap, held between 0.02 and 0.05.
 * Units: scatter 1 (of u on bare metal), gap share of area; result share of area. Errors: InvalidInput for one below 0.
 * Source: own; shared/grading for 2-5 %.
 */
export function detectionLimit(scatter: number, gap = 0): number {
  const grown = LIMIT_PER.scatter * requireNonNegative("scatter of bare metal", scatter);
  return clip(grown + LIMIT_PER.gap * requireNonNegative("gap", gap), LIMIT_LOW, LIMIT_HIGH);
}

/**
 * Residue of a patch from the place u of its pixels between bare (0) and coated (1).
 *
 * Equation: coverage = share of u > ½; contrast = mean of (u − z)/(1 − z), z the patch's own 5 % quantile plus 1.645
 * scatters of bare metal (the middle of its cleanest metal), no less than −0.03 and given up for 0 where that is itself coat (0.3 to 0.6);
 * value their mean; uncertainty √((0.4·gap)² + (0.018·√(4c(1 − c)))² + 0.006²).
 * Units: u 1, scatter 1 (standard deviation of u on bare metal); result shares of area.
 * Range: at least one pixel. Errors: InvalidInput for a scatter below 0. Source: own; shared/grading.
 */
export function residueOf(u: Float32Array, scatter: number): Residue {
  requireNonNegative("scatter of bare metal", scatter);
  const cleanest = Math.max(CLEANEST, quantile(u, 0.05) + Q05_TO_MIDDLE * scatter);
  const t = clip((cleanest - MAYBE_COAT) / (SURELY_COAT - MAYBE_COAT), 0, 1);
  const zero = cleanest * (1 - t * t * (3 - 2 * t));
  let over = 0;
  let sum = 0;
  for (let i = 0; i < u.length; i += 1) {
    if (u[i]! > 0.5) over += 1;
    sum += clip((u[i]! - zero) / (1 - zero), -BEYOND, 1 + BEYOND);
  }
  const coverage = over / u.length;
  const contrast = clip(sum / u.length, 0, 1);
  const value = (coverage + contrast) / 2;
  const gap = Math.abs(coverage - contrast);
  return {
    value,
    uncertainty: Math.hypot(
      RESIDUE_SPREAD.gap * gap,
      RESIDUE_SPREAD.half * Math.sqrt(4 * value * (1 - value)),
      RESIDUE_SPREAD.least,
    ),
    coverage,
    contrast,
    unmixed: clip(mean(u), 0, 1),
    gap,
    detectionLimit: detectionLimit(scatter, gap),
  };
}
