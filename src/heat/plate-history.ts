import { GROUP_SIZE, loops, type PlateLoops } from "#loops";
import { gaussLegendre } from "#numerics";
import { invalid, requireInRange, requireNonNegative, requirePositive } from "#units";
import { depthFactor, type PlateKernel, plateKernel } from "./plate-kernel.ts";
import { type BeamLine, type PlateBody, plateDepthRise } from "./superposition.ts";

/** Places on one plane of the plate where the rise is followed, m. */
export interface Probes {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** m below the lit face, the same for all */
  readonly depth: number;
}

const panel = gaussLegendre(6);
/** A panel spans this many standard deviations of travel, and ages up to this ratio. */
const TRAVEL = 3;
const AGES = 3;
/** Heat further than √(FAR·(w² + 8Dt)) from a probe does not count: 2e-9 of its middle. */
const FAR = 10;
/** Times at which far lines are summed in one window; between them a polynomial runs. */
const CHEBYSHEV = 8;

/**
 * Histories of the rise at probes under a Gaussian beam that runs along straight lines, switched off between them
 * (bursts of a modulated beam are short lines): ΔT(t) = ∫ P·2/(π(w² + 8Da))·exp(−2r²/(w² + 8Da))·plate(z, a) da over
 * ages a, as a list of Gaussians at Gauss-Legendre ages. Lines of late are listed anew at every time; older ones at 8
 * Chebyshev times of a window as long as a line takes.
 * absorbedPower: W; radius: m, 1/e²; times: s, not falling. Result: K, row of probe p at [p·times + k].
 * Range: endless plate with insulated faces, constant properties; within 0.1 K of 2533 K (measured). Throws
 * `InvalidInput`. Source: Cline & Anthony, J. Appl. Phys. 48 (1977) 3895; Carslaw & Jaeger, 2nd ed., 10.3.
 */
export function pathHistories(
  body: PlateBody,
  absorbedPower: number,
  radius: number,
  path: readonly BeamLine[],
  probes: Probes,
  times: Float64Array,
  by: PlateLoops = loops().plate,
): Float64Array {
  const kernel = plateKernel(body, radius);
  requireNonNegative("absorbed power", absorbedPower, "W");
  requireInRange("depth", probes.depth, "m", 0, body.plateThickness);
  if (probes.x.length !== probes.y.length) invalid("count of y", probes.y.length, "", `must be ${probes.x.length}`);
  for (const [i, line] of path.entries()) {
    requirePositive("time of a line", line.endTime - line.startTime, "s");
    if (i > 0) requireNonNegative("pause before a line", line.startTime - path[i - 1]!.endTime + 1e-12, "s");
  }
  for (let k = 1; k < times.length; k++) requireNonNegative("time step", times[k]! - times[k - 1]!, "s");
  const rise = new Float64Array(probes.x.length * times.length);
  if (path.length === 0 || times.length === 0) return rise;
  const list = new AgeList(kernel, body, absorbedPower, probes, by);
  const span = (path[path.length - 1]!.endTime - path[0]!.startTime) / path.length;
  for (let first = 0; first < times.length; ) {
    const start = times[first]!;
    let last = first + 1;
    while (last < times.length && times[last]! <= start + span) last++;
    let old = 0;
    while (old < path.length && path[old]!.endTime <= start - 2 * span) old++;
    const far = old > 0 && last - first > CHEBYSHEV ? farRise(list, path.slice(0, old), start, span) : null;
    const near = path.slice(far ? old : 0);
    for (let k = first; k < last; k++) {
      const now = list.at(near, times[k]!);
      const before = far?.(times[k]!);
      for (let p = 0; p < now.length; p++) rise[p * times.length + k] = now[p]! + (before ? before[p]! : 0);
    }
    first = last;
  }
  return rise;
}

/** What old lines leave at the probes within a window: sums at Chebyshev times, barycentric between. */
function farRise(list: AgeList, lines: readonly BeamLine[], start: number, span: number): (t: number) => Float64Array {
  const nodes: number[] = [];
  const values: Float64Array[] = [];
  for (let k = 0; k < CHEBYSHEV; k++) {
    const angle = (Math.PI * (k + 0.5)) / CHEBYSHEV;
    nodes.push(start + 0.5 * span * (1 - Math.cos(angle)));
    values.push(list.at(lines, nodes[k]!));
  }
  const weights = nodes.map((_, k) => (k % 2 === 0 ? 1 : -1) * Math.sin((Math.PI * (k + 0.5)) / CHEBYSHEV));
  return (t) => {
    const exact = nodes.indexOf(t);
    if (exact >= 0) return values[exact]!;
    const out = new Float64Array(values[0]!.length);
    let total = 0;
    for (let k = 0; k < CHEBYSHEV; k++) {
      const w = weights[k]! / (t - nodes[k]!);
      total += w;
      for (let p = 0; p < out.length; p++) out[p]! += w * values[k]![p]!;
    }
    for (let p = 0; p < out.length; p++) out[p]! /= total;
    return out;
  };
}

