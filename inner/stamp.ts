// AssemblyScript. Craters stamped on a map: depths that fall piecewise linearly in r², four cells at once.

/**
 * Adds to `map` (single floats, `stride` per row, at least three of them beyond `columns`) for each of `count` places
 * (pairs of doubles at `places`, in cells) the depth sum_k slope_k * max(0, edge_k - r²); `hinges` are pairs of doubles
 * (edge_k in cells², slope_k per cell²), `reach` is the root of the largest edge, in cells. `scratch` holds
 * reach + 3 integers, then 16 bytes for each hinge and for each four cells across a crater (see src/loops/stamp.ts).
 */
export function stampHinges(
  map: usize,
  stride: i32,
  columns: i32,
  rows: i32,
  places: usize,
  count: i32,
  hinges: usize,
  hingeCount: i32,
  reach: f64,
  scratch: usize,
): void {
  // Whole fours at either end of a row of the square that the circle leaves out, by whole cells from the middle.
  const far = <i32>reach + 2;
  for (let m: i32 = 0; m <= far; m++) {
    const chord = Math.sqrt(Math.max(0, reach * reach - <f64>m * <f64>m));
    store<i32>(scratch + (<usize>m << 2), max<i32>(0, <i32>Math.floor((reach - 1 - chord) / 4)));
  }
  const rooms = (scratch + (<usize>(far + 1) << 2) + 15) & ~15;
  const squares = rooms + (<usize>hingeCount << 4);
  const zero = f32x4.splat(0);
  const single = hingeCount == 1;
  const slope0 = load<f64>(hinges, 8);
  const edge0 = load<f64>(hinges);
  // One hinge alone is scaled before the rows are run through, which saves a product per cell.
  const scale = f32x4.splat(single ? <f32>slope0 : 1);
  for (let n: i32 = 0; n < count; n++) {
    const x = load<f64>(places + (<usize>n << 4));
    const y = load<f64>(places + (<usize>n << 4), 8);
    const whole = <i32>Math.ceil(x - reach);
    const first = max<i32>(0, whole);
    const last = min<i32>(columns - 1, <i32>Math.floor(x + reach));
    if (last < first) continue;
    const fours = (last - first + 4) >> 2;
    let dx = f32x4.add(f32x4.splat(<f32>(<f64>first - x)), f32x4(0, 1, 2, 3));
    for (let v: i32 = 0; v < fours; v++) {
      v128.store(squares + (<usize>v << 4), f32x4.mul(scale, f32x4.mul(dx, dx)));
      dx = f32x4.add(dx, f32x4.splat(4));
    }
    const inside = first == whole && last < columns - 1;
    const top = max<i32>(0, <i32>Math.ceil(y - reach));
    const bottom = min<i32>(rows - 1, <i32>Math.floor(y + reach));
    for (let j: i32 = top; j <= bottom; j++) {
      const dy = <f64>j - y;
      const skip = inside ? load<i32>(scratch + (<usize>(<i32>Math.abs(dy)) << 2)) : 0;
      let from = squares + (<usize>skip << 4);
      const to = squares + (<usize>(fours - skip) << 4);
      let at = map + (<usize>(j * stride + first + (skip << 2)) << 2);
      if (single) {
        const room = f32x4.splat(<f32>(slope0 * (edge0 - dy * dy)));
        for (; from < to; from += 16, at += 16) {
          const over = f32x4.max(f32x4.sub(room, v128.load(from)), zero);
          v128.store(at, f32x4.add(v128.load(at), over));
        }
      } else {
        for (let h: i32 = 0; h < hingeCount; h++) {
          const room = f32x4.splat(<f32>(load<f64>(hinges + (<usize>h << 4)) - dy * dy));
          v128.store(rooms + (<usize>h << 4), room);
        }
        for (; from < to; from += 16, at += 16) {
          const dx2 = v128.load(from);
          let depth = v128.load(at);
          for (let h: i32 = 0; h < hingeCount; h++) {
            const over = f32x4.max(f32x4.sub(v128.load(rooms + (<usize>h << 4)), dx2), zero);
            const slope = f32x4.splat(<f32>load<f64>(hinges + (<usize>h << 4), 8));
            depth = f32x4.add(depth, f32x4.mul(slope, over));
          }
          v128.store(at, depth);
        }
      }
    }
  }
}

/** In place max(0, thickness - value) over `count` single floats, a multiple of four. */
export function leaveOver(at: usize, count: i32, thickness: f32): void {
  const whole = f32x4.splat(thickness);
  const zero = f32x4.splat(0);
  for (let p = at, end = at + (<usize>count << 2); p < end; p += 16)
    v128.store(p, f32x4.max(f32x4.sub(whole, v128.load(p)), zero));
}

/** Zero over `bytes` bytes. */
export function clear(at: usize, bytes: usize): void {
  memory.fill(at, 0, bytes);
}
