import { median } from "#numerics";
import { type ColourSpace, linearFromXyz, luminanceWeights, xyzFromLinear } from "../colour-space.ts";
import type { FieldFrame } from "./light-field.ts";
import { gainAt, layerAt, rowOf, UNKNOWNS } from "./light-equations.ts";
import { type ToneCurve, toneUndoer } from "./tone-curve.ts";
import { type LightSamples, type PatchView, requireView } from "./view.ts";

type Triple = readonly [number, number, number];

/** What was found of the light of one photograph. */
export interface LightCalibration {
  readonly tone: ToneCurve;
  /** rms of the grey steps in ln light: share by which they do not fit */
  readonly cardResidual: number;
  /** share of the white step's pixels that are clipped; 1 when no step is known */
  readonly whiteClipped: number;
  /** true when L* is absolute: the greys were measured */
  readonly absolute: boolean;
  /** reflectance of the untouched layer, linear sRGB; null without samples of it */
  readonly layer: Triple | null;
  /** by patch: ln of the layer's luminance around it over that of the layer elsewhere; below 0 a shadow, above 0 glare */
  readonly ringResidual: ReadonlyMap<number, number>;
  /** reflectance in linear sRGB of light at a place, m */
  reflectance(rgb: Triple, x: number, y: number): [number, number, number];
  /** ln luminance, standard uncertainty of that reflectance */
  uncertainty(rgb: Triple, x: number, y: number): number;
  /** a view in reflectance, its margin cut down to 1 mm; x, y in m of its centre */
  calibrate(view: PatchView, x: number, y: number): PatchView;
}

interface Found {
  readonly samples: LightSamples;
  readonly frame: FieldFrame;
  readonly tone: Omit<ToneCurve, "power">;
  readonly unknowns: Float64Array;
  readonly covariance: Float64Array;
  readonly cardResidual: number;
}

function intoSrgb(r: number, g: number, b: number, space: ColourSpace): [number, number, number] {
  return space === "srgb" ? [r, g, b] : linearFromXyz(xyzFromLinear(r, g, b, space));
}

/** mm of what lies around a patch that readings look at: the rest of a margin only took memory. */
const MARGIN_KEPT_MM = 1;

/** A view with no more margin than readings need. */
function narrowed(view: PatchView): PatchView {
  const off = view.margin - Math.ceil(MARGIN_KEPT_MM * view.pixelsPerMm);
  if (off <= 0) return view;
  const [width, height] = [view.width - 2 * off, view.height - 2 * off];
  const rgb = new Float32Array(3 * width * height);
  for (let row = 0; row < height; row += 1) {
    const from = 3 * ((row + off) * view.width + off);
    rgb.set(view.rgb.subarray(from, from + 3 * width), 3 * width * row);
  }
  return { ...view, width, height, rgb, margin: view.margin - off };
}

/** The calibration that a solution means. Patches are small beside the field: one gain at the centre does for each. */
export function calibrationOf({
  samples,
  frame,
  tone: bent,
  unknowns,
  covariance,
  cardResidual,
}: Found): LightCalibration {
  const { greys, layer, space } = samples;
  // The power found on few greys is held to what a tone curve may be.
  const power = Math.min(3, Math.max(0.3, 1 / Math.max(0.1, unknowns[0]!)));
  const undo = toneUndoer({ ...bent, power: 1 });
  const tone = { ...bent, power };
  const share = luminanceWeights(space);
  const gains = (x: number, y: number) => [0, 1, 2].map((c) => Math.exp(-power * gainAt(frame, unknowns, x, y, c)));
  const raw = (rgb: Triple, x: number, y: number): Triple => {
    const gain = gains(x, y);
    return [0, 1, 2].map((c) => undo(rgb[c]!) ** power * gain[c]!) as unknown as Triple;
  };
  const luminance = (rgb: Triple): number => share[0] * rgb[0] + share[1] * rgb[1] + share[2] * rgb[2];
  const coat: Triple | null =
    layer.length === 0 ? null : ([0, 1, 2].map((c) => Math.exp(power * layerAt(unknowns, c))) as unknown as Triple);

  const around = new Map<number, number[]>();
  for (const s of layer) {
    const list = around.get(s.patch) ?? [];
    list.push(Math.log(luminance(raw(s.rgb, s.x, s.y)) / luminance(coat!)));
    around.set(s.patch, list);
  }
  const white = greys.reduce((best, g) => (g.lightness > best.lightness ? g : best), greys[0]!);

  return {
    tone,
    cardResidual,
    whiteClipped: Math.max(...greys.filter((g) => g.lightness > white.lightness - 1).map((g) => g.clippedShare)),
    absolute: samples.greysMeasured,
    layer: coat === null ? null : intoSrgb(...coat, space),
    ringResidual: new Map([...around].map(([patch, list]) => [patch, median(list)])),
    reflectance: (rgb, x, y) => intoSrgb(...raw(rgb, x, y), space),
    uncertainty(rgb, x, y) {
      const row = new Float64Array(UNKNOWNS);
      // The derivative of ln R by the unknowns is −power times the row of a grey of that R.
      rowOf(frame, { sample: { x, y, rgb }, channel: 1, target: Math.log(raw(rgb, x, y)[1]) }, row);
      let square = 0;
      for (let i = 0; i < UNKNOWNS; i += 1) {
        if (row[i] === 0) continue;
        for (let j = 0; j < UNKNOWNS; j += 1) square += row[i]! * row[j]! * covariance[i * UNKNOWNS + j]!;
      }
      return power * Math.sqrt(Math.max(0, square));
    },
    calibrate(cut, x, y) {
      const view = narrowed(requireView(cut));
      const gain = gains(x, y);
      // One table of light^power for each channel spares a power per pixel.
      const tables = gain.map((g) => {
        const table = new Float32Array(4098);
        for (let i = 0; i < table.length; i += 1) table[i] = undo(Math.min(1, (i / 4096) ** 2)) ** power * g;
        return table;
      });
      const rgb = new Float32Array(view.rgb.length);
      for (let i = 0; i < rgb.length; i += 1) {
        const v = view.rgb[i]!;
        const place = 4096 * Math.sqrt(v < 0 ? 0 : v > 1 ? 1 : v);
        const below = place | 0;
        const table = tables[i % 3]!;
        rgb[i] = table[below]! + (place - below) * (table[below + 1]! - table[below]!);
      }
      if (space !== "srgb") {
        for (let i = 0; i < rgb.length; i += 3) rgb.set(intoSrgb(rgb[i]!, rgb[i + 1]!, rgb[i + 2]!, space), i);
      }
      return { ...view, rgb };
    },
  };
}
