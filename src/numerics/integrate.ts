import { demand, NumericalError } from "./numerical-error.ts";

/** Positive nodes and weights of the 15-point Kronrod rule and its 7-point Gauss rule. Source: quadpack-1983. */
const nodes = [
  0.9914553711208126, 0.9491079123427585, 0.8648644233597691, 0.7415311855993945, 0.5860872354676911,
  0.4058451513773972, 0.20778495500789848,
];
const kronrodWeights = [
  0.022935322010529224, 0.06309209262997856, 0.10479001032225019, 0.14065325971552592, 0.1690047266392679,
  0.19035057806478542, 0.20443294007529889,
];
const kronrodCentre = 0.20948214108472782;
const gaussWeights = [0.1294849661688697, 0.27970539148927664, 0.3818300505051189];
const gaussCentre = 0.4179591836734694;

export interface Integral {
  readonly value: number;
  /** estimate of the absolute error, unit of the value */
  readonly error: number;
  readonly evaluations: number;
}

export interface IntegrateOptions {
  /** wanted relative error (1) */
  readonly relative?: number;
  /** wanted absolute error, unit of the result */
  readonly absolute?: number;
  /** how often one interval may be halved */
  readonly maxDepth?: number;
}

interface Piece {
  readonly low: number;
  readonly high: number;
  readonly depth: number;
  readonly value: number;
  readonly error: number;
}

function rule(f: (x: number) => number, low: number, high: number, depth: number): Piece {
  const middle = 0.5 * (low + high);
  const half = 0.5 * (high - low);
  const atMiddle = f(middle);
  let kronrod = kronrodCentre * atMiddle;
  let gauss = gaussCentre * atMiddle;
  for (let i = 0; i < 7; i += 1) {
    const pair = f(middle - half * nodes[i]!) + f(middle + half * nodes[i]!);
    kronrod += kronrodWeights[i]! * pair;
    if (i % 2 === 1) gauss += gaussWeights[(i - 1) / 2]! * pair;
  }
  const value = kronrod * half;
  if (!Number.isFinite(value))
    throw new NumericalError(`integrate: the integrand is not finite between ${low} and ${high}`);
  return { low, high, depth, value, error: Math.abs((kronrod - gauss) * half) };
}

/**
 * ∫ f(x) dx from low to high by adaptive halving with the 7-15 Gauss-Kronrod pair; the worst piece is halved first.
 * `high` may be Infinity (x = low + t/(1 − t)). f finite inside the interval; the ends are never evaluated.
 * Unit: f times x. The error is the difference of the pair, which overstates it for smooth f. Source: quadpack-1983.
 * @throws NumericalError when a piece would have to be halved more than maxDepth times, or f is not finite
 */
export function integrateWithError(
  f: (x: number) => number,
  low: number,
  high: number,
  options: IntegrateOptions = {},
): Integral {
  const { relative = 1e-10, absolute = 0, maxDepth = 40 } = options;
  demand(
    Number.isFinite(low) && !Number.isNaN(high) && high !== -Infinity,
    "integrate: limits must be numbers, low finite",
  );
  if (high === Infinity) {
    const folded = (t: number): number => f(low + t / (1 - t)) / (1 - t) ** 2;
    return integrateWithError(folded, 0, 1, options);
  }
  const pieces: Piece[] = [rule(f, low, high, 0)];
  let evaluations = 15;
  for (;;) {
    let value = 0;
    let error = 0;
    let worst = 0;
    pieces.forEach((piece, i) => {
      value += piece.value;
      error += piece.error;
      if (piece.error > pieces[worst]!.error) worst = i;
    });
    const scale = pieces.reduce((sum, piece) => sum + Math.abs(piece.value), 0);
    if (error <= Math.max(absolute, relative * Math.abs(value), 1e-15 * scale)) return { value, error, evaluations };
    const piece = pieces[worst]!;
    if (piece.depth >= maxDepth || pieces.length > 2000) {
      throw new NumericalError(
        `integrate: no convergence between ${piece.low} and ${piece.high} (error ${error} of ${value})`,
      );
    }
    const middle = 0.5 * (piece.low + piece.high);
    pieces[worst] = rule(f, piece.low, middle, piece.depth + 1);
    pieces.push(rule(f, middle, piece.high, piece.depth + 1));
    evaluations += 30;
  }
}

/** The value of `integrateWithError`. */
export function integrate(f: (x: number) => number, low: number, high: number, options?: IntegrateOptions): number {
  return integrateWithError(f, low, high, options).value;
}

/**
 * Nodes and weights of the n-point Gauss-Legendre rule on −1 to 1, nodes ascending; exact for polynomials of degree
 * 2n − 1. n a whole number from 1 to 500. Newton iteration on the Legendre polynomial. Source: dlmf.
 * @throws NumericalError when n is outside its range
 */
export function gaussLegendre(n: number): { readonly nodes: Float64Array; readonly weights: Float64Array } {
  demand(Number.isInteger(n) && n >= 1 && n <= 500, `gaussLegendre: n must be a whole number from 1 to 500, got ${n}`);
  const x = new Float64Array(n);
  const w = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    let z = -Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let turn = 0; turn < 100; turn += 1) {
      let before = 1;
      let p = z;
      for (let k = 2; k <= n; k += 1) [before, p] = [p, ((2 * k - 1) * z * p - (k - 1) * before) / k];
      slope = (n * (z * p - before)) / (z * z - 1);
      const change = n === 1 ? z : p / slope;
      z -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    if (n === 1) slope = 1;
    x[i] = z;
    w[i] = 2 / ((1 - z * z) * slope * slope);
  }
  return { nodes: x, weights: w };
}
