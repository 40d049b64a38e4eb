import { readFileSync } from "node:fs";
import sharp from "sharp";
import type { GreyPicture, PixelPoint } from "#grading";

/** Sample pictures of Debian's package opencv-doc. */
export const samples = "/usr/share/doc/opencv-doc";

export async function greyOf(path: string): Promise<GreyPicture> {
  const { data, info } = await sharp(`${samples}/${path}`)
    .removeAlpha()
    .toColourspace("b-w")
    .raw()
    .toBuffer({ resolveWithObject: true });
  if (info.channels !== 1) throw new Error("not grey");
  return { width: info.width, height: info.height, data: new Uint8Array(data) };
}

/** The numbers of a matrix in one of the library's YAML or XML files. */
export function numbersOf(path: string, name: string): number[] {
  const text = readFileSync(`${samples}/${path}`, "utf8");
  const from = text.indexOf(name);
  const list = /(?:data: \[|<data>)([^\]<]+)/.exec(text.slice(from))?.[1] ?? "";
  return list
    .split(/[\s,]+/)
    .filter((word) => word !== "")
    .map(Number);
}

/** Rotation matrix of a rotation vector (Rodrigues), row by row. */
export function rotation([a, b, c]: readonly number[]): number[] {
  const angle = Math.hypot(a!, b!, c!);
  const [x, y, z] = [a! / angle, b! / angle, c! / angle];
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const m = 1 - cos;
  return [
    cos + m * x * x,
    m * x * y - sin * z,
    m * x * z + sin * y,
    m * x * y + sin * z,
    cos + m * y * y,
    m * y * z - sin * x,
    m * x * z - sin * y,
    m * y * z + sin * x,
    cos + m * z * z,
  ];
}

const valueAt = ({ width, data }: GreyPicture, x: number, y: number): number => {
  const [c, r] = [Math.floor(x), Math.floor(y)];
  const [fx, fy] = [x - c, y - r];
  const v = (i: number, j: number): number => data[(r + j) * width + c + i]!;
  return (1 - fy) * ((1 - fx) * v(0, 0) + fx * v(1, 0)) + fy * ((1 - fx) * v(0, 1) + fx * v(1, 1));
};

/**
 * A corner of a chessboard from a place nearby: gradients around it stand square to the way from it (Förstner). Counted
 * from the middle of the first pixel, as the library counts.
 */
export function chessCorner(picture: GreyPicture, near: PixelPoint, reach = 5): PixelPoint {
  let { u, v } = near;
  for (let turn = 0; turn < 40; turn += 1) {
    let [xx, xy, yy, bx, by] = [0, 0, 0, 0, 0];
    for (let j = -reach; j <= reach; j += 1) {
      for (let i = -reach; i <= reach; i += 1) {
        const [x, y] = [u + i, v + j];
        const weight = Math.exp(-(i * i + j * j) / (reach * reach));
        const gx = valueAt(picture, x + 1, y) - valueAt(picture, x - 1, y);
        const gy = valueAt(picture, x, y + 1) - valueAt(picture, x, y - 1);
        xx += weight * gx * gx;
        xy += weight * gx * gy;
        yy += weight * gy * gy;
        bx += weight * (gx * gx * x + gx * gy * y);
        by += weight * (gx * gy * x + gy * gy * y);
      }
    }
    const determinant = xx * yy - xy * xy;
    const [nu, nv] = [(yy * bx - xy * by) / determinant, (xx * by - xy * bx) / determinant];
    const moved = Math.hypot(nu - u, nv - v);
    [u, v] = [nu, nv];
    if (moved < 1e-3) break;
  }
  return { u, v };
}
