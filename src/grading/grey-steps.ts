import { invalid, requireInRange } from "#units";
import { encodeLinear, luminanceOfLightness } from "./colour-space.ts";
import { labFromSrgb } from "./lab-from-srgb.ts";

const count = 7;
const darkest = 20;
const lightest = 95;

/** The grey code, 0 to 255, that prints closest to a lightness L* (0 to 100). Source: IEC 61966-2-1, ISO/CIE 11664-4. */
export function greyCode(lightness: number): number {
  requireInRange("lightness", lightness, "", 0, 100);
  return Math.round(255 * encodeLinear(luminanceOfLightness(lightness)));
}

/**
 * Lightness of the seven grey steps, dark to light: as measured, or evenly from 20 to 95, each as the nearest code of
 * eight bits prints it. Throws InvalidInput where there are not seven or they do not rise.
 */
export function greySteps(measured?: readonly number[]): readonly number[] {
  if (measured === undefined)
    return Array.from({ length: count }, (_, k) => {
      const code = greyCode(darkest + ((lightest - darkest) * k) / (count - 1)) / 255;
      return labFromSrgb(code, code, code).L;
    });
  if (measured.length !== count)
    return invalid("grey steps", measured.length, "", `must be ${count} readings, dark to light`);
  measured.forEach((value, k) => {
    requireInRange(`lightness of grey step ${k + 1}`, value, "", 0, 100);
    if (k > 0 && value <= measured[k - 1]!)
      invalid(`lightness of grey step ${k + 1}`, value, "", "must be above that of the darker step before it");
  });
  return [...measured];
}
