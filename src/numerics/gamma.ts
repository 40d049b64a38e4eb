import { demand, NumericalError } from "./numerical-error.ts";

const halfLogTwoPi = 0.9189385332046727;
const iterationLimit = 200_000;

/**
 * Rest of Stirling's formula: ln Γ(x) − [(x − ½) ln x − x + ½ ln 2π]. x (1) above 0; result (1). Source: loader-2000.
 */
export function stirlingRest(x: number): number {
  if (x < 10) return lnGamma(x) - ((x - 0.5) * Math.log(x) - x + halfLogTwoPi);
  const square = 1 / (x * x);
  const series =
    1 / 12 -
    square *
      (1 / 360 -
        square * (1 / 1260 - square * (1 / 1680 - square * (1 / 1188 - square * (691 / 360360 - square / 156)))));
  return series / x;
}

/**
 * ln Γ(x). x (1) above 0; result (1). Error about 1e-15 of the larger of 1 and |ln Γ|. Stirling's series from 10 up,
 * recurrence below. Source: dlmf.
 * @throws NumericalError when x is not above 0
 */
export function lnGamma(x: number): number {
  demand(x > 0, `lnGamma: x must be above 0, got ${x}`);
  let product = 1;
  let at = x;
  while (at < 10) {
    product *= at;
    at += 1;
  }
  return (at - 0.5) * Math.log(at) - at + halfLogTwoPi + stirlingRest(at) - Math.log(product);
}

/** x·ln(x/m) + m − x without cancellation near x = m. x, m (1) above 0. Source: loader-2000. */
export function deviancePart(x: number, m: number): number {
  const gap = x - m;
  if (Math.abs(gap) >= 0.1 * (x + m)) return x * Math.log(x / m) - gap;
  const v = gap / (x + m);
  let term = 2 * x * v;
  let sum = gap * v;
  for (let j = 1; j < 1000; j += 1) {
    term *= v * v;
    const next = sum + term / (2 * j + 1);
    if (next === sum) break;
    sum = next;
  }
  return sum;
}

/** x^a·e^(−x)/Γ(a + 1). */
function poissonTerm(a: number, x: number): number {
  return Math.exp(-deviancePart(a, x) - stirlingRest(a)) / Math.sqrt(2 * Math.PI * a);
}

function lowerSeries(a: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; n < iterationLimit; n += 1) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * 1e-17) return poissonTerm(a, x) * sum;
  }
  throw new NumericalError(`gammaIncomplete: no convergence for a = ${a}, x = ${x}`);
}

/** Continued fraction of the upper function by the modified method of Lentz. */
function upperFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let value = d;
  for (let i = 1; i < iterationLimit; i += 1) {
    const numerator = -i * (i - a);
    b += 2;
    d = 1 / guarded(numerator * d + b);
    c = guarded(b + numerator / c);
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) < 2e-16) return poissonTerm(a, x) * a * value;
  }
  throw new NumericalError(`gammaIncomplete: no convergence for a = ${a}, x = ${x}`);
}

function guarded(x: number): number {
  return Math.abs(x) < 1e-300 ? 1e-300 : x;
}

function check(a: number, x: number): void {
  demand(a > 0 && Number.isFinite(a), `gammaIncomplete: a must be above 0, got ${a}`);
  demand(x >= 0, `gammaIncomplete: x must be 0 or above, got ${x}`);
}

/**
 * Regularised lower incomplete gamma function P(a, x) = γ(a, x)/Γ(a). a (1) above 0, x (1) 0 or above; result 0 to 1.
 * Source: dlmf 8.7, 8.9.
 * @throws NumericalError for arguments outside their range
 */
export function gammaLower(a: number, x: number): number {
  check(a, x);
  if (x === 0) return 0;
  if (x === Infinity) return 1;
  return x < a + 1 ? lowerSeries(a, x) : 1 - upperFraction(a, x);
}

/**
 * Regularised upper incomplete gamma function Q(a, x) = 1 − P(a, x), accurate where it is small. Source: dlmf 8.9.
 * @throws NumericalError for arguments outside their range
 */
export function gammaUpper(a: number, x: number): number {
  check(a, x);
  if (x === 0) return 1;
  if (x === Infinity) return 0;
  return x < a + 1 ? 1 - lowerSeries(a, x) : upperFraction(a, x);
}

/** Derivative of P(a, x) with respect to ln x: x^a·e^(−x)/Γ(a). */
export function gammaLogSlope(a: number, x: number): number {
  return a * poissonTerm(a, x);
}
