import type { SettingFeatures, WindowMap } from "#terms";
import { requireFinite } from "#units";
import { meanProbabilities, type WindowDraws } from "./predict-window.ts";

export interface MapInput {
  readonly fit: WindowDraws;
  /** features at a place of the map, the other values held */
  readonly featuresAt: (x: number, y: number) => SettingFeatures;
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly names: { readonly x: string; readonly y: string };
}

/**
 * P(clean) and P(undamaged) over two values of the setting, row major with y outer. xs and ys in the caller's SI
 * units. Throws InvalidInput on a place or feature that is not finite.
 */
export function windowMap(input: MapInput): WindowMap {
  const probabilityClean: number[] = [];
  const probabilityUndamaged: number[] = [];
  for (const y of input.ys) {
    requireFinite("y of the map", y);
    for (const x of input.xs) {
      requireFinite("x of the map", x);
      const p = meanProbabilities(input.fit, input.featuresAt(x, y));
      probabilityClean.push(p.clean);
      probabilityUndamaged.push(p.undamaged);
    }
  }
  return {
    xName: input.names.x,
    yName: input.names.y,
    x: [...input.xs],
    y: [...input.ys],
    probabilityClean,
    probabilityUndamaged,
  };
}
