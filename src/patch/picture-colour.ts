import type { Metre } from "#terms";
import { invalid } from "#units";

/** sRGB, 0 to 255 each. */
export type Rgb = readonly [number, number, number];

/** Colour of a CSS text "#rrggbb"; throws InvalidInput for another form. */
export function rgbOf(text: string): Rgb {
  if (!/^#[0-9a-f]{6}$/i.test(text)) invalid("colour", text, "", "#rrggbb");
  const part = (i: number) => Number.parseInt(text.slice(i, i + 2), 16);
  return [part(1), part(3), part(5)];
}

export function cssOf(colour: Rgb): string {
  return `#${colour
    .map((v) =>
      Math.round(Math.min(255, Math.max(0, v)))
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;
}

/** Straight mix in sRGB: share 0 the first, 1 the second. */
export function mixed(first: Rgb, second: Rgb, share: number): Rgb {
  const s = share < 0 ? 0 : share > 1 ? 1 : share;
  return [
    first[0] + s * (second[0] - first[0]),
    first[1] + s * (second[1] - first[1]),
    first[2] + s * (second[2] - first[2]),
  ];
}

/** Tones of clean metals as the eye takes them in shop light; from memory. */
const METALS: readonly (readonly [string, string])[] = [
  ["aluminium", "#c5c9cc"],
  ["stainless", "#b3b5b4"],
  ["cast-iron", "#8f8f8e"],
  ["steel", "#a6a9ab"],
  ["copper", "#c98d68"],
  ["brass", "#cdb675"],
  ["titanium", "#a9a7a5"],
  ["zinc", "#b2b8bd"],
];

/** Tone of a bare metal by the beginning of its id; a neutral grey for others. */
export function metalTone(metalId: string): string {
  return METALS.find(([name]) => metalId.startsWith(name))?.[1] ?? "#b0b2b3";
}

/** nm, middle of what the three channels see. */
const WAVES = [610, 545, 465] as const;
/** Amplitude that the metal under the film throws back, from memory (iron and steel in the visible about 0.75). */
const METAL_AMPLITUDE = 0.75;
/** m over which an oxide stops being a clear film and looks like dark scale, from memory. */
const CLEAR = 350e-9;
const SCALE: Rgb = [62, 57, 55];

/**
 * Colour of a metal under a thin oxide by interference: straw, purple, blue as the film grows, then dark scale.
 *
 * Equation: R(d)/R(0) at three wavelengths, R = (r₁² + r₂² + 2r₁r₂·cos φ)/(1 + r₁²r₂² + 2r₁r₂·cos φ), φ = 4πnd/λ,
 * r₁ = (1 − n)/(1 + n), r₂ = −0.75; its share fades as exp(−(d/350 nm)²) into the tone of scale.
 * Units: thickness d m, index n 1, metal sRGB; result sRGB. Range: d ≥ 0, n above 1. Errors: none.
 * Source: film formula (Born and Wolf, Principles of Optics, 1.6); fading own, for pictures only.
 */
export function oxideTint(metal: Rgb, thickness: Metre, index: number): Rgb {
  const r1 = (1 - index) / (1 + index);
  const product = -METAL_AMPLITUDE * r1;
  const reflect = (cos: number) =>
    (r1 * r1 + METAL_AMPLITUDE ** 2 + 2 * product * cos) / (1 + product * product + 2 * product * cos);
  const tinted = WAVES.map((wave, i) => {
    const phase = (4 * Math.PI * index * thickness) / (wave * 1e-9);
    // Light is added in linear terms; 2.2 is near enough to the sRGB curve for a tint.
    return metal[i]! * (reflect(Math.cos(phase)) / reflect(1)) ** (1 / 2.2);
  });
  return mixed(SCALE, [tinted[0]!, tinted[1]!, tinted[2]!], Math.exp(-((thickness / CLEAR) ** 2)));
}
