import type { RandomStream } from "#numerics";
import {
  type ColourSpace,
  decodeCode,
  encodeLinear,
  linearFromXyz,
  luminanceOfLightness,
  xyzFromLinear,
} from "#grading";
import type { GreySample, LayerSample } from "#grading";

/** A camera whose tone is a logistic S, not the cubic of the reader, and light from a near lamp, not a low-order field. */
export interface Camera {
  readonly space: ColourSpace;
  readonly steepness: number;
  readonly exposure: readonly [number, number, number];
  readonly lamp: readonly [number, number, number];
  readonly ambient: number;
}

export function drawCamera(random: RandomStream, tone = 0.5 * random.next()): Camera {
  const warm = 0.12 * random.normal();
  const exposure = 0.62 + 0.25 * random.next();
  return {
    space: random.next() < 0.5 ? "srgb" : "display-p3",
    steepness: tone,
    exposure: [exposure * Math.exp(warm), exposure, exposure * Math.exp(-warm)],
    lamp: [0.3 * random.normal(), 0.3 * random.normal(), 0.42 + 0.3 * random.next()],
    ambient: 0.2 + 0.4 * random.next(),
  };
}

/** Light at a place of the frame (m), 1 at the brightest: inverse square and cosine of a near lamp over an ambient. */
function lightAt({ lamp: [x0, y0, h], ambient }: Camera, x: number, y: number): number {
  const r2 = (x - x0) ** 2 + (y - y0) ** 2 + h * h;
  const middle = (0.1 - x0) ** 2 + (0.075 - y0) ** 2 + h * h;
  return ambient + (1 - ambient) * (middle / r2) ** 2;
}

function logisticS(t: number, steepness: number): number {
  if (steepness < 1e-6) return t;
  const k = 8 * steepness;
  const f = (u: number) => 1 / (1 + Math.exp(-k * (u - 0.5)));
  const s = (f(t) - f(0)) / (f(1) - f(0));
  return 0.45 * t + 0.55 * s;
}

/** Linear light as the photograph writes it (through its own code, to 8 bits when asked) of a reflectance in linear sRGB. */
export function shoot(camera: Camera, rgb: ArrayLike<number>, x: number, y: number, glare = 0, noise = 0): number[] {
  const light = lightAt(camera, x, y);
  const own = linearFromXyz(xyzFromLinear(rgb[0]!, rgb[1]!, rgb[2]!, "srgb"), camera.space);
  return own.map((reflectance, c) => {
    const linear = camera.exposure[c]! * (Math.max(0, reflectance) * light + glare) + noise;
    const code = logisticS(encodeLinear(Math.min(1, Math.max(0, linear))), camera.steepness);
    return decodeCode(Math.round(255 * code * 16) / 16 / 255);
  });
}

const STEPS = [22, 34, 46, 58, 70, 82, 94];

/** Two strips of seven greys left and right of a 200 × 150 mm plate, printed with an error of σ L*. */
export function greySamples(camera: Camera, random: RandomStream, sigma = 0.7, glare = 0): GreySample[] {
  return [-0.02, 0.22].flatMap((x) =>
    STEPS.map((lightness, i) => {
      const y = 0.02 + (0.11 * (x < 0 ? i : 6 - i)) / 6;
      const r = luminanceOfLightness(lightness + sigma * random.normal());
      const rgb = shoot(camera, [r, r, r], x, y, glare, 0.0005 * random.normal()) as unknown as [
        number,
        number,
        number,
      ];
      return { x, y, rgb, lightness, clippedShare: rgb.some((v) => v > 0.98) ? 1 : 0 };
    }),
  );
}

/** Patch centres of a coupon of 8 × 6. */
export const centres = Array.from({ length: 48 }, (_, i) => ({
  patch: i + 1,
  x: 0.0125 + 0.025 * (i % 8),
  y: 0.0125 + 0.025 * Math.floor(i / 8),
}));

/** Four samples of layer around each patch, textured, with additive glare by place. */
export function layerSamples(
  camera: Camera,
  coat: ArrayLike<number>,
  random: RandomStream,
  glareAt: (x: number, y: number) => number = () => 0,
  shadeAt: (x: number, y: number) => number = () => 1,
): LayerSample[] {
  return centres.flatMap(({ patch, x, y }) =>
    [
      [-0.011, 0],
      [0.011, 0],
      [0, -0.011],
      [0, 0.011],
    ].map(([dx, dy]) => {
      const at = [x + dx!, y + dy!] as const;
      const texture = shadeAt(...at) * Math.exp(0.015 * random.normal());
      const rgb = shoot(
        camera,
        [0, 1, 2].map((c) => coat[c]! * texture),
        ...at,
        glareAt(...at),
      ) as unknown as [number, number, number];
      return { patch, x: at[0], y: at[1], rgb };
    }),
  );
}
