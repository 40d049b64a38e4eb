// AssemblyScript. Craters stamped on a map: depths that fall piecewise linearly in r², four cells at once.

/**
 * Adds to `map` (single floats, `stride` per row, at least three of them beyond `columns`) for each of `count` places
 * (pairs of doubles at `places`, in cells) the depth sum_k slope_k * max(0, edge_k - r²); `hinges` are pairs of doubles
 * (edge_k in cells², slope_k per cell²), `reach` is the root of the largest edge, in cells.
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
): void {
  const reach2 = reach * reach;
  const edge0 = load<f64>(hinges);
  const slope0 = f32x4.splat(<f32>load<f64>(hinges, 8));
  const zero = f32x4.splat(0);
  const four = f32x4.splat(4);
  const lastHinge = hinges + (<usize>hingeCount << 4);
  for (let n: i32 = 0; n < count; n++) {
    const x = load<f64>(places + (<usize>n << 4));
    const y = load<f64>(places + (<usize>n << 4), 8);
    const top = max<i32>(0, <i32>Math.ceil(y - reach));
    const bottom = min<i32>(rows - 1, <i32>Math.floor(y + reach));
    for (let j: i32 = top; j <= bottom; j++) {
      const dy = <f64>j - y;
      const dy2 = dy * dy;
      if (dy2 >= reach2) continue;
      const chord = Math.sqrt(reach2 - dy2);
      const first = max<i32>(0, <i32>Math.ceil(x - chord));
      const last = min<i32>(columns - 1, <i32>Math.floor(x + chord));
      if (last < first) continue;
      let dx = f32x4.add(f32x4.splat(<f32>(<f64>first - x)), f32x4(0, 1, 2, 3));
      let at = map + (<usize>(j * stride + first) << 2);
      const end = map + (<usize>(j * stride + last) << 2);
      if (hingeCount == 1) {
        const room = f32x4.splat(<f32>(edge0 - dy2));
        for (; at <= end; at += 16) {
          const over = f32x4.max(f32x4.sub(room, f32x4.mul(dx, dx)), zero);
          v128.store(at, f32x4.add(v128.load(at), f32x4.mul(slope0, over)));
          dx = f32x4.add(dx, four);
        }
      } else {
        for (; at <= end; at += 16) {
          const dx2 = f32x4.mul(dx, dx);
          let depth = v128.load(at);
          for (let h = hinges; h < lastHinge; h += 16) {
            const room = f32x4.splat(<f32>(load<f64>(h) - dy2));
            const over = f32x4.max(f32x4.sub(room, dx2), zero);
            depth = f32x4.add(depth, f32x4.mul(f32x4.splat(<f32>load<f64>(h, 8)), over));
          }
          v128.store(at, depth);
          dx = f32x4.add(dx, four);
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
