import sharp from "sharp";
import { labFromLinear, type Photo } from "#grading";
import type { Corners, PixelPoint } from "./points.ts";
import { makeCamera } from "./camera.ts";
import { develop } from "./develop.ts";
import { drawShot, type ShotDraw } from "./draw-shot.ts";
import { expose, outlineOf, paperReflectance } from "./expose.ts";
import { gleamField } from "./gleam-field.ts";
import { makeLamp } from "./lamp.ts";
import type { Plate } from "./plate.ts";
import { sheetLabels } from "./sheet-face.ts";

export interface ShotSpec {
  readonly seed: number;
  /** quarters that sheet and coupon are turned by, camera and lamp left where they are */
  readonly turn?: 0 | 1 | 2 | 3;
  /** px; changed over for odd quarters, as one turns the phone */
  readonly width: number;
  readonly height: number;
  /** false: soft light from all sides, nothing gleams */
  readonly glare: boolean;
  readonly say?: Partial<ShotDraw>;
  /** false: no JPEG, the codes as they are */
  readonly jpeg?: boolean;
}

export interface MarkerTruth {
  readonly id: number;
  readonly corners: Corners;
  readonly covered: boolean;
}

export interface ShotTruth {
  readonly drawn: ShotDraw;
  readonly turn: number;
  readonly markers: readonly MarkerTruth[];
  /** by index of the plate's patches: middle in the picture, gleam as share of white and the L* it would add */
  readonly patches: readonly {
    readonly patch: number;
    readonly centre: PixelPoint;
    readonly gleam: number;
    readonly gleamLightness: number;
  }[];
  /** px per mm at the middle of the coupon, along its width */
  readonly scale: number;
  /** m from lens to sheet, along the axis */
  readonly distance: number;
  /** factor from reflectance under the light of the middle to share of full scale */
  readonly exposure: number;
  /** where any place of the coupon's face stands in the picture */
  toPixel(x: number, y: number): PixelPoint;
  /** light at a place, 1 in the middle */
  light(x: number, y: number): number;
}

/** Camera and lamp of a photograph, without taking it: what is true of it that no pixel has to be exposed for. */
export function shotScene(plate: Plate, spec: Omit<ShotSpec, "glare" | "jpeg">) {
  const turn = spec.turn ?? 0;
  const odd = turn % 2 === 1;
  const [width, height] = odd ? [spec.height, spec.width] : [spec.width, spec.height];
  const drawn: ShotDraw = { ...drawShot(spec.seed, turn), ...spec.say };
  const outline = outlineOf(plate);
  const angle = (turn * Math.PI) / 2;
  const camera = makeCamera({ ...drawn, width, height }, angle, outline);
  const lamp = makeLamp(drawn.elevation, drawn.side - angle, drawn.fallOff, outline);
  const { couponWidth, couponHeight } = plate.frame;
  const toPixel = (x: number, y: number, z = drawn.rise): PixelPoint =>
    camera.toPixel(x - couponWidth / 2, y - couponHeight / 2, z);
  const brightest = paperReflectance * Math.max(1, ...outline.map(([x, y]) => lamp.light(x, y)));
  const exposure = (drawn.white - drawn.veil) / brightest;
  const light = (x: number, y: number): number => lamp.light(x - couponWidth / 2, y - couponHeight / 2);
  return { turn, width, height, drawn, outline, camera, lamp, exposure, light, toPixel };
}

/** One photograph of a plate: the picture as a reader gets it, its JPEG file, and what is true of it. */
export async function photograph(
  plate: Plate,
  spec: ShotSpec,
): Promise<{ readonly photo: Photo; readonly jpeg: Uint8Array | null; readonly truth: ShotTruth }> {
  const { turn, width, height, drawn, camera, lamp, exposure, light, toPixel } = shotScene(plate, spec);
  const gleam = spec.glare ? gleamField(plate, drawn, camera, lamp) : null;
  const labels = sheetLabels(plate, drawn.covered);
  const exposed = expose({ plate, camera, lamp, gleam, rise: drawn.rise, labels }, width, height);
  const rgb = develop(exposed.linear, width, height, drawn, exposure, spec.seed * 4 + turn);
  const { couponWidth, couponHeight, markers } = plate.frame;
  const truth: ShotTruth = {
    drawn,
    turn,
    markers: markers.map(({ id, x, y, size }, k) => ({
      id,
      corners: [toPixel(x, y + size, 0), toPixel(x + size, y + size, 0), toPixel(x + size, y, 0), toPixel(x, y, 0)],
      covered: k === drawn.covered,
    })),
    patches: plate.patches.map((p, k) => {
      const { L } = plate.truth[k]!.lab;
      const y = ((L + 16) / 116) ** 3 + exposed.gleam[k]!;
      return {
        patch: p.patch,
        centre: toPixel(p.x + p.width / 2, p.y + p.height / 2),
        gleam: exposed.gleam[k]!,
        gleamLightness: labFromLinear([y, y, y]).L - L,
      };
    }),
    scale: scaleAt(toPixel, couponWidth / 2, couponHeight / 2),
    distance: camera.distance,
    exposure,
    toPixel,
    light,
  };
  if (spec.jpeg === false) return { photo: { width, height, rgb, space: "srgb" }, jpeg: null, truth };
  const jpeg = await sharp(rgb, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: drawn.quality, chromaSubsampling: "4:2:0" })
    .toBuffer();
  const decoded = await sharp(jpeg).raw().toBuffer();
  return { photo: { width, height, rgb: new Uint8Array(decoded), space: "srgb" }, jpeg: new Uint8Array(jpeg), truth };
}

function scaleAt(toPixel: (x: number, y: number) => PixelPoint, x: number, y: number): number {
  const [a, b] = [toPixel(x - 5e-4, y), toPixel(x + 5e-4, y)];
  return Math.hypot(b.u - a.u, b.v - a.v);
}
