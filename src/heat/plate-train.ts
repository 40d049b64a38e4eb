import { gaussLegendre } from "#numerics";
import { requirePositive } from "#units";
import { depthFactor, type PlateKernel, plateKernel } from "./plate-kernel.ts";
import type { PlateBody } from "./superposition.ts";

/** A row of equal pulses along a straight line, seen from the spot of the next one. SI. */
export interface RowOfPulses {
  /** Hz */
  readonly frequency: number;
  /** m/s */
  readonly speed: number;
  /** m, 1/e² */
  readonly radius: number;
  /** m that have been scanned */
  readonly length: number;
}

const panel = gaussLegendre(10);
/** Pulses that count one by one; the sum over older ones is an integral between half pulses. */
const ONE_BY_ONE = 6;
/** Heat of pulses beyond this exponent no longer counts: 1e-9 of its middle. */
const FAR = 20;

/**
 * Surface rise just before a pulse at its own spot left by the earlier pulses of its row, per watt of absorbed mean
 * power: Σ_{n=1}^{N} 2/(f·π(w² + 8Dt_n))·exp(−2(v·t_n)²/(w² + 8Dt_n))·plate(0, t_n), t_n = n/f, N = ⌊f·length/v⌋. The
 * first six terms one by one, the rest as the integral from 6.5 to N + 1/2 (midpoint rule read backwards, with its
 * first correction), Gauss-Legendre in √t. Units: `RowOfPulses`, `PlateBody`; result K/W, 0 for a row of no pulses.
 * Range: endless plate with insulated faces; within 1e-4 of the sum (measured). Throws `InvalidInput`.
 * Source: Carslaw & Jaeger, 2nd ed., 10.3; Euler-Maclaurin formula.
 */
export function trainRise(body: PlateBody, row: RowOfPulses): number {
  const kernel = plateKernel(body, row.radius);
  const frequency = requirePositive("frequency", row.frequency, "Hz");
  const speed = requirePositive("speed", row.speed, "m/s");
  const count = Math.floor((requirePositive("length", row.length, "m") / speed) * frequency * (1 + 1e-12));
  const exact = Math.min(ONE_BY_ONE, count);
  let sum = 0;
  for (let n = 1; n <= exact; n++) sum += rowTerm(kernel, speed, n / frequency);
  const end = Math.min((count + 0.5) / frequency, lastAge(kernel, speed));
  const start = (exact + 0.5) / frequency;
  if (count > exact && end > start) {
    sum += frequency * rowIntegral(kernel, speed, start, end);
    const h = 0.5 / frequency;
    const slopeAt = (age: number) => rowTerm(kernel, speed, age + h) - rowTerm(kernel, speed, age - h);
    // Σ f(n) = ∫ f − (f'(end) − f'(start))/24.
    sum += (slopeAt(start) - slopeAt(end)) / 24;
  }
  return ((2 / Math.PI) * kernel.perHeat * sum) / frequency;
}

function rowTerm(kernel: PlateKernel, speed: number, age: number): number {
  const wide = kernel.radius2 + 8 * kernel.diffusivity * age;
  const shift = speed * age;
  return (Math.exp((-2 * shift * shift) / wide) / wide) * depthFactor(kernel, age);
}

/** Age at which the exponent 2(v·t)²/(w² + 8Dt) reaches FAR, s. */
function lastAge({ diffusivity, radius2 }: PlateKernel, speed: number): number {
  const b = 4 * FAR * diffusivity;
  return (b + Math.sqrt(b * b + 0.5 * FAR * radius2 * speed * speed)) / (speed * speed);
}

/** ∫ of the terms over age, panels that grow sixfold at most. */
function rowIntegral(kernel: PlateKernel, speed: number, start: number, end: number): number {
  let sum = 0;
  const panels = Math.max(1, Math.ceil(Math.log(end / start) / Math.log(6)));
  const ratio = (end / start) ** (0.5 / panels);
  let low = Math.sqrt(start);
  for (let k = 0; k < panels; k++) {
    const half = 0.5 * low * (ratio - 1);
    for (let q = 0; q < 10; q++) {
      const root = low + half * (1 + panel.nodes[q]!);
      sum += panel.weights[q]! * half * 2 * root * rowTerm(kernel, speed, root * root);
    }
    low *= ratio;
  }
  return sum;
}