/** Lines as Gaussians at quadrature ages, summed at the probes. */
class AgeList {
  readonly #kernel: PlateKernel;
  readonly #body: PlateBody;
  readonly #power: number;
  readonly #probes: Probes;
  readonly #by: PlateLoops;
  readonly #still: Float64Array;
  #groups = new Float64Array(512 * GROUP_SIZE);
  #count = 0;

  constructor(kernel: PlateKernel, body: PlateBody, power: number, probes: Probes, by: PlateLoops) {
    this.#kernel = kernel;
    this.#body = body;
    this.#power = power;
    this.#probes = probes;
    this.#by = by;
    this.#still = new Float64Array(probes.x.length);
  }

  at(lines: readonly BeamLine[], time: number): Float64Array {
    this.#count = 0;
    for (const line of lines) if (line.startTime < time) this.#line(line, time);
    const out = new Float64Array(this.#still.length);
    if (this.#count > 0) {
      this.#by.groupRise(this.#groups, this.#count, this.#probes.x, this.#probes.y, this.#still, out);
    }
    return out;
  }

  #line(line: BeamLine, time: number): void {
    const { diffusivity, radius2 } = this.#kernel;
    const duration = line.endTime - line.startTime;
    const speed = Math.hypot(line.toX - line.fromX, line.toY - line.fromY) / duration;
    const oldest = time - line.startTime;
    let low = Math.max(0, time - line.endTime);
    // Below this age nothing has come down to the depth (e^−40).
    const reached = (this.#probes.depth * this.#probes.depth) / (160 * diffusivity);
    low = Math.min(oldest, Math.max(low, reached));
    while (low < oldest) {
      const deviation = 0.5 * Math.sqrt(radius2 + 8 * diffusivity * low);
      const travel = speed > 0 ? (TRAVEL * deviation) / speed : oldest;
      const widening = (2 * deviation * deviation) / diffusivity;
      const grown = low > 0 ? AGES * low : Math.min(widening, oldest);
      const high = Math.min(oldest, low + travel, Math.max(grown, low === 0 ? 0 : low * 1.0001));
      this.#panel(line, duration, oldest, low, high);
      low = high;
    }
  }

  #panel(line: BeamLine, duration: number, oldest: number, low: number, high: number): void {
    const { diffusivity, radius2, perHeat } = this.#kernel;
    if (!this.#reaches(line, (oldest - low) / duration, (oldest - high) / duration, radius2 + 8 * diffusivity * high)) {
      return;
    }
    const start = Math.sqrt(low);
    const half = 0.5 * (Math.sqrt(high) - start);
    for (let q = 0; q < 6; q++) {
      const root = start + half * (1 + panel.nodes[q]!);
      const age = root * root;
      const z = this.#probes.depth;
      const depth = z === 0 ? perHeat * depthFactor(this.#kernel, age) : plateDepthRise(this.#body, z, age);
      const wide = radius2 + 8 * diffusivity * age;
      const heat = (2 / Math.PI) * this.#power * panel.weights[q]! * half * 2 * root * (depth / wide);
      if (!(heat > 0)) continue;
      const share = (oldest - age) / duration;
      const at = this.#next();
      this.#groups[at] = Math.log(heat);
      this.#groups[at + 1] = 0;
      this.#groups[at + 2] = 0;
      this.#groups[at + 3] = line.fromX + share * (line.toX - line.fromX);
      this.#groups[at + 4] = line.fromY + share * (line.toY - line.fromY);
      this.#groups[at + 5] = 2 / wide;
      this.#groups[at + 6] = 0;
      this.#groups[at + 7] = 2 / wide;
    }
  }

  /** Whether a stretch of a line, as wide as its heat has spread, touches any probe. */
  #reaches(line: BeamLine, a: number, b: number, wide: number): boolean {
    const { x, y } = this.#probes;
    const middle = 0.5 * (a + b);
    const cx = line.fromX + middle * (line.toX - line.fromX);
    const cy = line.fromY + middle * (line.toY - line.fromY);
    const half = 0.5 * (a - b) * Math.hypot(line.toX - line.fromX, line.toY - line.fromY);
    const reach = (half + Math.sqrt(FAR * wide)) ** 2;
    for (let p = 0; p < x.length; p++) if ((x[p]! - cx) ** 2 + (y[p]! - cy) ** 2 < reach) return true;
    return false;
  }

  #next(): number {
    const at = this.#count++ * GROUP_SIZE;
    if (at + GROUP_SIZE > this.#groups.length) {
      const more = new Float64Array(2 * this.#groups.length);
      more.set(this.#groups);
      this.#groups = more;
    }
    return at;
  }
}
