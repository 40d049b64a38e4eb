import { fromSI, invalid } from "#units";
import { mapColour } from "./colour-map.ts";
import { label } from "./lettering.ts";
import type { Theme } from "./palette.ts";
import { element } from "./xml.ts";

/** Temperature over depth at some moments: the film of one pulse. */
export interface HeatFilm {
  /** s, one per frame */
  readonly times: readonly number[];
  /** m below the surface, ascending, first at or near 0 */
  readonly depths: readonly number[];
  /** K, frame by frame, one value per depth */
  readonly temperature: readonly (readonly number[])[];
}

export interface FilmPlace {
  readonly id: string;
  readonly left: number;
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
  /** picture units per µm, the same as the layers beside it */
  readonly scale: number;
  readonly theme: Theme;
}

/** Frames side by side, depth on the scale of the section beside them; each frame is one moment. */
export function heatFilmSvg(film: HeatFilm, place: FilmPlace): string {
  const { times, depths, temperature } = film;
  if (times.length === 0 || temperature.length !== times.length || temperature.some((f) => f.length !== depths.length))
    return invalid("heat film", temperature.length, "frames", "must have one row per time and one value per depth");
  const all = temperature.flat();
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const share = (value: number): number => (high > low ? (value - low) / (high - low) : 0);
  const depthAt = (k: number): number => place.top + fromSI(depths[k]!, "um") * place.scale;
  const frameWidth = place.width / times.length;
  const cells: string[] = [];
  for (const [f, profile] of temperature.entries())
    for (let k = 0; k < depths.length; k++) {
      const top = k === 0 ? place.top : (depthAt(k - 1) + depthAt(k)) / 2;
      const bottom = Math.min(k + 1 < depths.length ? (depthAt(k) + depthAt(k + 1)) / 2 : depthAt(k), place.bottom);
      if (bottom <= top) continue;
      const fill = mapColour(share(profile[k]!), "viridis");
      const x = place.left + f * frameWidth;
      cells.push(element("rect", { x, y: top, width: frameWidth - 1, height: bottom - top + 0.2, fill }));
    }
  return element("g", {}, ...cells, timeLabels(times, frameWidth, place), temperatureKey(low, high, place));
}

function timeLabels(times: readonly number[], frameWidth: number, place: FilmPlace): string {
  const chosen = [...new Set([0, Math.floor((times.length - 1) / 2), times.length - 1])];
  const texts = chosen.map((f) => {
    const anchor = f === 0 ? "start" : f === times.length - 1 ? "end" : "middle";
    const x = place.left + (f === 0 ? 0 : f === times.length - 1 ? place.width : (f + 0.5) * frameWidth);
    return label(x, place.top - 6, timeText(times[f]!), 11, place.theme.muted, { "text-anchor": anchor });
  });
  return texts.join("");
}

/** A time with the unit that keeps it near one to a thousand. */
export function timeText(seconds: number): string {
  const unit = seconds < 1e-6 ? "ns" : seconds < 1e-3 ? "us" : seconds < 1 ? "ms" : "s";
  return `${Number(fromSI(seconds, unit).toPrecision(2))} ${unit.replace("us", "µs")}`;
}

function temperatureKey(low: number, high: number, place: FilmPlace): string {
  const y = place.bottom + 10;
  const steps = 20;
  const cells = Array.from({ length: steps }, (_, k) =>
    element("rect", {
      x: place.left + (place.width * k) / steps,
      y,
      width: place.width / steps + 0.3,
      height: 8,
      fill: mapColour((k + 0.5) / steps, "viridis"),
    }),
  );
  const text = (value: number): string => `${Math.round(fromSI(value, "degC"))} °C`;
  return (
    cells.join("") +
    label(place.left, y + 21, text(low), 11, place.theme.muted) +
    label(place.left + place.width, y + 21, text(high), 11, place.theme.muted, { "text-anchor": "end" })
  );
}
