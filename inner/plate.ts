// AssemblyScript. Heat across a plate: sums of Gaussians, two at a time.
import { exp2lanes } from "./exp";

// @ts-ignore: decorator
@inline
function both(v: v128): f64 {
  return f64x2.extract_lane(v, 0) + f64x2.extract_lane(v, 1);
}

/**
 * out[k] = sum over u of a[u]·exp(q[u]·((c − u)²·pitch2 + across2)) with s = first + k·step, c = 2s − n + 1 and u from
 * s − n + 1 to s, no further from c than reach. a and q hold u = low, low + 1, ... and one double of slack.
 */
export function opposedRows(
  a: usize,
  q: usize,
  low: i32,
  first: i32,
  step: i32,
  rows: i32,
  n: i32,
  pitch2: f64,
  across2: f64,
  reach: i32,
  out: usize,
): void {
  const p2 = f64x2.splat(pitch2);
  const y2 = f64x2.splat(across2);
  for (let k: i32 = 0; k < rows; k++) {
    const s = first + k * step;
    const c = 2 * s - n + 1;
    const from = max(s - n + 1, c - reach);
    const to = min(s, c + reach);
    let sum = f64x2.splat(0);
    let v = f64x2.add(f64x2.splat(<f64>(c - from)), f64x2(0, -1));
    let u: i32 = from;
    for (; u <= to; u += 2) {
      const at = (<usize>(u - low)) << 3;
      const r2 = f64x2.add(f64x2.mul(f64x2.mul(v, v), p2), y2);
      let e = f64x2.mul(v128.load(a + at), exp2lanes(f64x2.mul(v128.load(q + at), r2)));
      if (u == to) e = f64x2.replace_lane(e, 1, 0);
      sum = f64x2.add(sum, e);
      v = f64x2.sub(v, f64x2.splat(2));
    }
    store<f64>(out + ((<usize>k) << 3), both(sum));
  }
}

/**
 * out[i] += sum over groups of exp(A + rate·t − (1 − spread·t)·(xx·dx² + xy·dx·dy + yy·dy²)), dx = x[i] − X, t = time[i].
 * A group is eight doubles: A, rate, spread, X, Y, xx, xy, yy. points is even.
 */
export function groupRise(groups: usize, count: i32, x: usize, y: usize, time: usize, points: i32, out: usize): void {
  const one = f64x2.splat(1);
  for (let i: i32 = 0; i < points; i += 2) {
    const p = (<usize>i) << 3;
    const px = v128.load(x + p);
    const py = v128.load(y + p);
    const t = v128.load(time + p);
    let sum = v128.load(out + p);
    let g = groups;
    for (let k: i32 = 0; k < count; k++) {
      const dx = f64x2.sub(px, v128.load64_splat(g, 24));
      const dy = f64x2.sub(py, v128.load64_splat(g, 32));
      const xx = f64x2.mul(v128.load64_splat(g, 40), dx);
      const mixed = f64x2.mul(dx, f64x2.add(xx, f64x2.mul(v128.load64_splat(g, 48), dy)));
      const square = f64x2.add(mixed, f64x2.mul(v128.load64_splat(g, 56), f64x2.mul(dy, dy)));
      const shrink = f64x2.sub(one, f64x2.mul(v128.load64_splat(g, 16), t));
      const height = f64x2.add(v128.load64_splat(g), f64x2.mul(v128.load64_splat(g, 8), t));
      sum = f64x2.add(sum, exp2lanes(f64x2.sub(height, f64x2.mul(shrink, square))));
      g += 64;
    }
    v128.store(out + p, sum);
  }
}

const PI: f64 = 3.141592653589793;

// 1 + 2(e^-x + e^-4x + e^-9x), by Poisson's sum below x = pi, times 1/sqrt(pi·spread): rise by the square of the plate.
// @ts-ignore: decorator
@inline
function depthOf(spread: v128, thick2: v128, thickness: v128): v128 {
  const x = f64x2.div(thick2, spread);
  const young = f64x2.div(f64x2.splat(1), f64x2.sqrt(f64x2.mul(f64x2.splat(PI), spread)));
  const far = f64x2.gt(x, f64x2.splat(36));
  if (v128.all_true<i64>(far)) return young;
  const flip = f64x2.lt(x, f64x2.splat(PI));
  const e = exp2lanes(f64x2.neg(v128.bitselect(f64x2.div(f64x2.splat(PI * PI), x), x, flip)));
  const e2 = f64x2.mul(e, e);
  const e4 = f64x2.mul(e2, e2);
  const tail = f64x2.add(e4, f64x2.mul(f64x2.mul(e4, e4), e));
  const sum = f64x2.add(f64x2.splat(1), f64x2.mul(f64x2.splat(2), f64x2.add(e, tail)));
  return f64x2.mul(sum, v128.bitselect(f64x2.div(f64x2.splat(1), thickness), young, flip));
}

