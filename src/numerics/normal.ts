import { erfc, erfcx } from "./error-function.ts";
import { demand } from "./numerical-error.ts";

const inverseRootTwoPi = 0.3989422804014327;

/** Standard normal density φ(x) = exp(−x²/2)/√(2π). Any x (1); result (1). Source: dlmf. */
export function normalPdf(x: number): number {
  return inverseRootTwoPi * Math.exp(-0.5 * x * x);
}

/** Standard normal distribution Φ(x) = erfc(−x/√2)/2. Any x (1); result 0 to 1 (1). Source: dlmf. */
export function normalCdf(x: number): number {
  if (x > -1) return 0.5 * erfc(-x * Math.SQRT1_2);
  if (x < -40) return 0;
  // x² is split before it is exponentiated: its rounding error would otherwise be multiplied by x².
  const head = Math.trunc(x * 16) / 16;
  const rest = (x - head) * (x + head);
  return 0.5 * Math.exp(-0.5 * head * head) * Math.exp(-0.5 * rest) * erfcx(-x * Math.SQRT1_2);
}

/** ln Φ(x), accurate far into the lower tail where Φ underflows. Any x (1); result ≤ 0 (1). Source: dlmf. */
export function normalLogCdf(x: number): number {
  if (x > -1) return Math.log1p(-normalCdf(-x));
  return -0.5 * x * x + Math.log(0.5 * erfcx(-x * Math.SQRT1_2));
}

const centre = {
  numerator: [
    2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946, 1971.5909503065513,
    133.14166789178438, 3.3871328727963665,
  ],
  denominator: [
    5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751, 687.1870074920579,
    42.31333070160091, 1,
  ],
};
const shoulder = {
  numerator: [
    0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
    5.769497221460691, 4.630337846156546, 1.4234371107496835,
  ],
  denominator: [
    1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
    1.6763848301838038, 2.053191626637759, 1,
  ],
};
const tail = {
  numerator: [
    2.0103343992922881e-7, 0.000027115555687434876, 0.0012426609473880784, 0.026532189526576124, 0.29656057182850487,
    1.7848265399172913, 5.463784911164114, 6.657904643501103,
  ],
  denominator: [
    2.0442631033899397e-15, 1.421511758316446e-7, 0.000018463183175100548, 0.0007868691311456133, 0.014875361290850615,
    0.1369298809227358, 0.599832206555888, 1,
  ],
};

function ratio(range: { numerator: readonly number[]; denominator: readonly number[] }, x: number): number {
  let top = 0;
  let bottom = 0;
  for (let i = 0; i < 8; i += 1) {
    top = top * x + range.numerator[i]!;
    bottom = bottom * x + range.denominator[i]!;
  }
  return top / bottom;
}

/**
 * Inverse of Φ. p (1) from 0 to 1; 0 gives −Infinity, 1 gives Infinity; result (1).
 * Relative error about 1e-15 down to p = 1e-300. Source: wichura-1988.
 * @throws NumericalError when p is outside 0 to 1
 */
export function normalQuantile(p: number): number {
  demand(p >= 0 && p <= 1, `normalQuantile: p must be 0 to 1, got ${p}`);
  const shifted = p - 0.5;
  if (Math.abs(shifted) <= 0.425) return shifted * ratio(centre, 0.180625 - shifted * shifted);
  const least = shifted < 0 ? p : 1 - p;
  if (least === 0) return shifted < 0 ? -Infinity : Infinity;
  const root = Math.sqrt(-Math.log(least));
  const size = root <= 5 ? ratio(shoulder, root - 1.6) : ratio(tail, root - 5);
  return shifted < 0 ? -size : size;
}

/** Logistic function 1/(1 + exp(−x)). Any x (1); result 0 to 1 (1). */
export function expit(x: number): number {
  if (x >= 0) return 1 / (1 + Math.exp(-x));
  const e = Math.exp(x);
  return e / (1 + e);
}

/**
 * ln(p/(1 − p)). p (1) from 0 to 1, the ends giving ∓Infinity; result (1).
 * @throws NumericalError when p is outside 0 to 1
 */
export function logit(p: number): number {
  demand(p >= 0 && p <= 1, `logit: p must be 0 to 1, got ${p}`);
  return Math.log(p) - Math.log1p(-p);
}
