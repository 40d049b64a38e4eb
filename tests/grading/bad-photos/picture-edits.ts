import { decodeCode, encodeLinear, type Photo } from "#grading";

/** px, left and right, upper and lower bound of what is kept */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export function crop(photo: Photo, box: Box): Photo {
  const [left, top] = [Math.max(0, Math.round(box.left)), Math.max(0, Math.round(box.top))];
  const width = Math.min(photo.width, Math.round(box.right)) - left;
  const height = Math.min(photo.height, Math.round(box.bottom)) - top;
  const rgb = new Uint8Array(3 * width * height);
  for (let row = 0; row < height; row += 1) {
    const from = 3 * ((top + row) * photo.width + left);
    rgb.set(photo.rgb.subarray(from, from + 3 * width), 3 * width * row);
  }
  return { ...photo, width, height, rgb };
}

/** Two pictures of one height beside each other. */
export function beside(a: Photo, b: Photo): Photo {
  const [width, height] = [a.width + b.width, Math.min(a.height, b.height)];
  const rgb = new Uint8Array(3 * width * height);
  for (let row = 0; row < height; row += 1) {
    rgb.set(a.rgb.subarray(3 * row * a.width, 3 * (row + 1) * a.width), 3 * row * width);
    rgb.set(b.rgb.subarray(3 * row * b.width, 3 * (row + 1) * b.width), 3 * (row * width + a.width));
  }
  return { ...a, width, height, rgb };
}

type Point = { readonly u: number; readonly v: number };

/** Whether a place lies in a convex outline, whichever way round that runs. */
function within(outline: readonly Point[], u: number, v: number): boolean {
  const sides = outline.map((p, k) => {
    const q = outline[(k + 1) % outline.length]!;
    return (q.u - p.u) * (v - p.v) - (q.v - p.v) * (u - p.u);
  });
  return sides.every((s) => s >= 0) || sides.every((s) => s <= 0);
}

/** Linear light of every pixel within the outline changed. */
export function relight(photo: Photo, outline: readonly Point[], change: (light: number) => number): Photo {
  const rgb = photo.rgb.slice();
  const table = Uint8Array.from({ length: 256 }, (_, code) =>
    Math.round(255 * encodeLinear(Math.min(1, Math.max(0, change(decodeCode(code / 255)))))),
  );
  for (let row = 0; row < photo.height; row += 1)
    for (let column = 0; column < photo.width; column += 1) {
      if (!within(outline, column + 0.5, row + 0.5)) continue;
      const i = 3 * (row * photo.width + column);
      for (let c = 0; c < 3; c += 1) rgb[i + c] = table[rgb[i + c]!]!;
    }
  return { ...photo, rgb };
}

/** A sheet that is not flat: every row is taken from where `rise` (px, by column) says. */
export function bent(photo: Photo, rise: (share: number) => number): Photo {
  const { width, height } = photo;
  const rgb = new Uint8Array(photo.rgb.length);
  for (let column = 0; column < width; column += 1) {
    const shift = Math.round(rise(column / width));
    for (let row = 0; row < height; row += 1) {
      const from = 3 * (Math.min(height - 1, Math.max(0, row + shift)) * width + column);
      rgb.set(photo.rgb.subarray(from, from + 3), 3 * (row * width + column));
    }
  }
  return { ...photo, rgb };
}
