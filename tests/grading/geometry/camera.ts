/**
 * A camera of its own for these tests: pinhole, square pixels, one radial term about the middle of the picture. It shares
 * no line with what it tests.
 */
export interface CameraOptions {
  readonly width: number;
  readonly height: number;
  /** px per m at the middle of the aim when the plate is not tilted */
  readonly scale: number;
  /** m, place on the plate that the middle of the picture looks at */
  readonly aim: { readonly x: number; readonly y: number };
  /** degrees: tilt of the plate, the way it tilts, and turn of the camera about its axis */
  readonly tilt?: number;
  readonly towards?: number;
  readonly turn?: number;
  /** radial term in half diagonals */
  readonly radial?: number;
}

export interface Camera extends Required<CameraOptions> {
  toPixel(x: number, y: number): { u: number; v: number };
  toPlate(u: number, v: number): { x: number; y: number };
}

const rad = (degrees = 0): number => (degrees * Math.PI) / 180;

export function camera(options: CameraOptions): Camera {
  const { width, height, scale, aim, tilt = 0, towards = 0, turn = 0, radial = 0 } = options;
  const diagonal = Math.hypot(width, height) / 2;
  const focal = 1.3 * Math.max(width, height);
  const far = focal / scale;
  const [ct, st, cw, sw, cr, sr] = [rad(tilt), rad(towards), rad(turn)].flatMap((a) => [Math.cos(a), Math.sin(a)]) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  // Along `towards` the plate recedes by sin(tilt); across it nothing changes.
  const toPixel = (x: number, y: number) => {
    const along = (x - aim.x) * cw + (y - aim.y) * sw;
    const across = -(x - aim.x) * sw + (y - aim.y) * cw;
    const depth = far + along * st;
    const a = along * ct;
    const px = a * cw - across * sw;
    const py = a * sw + across * cw;
    const qu = (focal * (px * cr - py * sr)) / depth / diagonal;
    const qv = (-focal * (px * sr + py * cr)) / depth / diagonal;
    const bent = 1 + radial * (qu * qu + qv * qv);
    return { u: width / 2 + diagonal * qu * bent, v: height / 2 + diagonal * qv * bent };
  };
  const toPlate = (u: number, v: number) => {
    const pu = (u - width / 2) / diagonal;
    const pv = (v - height / 2) / diagonal;
    let qu = pu;
    let qv = pv;
    for (let i = 0; radial !== 0 && i < 12; i += 1) {
      const bent = 1 + radial * (qu * qu + qv * qv);
      qu = pu / bent;
      qv = pv / bent;
    }
    const ru = (qu * diagonal) / focal;
    const rv = (-qv * diagonal) / focal;
    const rx = ru * cr + rv * sr;
    const ry = -ru * sr + rv * cr;
    const ra = rx * cw + ry * sw;
    const rc = -rx * sw + ry * cw;
    // a = ra·depth and a = along·cos(tilt), depth = far + along·sin(tilt)
    const along = (ra * far) / (ct - ra * st);
    const across = rc * (far + along * st);
    return { x: aim.x + along * cw - across * sw, y: aim.y + along * sw + across * cw };
  };
  return { width, height, scale, aim, tilt, towards, turn, radial, toPixel, toPlate };
}
