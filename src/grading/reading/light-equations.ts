import { cholesky, choleskyInverse, solveCholesky } from "#numerics";
import { FIELD_SPREAD, FIELD_TERMS, type FieldFrame, fieldTerms } from "./light-field.ts";
import type { LightSample } from "./view.ts";

/** Place of the unknowns: 1/power, common field, then for each channel its gain, its own field and the layer's colour. */
const COMMON = 1;
const CHANNEL = COMMON + FIELD_TERMS;
/** A channel has slopes of its own: two lamps of different colour; finer tints are not told from the layer. */
const OWN = 2;
const PER_CHANNEL = 2 + OWN;
export const UNKNOWNS = CHANNEL + 3 * PER_CHANNEL;
/** Spread of a channel's own field against the common one, as a share of the latter's: lamps differ in colour little. */
const TINTED = 0.3;
/** Spread of 1/power around 1 (own choice, weak beside two strips of greys). */
const POWER_SPREAD = 0.25;

/**
 * One sample in one channel: target/power + gain + field + (layer) = bent, in ln light. The power stands beside the known
 * reflectances and not beside what was photographed: the other way round a layer with texture would flatten it.
 */
export interface LightRow {
  readonly sample: LightSample;
  readonly channel: number;
  /** ln reflectance where it is known, null for the layer, whose colour is sought */
  readonly target: number | null;
  /** 1 / standard deviation, times the root of the robust weight */
  readonly pull: number;
}

/** Coefficients of one row, without its pull. */
export function rowOf(
  frame: FieldFrame,
  { sample, channel, target }: Omit<LightRow, "pull">,
  into: Float64Array,
  at = 0,
): void {
  into.fill(0, at, at + UNKNOWNS);
  const own = at + CHANNEL + channel * PER_CHANNEL;
  into[at] = target ?? 0;
  into[own] = 1;
  fieldTerms(frame, sample.x, sample.y, into, at + COMMON);
  for (let t = 0; t < OWN; t += 1) into[own + 1 + t] = into[at + COMMON + t]!;
  if (target === null) into[own + 1 + OWN] = 1;
}

/** Weak prior: σ of each unknown, 0 where it is left free. */
function spreads(): Float64Array {
  const sigma = new Float64Array(UNKNOWNS);
  sigma[0] = POWER_SPREAD;
  for (let t = 0; t < FIELD_TERMS; t += 1) {
    sigma[COMMON + t] = FIELD_SPREAD[t]!;
    for (let c = 0; c < 3 && t < OWN; c += 1) sigma[CHANNEL + c * PER_CHANNEL + 1 + t] = TINTED * FIELD_SPREAD[t]!;
  }
  // A gain of e^±5 and a layer of e^±5 are no restriction; they keep the equations solvable without a layer.
  for (let c = 0; c < 3; c += 1) {
    sigma[CHANNEL + c * PER_CHANNEL] = 5;
    sigma[CHANNEL + c * PER_CHANNEL + PER_CHANNEL - 1] = 5;
  }
  return sigma;
}

/** The equations of one set of weights, factorised: what was photographed may then change cheaply. */
export interface LightEquations {
  /** unknowns for ln light of each row */
  solve(bent: ArrayLike<number>): Float64Array;
  /** ln light by which each row is off the unknowns, in reflectance */
  offsets(bent: ArrayLike<number>, unknowns: ArrayLike<number>): Float64Array;
  /** UNKNOWNS × UNKNOWNS, of the unknowns */
  covariance(): Float64Array;
}

/**
 * Weighted least squares for power, light field, gains and the layer's colour, all linear in ln light once the tone is set.
 * Rows: any number; a weak prior stands beside them, which keeps the normal equations well conditioned (coordinates run
 * from −1 to 1, spreads from 0.03 to 5). Errors: NumericalError never, thanks to the prior.
 */
export function lightEquations(frame: FieldFrame, rows: readonly LightRow[]): LightEquations {
  const design = new Float64Array(rows.length * UNKNOWNS);
  const normal = new Float64Array(UNKNOWNS * UNKNOWNS);
  const pull = Float64Array.from(spreads(), (sigma) => 1 / sigma ** 2);
  for (let k = 0; k < UNKNOWNS; k += 1) normal[k * UNKNOWNS + k] = pull[k]!;
  rows.forEach((row, i) => {
    const at = i * UNKNOWNS;
    rowOf(frame, row, design, at);
    const weight = row.pull ** 2;
    for (let k = 0; k < UNKNOWNS; k += 1) {
      const own = weight * design[at + k]!;
      if (own === 0) continue;
      for (let m = 0; m < UNKNOWNS; m += 1) normal[k * UNKNOWNS + m]! += own * design[at + m]!;
    }
  });
  const factor = cholesky(normal, UNKNOWNS);
  return {
    solve(bent) {
      const right = new Float64Array(UNKNOWNS);
      right[0] = pull[0]!;
      rows.forEach((row, i) => {
        const own = row.pull ** 2 * bent[i]!;
        for (let k = 0; k < UNKNOWNS; k += 1) right[k]! += own * design[i * UNKNOWNS + k]!;
      });
      return solveCholesky(factor, UNKNOWNS, right);
    },
    offsets: (bent, unknowns) =>
      Float64Array.from(rows, (_, i) => {
        let value = bent[i]!;
        for (let k = 0; k < UNKNOWNS; k += 1) value -= design[i * UNKNOWNS + k]! * unknowns[k]!;
        return value / unknowns[0]!;
      }),
    covariance: () => choleskyInverse(factor, UNKNOWNS),
  };
}

/** ln of gain and field of a channel at a place: what is taken off ln light. */
export function gainAt(frame: FieldFrame, unknowns: ArrayLike<number>, x: number, y: number, channel: number): number {
  const terms = new Float64Array(FIELD_TERMS);
  fieldTerms(frame, x, y, terms);
  const own = CHANNEL + channel * PER_CHANNEL;
  let gain = unknowns[own]!;
  for (let t = 0; t < FIELD_TERMS; t += 1) gain += unknowns[COMMON + t]! * terms[t]!;
  for (let t = 0; t < OWN; t += 1) gain += unknowns[own + 1 + t]! * terms[t]!;
  return gain;
}

/** ln of the layer's reflectance over the power, in a channel. */
export const layerAt = (unknowns: ArrayLike<number>, channel: number): number =>
  unknowns[CHANNEL + channel * PER_CHANNEL + PER_CHANNEL - 1]!;
