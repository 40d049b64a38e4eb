// AssemblyScript. The exponential of two doubles at once.

const LOG2_E: f64 = 1.4426950408889634;
const LN2_HIGH: f64 = 0.6931471803691238;
const LN2_LOW: f64 = 1.9082149292705877e-10;

// exp(r) on |r| <= ln 2 / 2: the Taylor series to r^13 leaves less than 5e-18.
// @ts-ignore: decorator
@inline
function series(r: v128): v128 {
  let p = f64x2.splat(1.6059043836821613e-10);
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(2.08767569878681e-9));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(2.505210838544172e-8));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(2.755731922398589e-7));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(2.7557319223985893e-6));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(2.48015873015873e-5));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(1.984126984126984e-4));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(1.388888888888889e-3));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(8.333333333333333e-3));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(4.1666666666666664e-2));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(1.6666666666666666e-1));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(0.5));
  p = f64x2.add(f64x2.mul(p, r), f64x2.splat(1.0));
  return f64x2.add(f64x2.mul(p, r), f64x2.splat(1.0));
}

/** e^x of both lanes. Below -708 the result is 0 (no denormals), above 709 it is e^709. */
// @ts-ignore: decorator
@inline
export function exp2lanes(x: v128): v128 {
  const tiny = f64x2.lt(x, f64x2.splat(-708));
  const held = f64x2.max(f64x2.min(x, f64x2.splat(709)), f64x2.splat(-708));
  const k = f64x2.nearest(f64x2.mul(held, f64x2.splat(LOG2_E)));
  const r = f64x2.sub(f64x2.sub(held, f64x2.mul(k, f64x2.splat(LN2_HIGH))), f64x2.mul(k, f64x2.splat(LN2_LOW)));
  const whole = i64x2.extend_low_i32x4_s(i32x4.trunc_sat_f64x2_s_zero(k));
  const scale = i64x2.shl(i64x2.add(whole, i64x2.splat(1023)), 52);
  return v128.andnot(f64x2.mul(series(r), scale), tiny);
}

/** In place e^x over count doubles at `at`; count even, `at` a multiple of 16. */
export function expInPlace(at: usize, count: i32): void {
  for (let i: i32 = 0; i < count; i += 2) {
    const p = at + ((<usize>i) << 3);
    v128.store(p, exp2lanes(v128.load(p)));
  }
}
