import type { LaserSetup, Setting } from "#terms";
import { fromSI } from "#units";
import { type MapAxis, mapControls } from "#workflows";
import { fitted } from "./linked.ts";

/** Place along an axis, 0 at its first value and 1 at its last: nodes are evenly apart, values between them in ratio. */
export function shareOf(axis: MapAxis, value: number): number {
  const { values } = axis;
  const last = values.length - 1;
  if (value <= values[0]!) return 0;
  if (value >= values[last]!) return 1;
  let i = 0;
  while (i < last - 1 && value >= values[i + 1]!) i++;
  const [low, high] = [values[i]!, values[i + 1]!];
  const part = low > 0 ? Math.log(value / low) / Math.log(high / low) : (value - low) / (high - low);
  return (i + part) / last;
}

/** Value at a place along an axis; whole numbers and what a machine offers a few of land on the nearest of them. */
export function valueAt(axis: MapAxis, share: number): number {
  const { values, control } = axis;
  const last = values.length - 1;
  const place = Math.min(1, Math.max(0, share)) * last;
  if (control === "passes" || control === "pulseWidth") return values[Math.round(place)]!;
  const i = Math.min(Math.floor(place), last - 1);
  const [low, high] = [values[i]!, values[i + 1]!];
  const part = place - i;
  return low > 0 ? low * (high / low) ** part : low + (high - low) * part;
}

/** The setting with both values of a map moved to a place on it, inside the limits that then hold. */
export function movedTo(
  setup: LaserSetup,
  setting: Setting,
  x: MapAxis,
  y: MapAxis,
  at: { readonly x: number; readonly y: number },
): Setting {
  return fitted(setup, { ...setting, [x.control]: valueAt(x, at.x), [y.control]: valueAt(y, at.y) });
}

/** Some values to letter an axis with: the first of each decade or half decade, or the ends and the middle. */
export function lettered(axis: MapAxis): { readonly share: number; readonly value: number }[] {
  const { values, control } = axis;
  const [first, last] = [values[0]!, values.at(-1)!];
  if (control === "pulseWidth" || control === "passes") {
    const step = Math.ceil(values.length / 6);
    return values.flatMap((value, i) => (i % step === 0 ? [{ share: i / (values.length - 1), value }] : []));
  }
  const unit = mapControls[control].unit;
  const shown = (value: number) => (unit === "" ? value : fromSI(value, unit));
  if (first > 0) {
    const scale = shown(1) - shown(0);
    const found: { share: number; value: number }[] = [];
    for (let e = Math.floor(Math.log10(shown(first))); e <= Math.log10(shown(last)); e++)
      for (const m of [1, 2, 5]) {
        const value = Number(`${m}e${e}`) / scale;
        if (value >= first * (1 - 1e-9) && value <= last * (1 + 1e-9))
          found.push({ share: shareOf(axis, value), value });
      }
    const gap = Math.max(1, Math.ceil(found.length / 7));
    return found.filter((_, i) => i % gap === 0);
  }
  return [0, 0.25, 0.5, 0.75, 1].map((share) => ({ share, value: first + (last - first) * share }));
}
