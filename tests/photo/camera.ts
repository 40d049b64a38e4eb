import type { PixelPoint } from "./points.ts";

/** A pinhole over the plate. Room: origin in the middle of the frame, z up from the sheet; the picture looks down. */
export interface CameraSpec {
  readonly width: number;
  readonly height: number;
  /** rad: off the normal, and towards which side of the room */
  readonly tilt: number;
  readonly towards: number;
  /** rad, picture turned about the axis of the lens */
  readonly roll: number;
  /** mm, full-frame equivalent of the diagonal */
  readonly focal: number;
  /** share of the picture that the frame spans at most */
  readonly fill: number;
  /** division model, at the corner of the picture */
  readonly radial: number;
  /** aim beside the middle, share of the distance */
  readonly shift: readonly [number, number];
}

export interface Camera {
  /** m from the sheet's middle, in the axes of the sheet */
  readonly eye: readonly [number, number, number];
  toPixel(x: number, y: number, z?: number): PixelPoint;
  /** place on the plane z in m; written to `out` */
  toPlane(u: number, v: number, z: number, out: Float64Array): void;
  readonly distance: number;
}

type Three = readonly [number, number, number];
const dot = (a: Three, b: Three): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const unit = (a: Three): Three => {
  const n = Math.hypot(...a);
  return [a[0] / n, a[1] / n, a[2] / n];
};
const cross = (a: Three, b: Three): Three => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const turnZ = ([x, y, z]: Three, angle: number): Three => [
  x * Math.cos(angle) - y * Math.sin(angle),
  x * Math.sin(angle) + y * Math.cos(angle),
  z,
];

/** diagonal of full frame, mm */
const fullFrame = 43.27;

/**
 * Camera for a sheet that lies turned by `turn` (rad) in the room; places are m from the middle of the frame in the
 * axes of the sheet. `outline`: points that have to be in the picture. The distance follows from `fill`.
 */
export function makeCamera(s: CameraSpec, turn: number, outline: readonly (readonly [number, number])[]): Camera {
  const half = Math.hypot(s.width, s.height) / 2;
  const f = (s.focal / fullFrame) * 2; // in half diagonals
  const back: Three = [
    Math.sin(s.tilt) * Math.cos(s.towards),
    Math.sin(s.tilt) * Math.sin(s.towards),
    Math.cos(s.tilt),
  ];
  const level = unit(cross([0, 1, 0], back));
  const rise = cross(back, level);
  const [c, r] = [Math.cos(s.roll), Math.sin(s.roll)];
  const rolled = (a: Three, b: Three, p: number, q: number): Three =>
    [0, 1, 2].map((i) => p * a[i]! + q * b[i]!) as unknown as Three;
  const axes = [rolled(level, rise, c, r), rolled(level, rise, -r, c), back].map((a) => turnZ(a, -turn)) as unknown as [
    Three,
    Three,
    Three,
  ];
  const [right, up, behind] = axes;

  const at = (distance: number): Camera => {
    const eye = [0, 1, 2].map(
      (i) => distance * (behind[i]! + s.shift[0] * right[i]! + s.shift[1] * up[i]!),
    ) as unknown as Three;
    return {
      eye,
      distance,
      toPixel(x, y, z = 0) {
        const p: Three = [x - eye[0], y - eye[1], z - eye[2]];
        const depth = -dot(p, behind);
        const a = (f * dot(p, right)) / depth;
        const b = (-f * dot(p, up)) / depth;
        // r/(1 + k·r²) is the straight radius; solved for r
        const straight = a * a + b * b;
        const bent = s.radial === 0 ? 1 : 2 / (1 + Math.sqrt(1 - 4 * s.radial * straight));
        return { u: s.width / 2 + half * bent * a, v: s.height / 2 + half * bent * b };
      },
      toPlane(u, v, z, out) {
        const a = (u - s.width / 2) / half;
        const b = (v - s.height / 2) / half;
        const scale = 1 / (1 + s.radial * (a * a + b * b)) / f;
        const p = a * scale;
        const q = -b * scale;
        const dx = p * right[0] + q * up[0] - behind[0];
        const dy = p * right[1] + q * up[1] - behind[1];
        const dz = p * right[2] + q * up[2] - behind[2];
        const t = (z - eye[2]) / dz;
        out[0] = eye[0] + t * dx;
        out[1] = eye[1] + t * dy;
      },
    };
  };
  let [near, far] = [0.02, 20];
  for (let step = 0; step < 60; step++) {
    const middle = Math.sqrt(near * far);
    const seen = outline.map(([x, y]) => {
      const eye = at(middle);
      const { u, v } = eye.toPixel(x, y);
      const behindEye = dot([x - eye.eye[0], y - eye.eye[1], -eye.eye[2]], behind) >= 0;
      return behindEye ? 9 : Math.max(Math.abs(u / s.width - 0.5), Math.abs(v / s.height - 0.5)) * 2;
    });
    const span = Math.max(...seen);
    if (!(span <= s.fill)) near = middle;
    else far = middle;
  }
  return at(far);
}