/**
 * out[i − first] += sum over j from `from` to i − 1 that fell strictly earlier of
 * energy·exp(−2r²/W)/W·depth(age), W = radius2 + diffuse·age, for i = first ... last − 1. Arrays hold pulse 0 first.
 */
export function earlierPulses(
  x: usize,
  y: usize,
  time: usize,
  energy: usize,
  from: i32,
  first: i32,
  last: i32,
  radius2: f64,
  diffusivity: f64,
  thickness: f64,
  out: usize,
): void {
  const zero = f64x2.splat(0);
  const d = f64x2.splat(diffusivity);
  const w2 = f64x2.splat(radius2);
  const h = f64x2.splat(thickness);
  const h2 = f64x2.mul(h, h);
  for (let i: i32 = first; i < last; i++) {
    const at = (<usize>i) << 3;
    const px = v128.load64_splat(x + at);
    const py = v128.load64_splat(y + at);
    const now = v128.load64_splat(time + at);
    let sum = zero;
    for (let j: i32 = from; j < i; j += 2) {
      const p = (<usize>j) << 3;
      const age = f64x2.sub(now, v128.load(time + p));
      const counts = f64x2.gt(age, zero);
      const spread = f64x2.mul(d, v128.bitselect(age, f64x2.splat(1), counts));
      const wide = f64x2.add(w2, f64x2.mul(f64x2.splat(8), spread));
      const dx = f64x2.sub(px, v128.load(x + p));
      const dy = f64x2.sub(py, v128.load(y + p));
      const r2 = f64x2.add(f64x2.mul(dx, dx), f64x2.mul(dy, dy));
      const e = exp2lanes(f64x2.div(f64x2.mul(f64x2.splat(-2), r2), wide));
      const rise = f64x2.mul(f64x2.div(f64x2.mul(e, v128.load(energy + p)), wide), depthOf(spread, h2, h));
      sum = f64x2.add(sum, v128.and(rise, counts));
    }
    const o = out + ((<usize>(i - first)) << 3);
    store<f64>(o, load<f64>(o) + both(sum));
  }
}

/**
 * out[j·nx + i] = sum over g of down[g·ny + j]·along[g·nx + i]: a map out of separable terms. nx a multiple of 8, ny even.
 */
export function separableMap(along: usize, down: usize, count: i32, nx: i32, ny: i32, out: usize): void {
  const rowX = (<usize>nx) << 3;
  const rowY = (<usize>ny) << 3;
  for (let j: i32 = 0; j < ny; j += 2) {
    for (let i: i32 = 0; i < nx; i += 8) {
      let a0 = f64x2.splat(0);
      let a1 = a0;
      let a2 = a0;
      let a3 = a0;
      let b0 = a0;
      let b1 = a0;
      let b2 = a0;
      let b3 = a0;
      let x = along + ((<usize>i) << 3);
      let y = down + ((<usize>j) << 3);
      for (let g: i32 = 0; g < count; g++) {
        const ya = v128.load64_splat(y);
        const yb = v128.load64_splat(y, 8);
        const x0 = v128.load(x);
        const x1 = v128.load(x, 16);
        const x2 = v128.load(x, 32);
        const x3 = v128.load(x, 48);
        a0 = f64x2.add(a0, f64x2.mul(ya, x0));
        a1 = f64x2.add(a1, f64x2.mul(ya, x1));
        a2 = f64x2.add(a2, f64x2.mul(ya, x2));
        a3 = f64x2.add(a3, f64x2.mul(ya, x3));
        b0 = f64x2.add(b0, f64x2.mul(yb, x0));
        b1 = f64x2.add(b1, f64x2.mul(yb, x1));
        b2 = f64x2.add(b2, f64x2.mul(yb, x2));
        b3 = f64x2.add(b3, f64x2.mul(yb, x3));
        x += rowX;
        y += rowY;
      }
      const o = out + (((<usize>j) * (<usize>nx) + (<usize>i)) << 3);
      v128.store(o, a0);
      v128.store(o, a1, 16);
      v128.store(o, a2, 32);
      v128.store(o, a3, 48);
      v128.store(o + rowX, b0);
      v128.store(o + rowX, b1, 16);
      v128.store(o + rowX, b2, 32);
      v128.store(o + rowX, b3, 48);
    }
  }
}
