import { interpolateLinear } from "#numerics";
import type { TemperatureTable } from "#terms";

/** Temperatures of both tables, ascending, each once. K */
export function commonTemperatures(a: TemperatureTable, b: TemperatureTable): Float64Array {
  const all = [...new Set([...a.temperature, ...b.temperature])].sort((x, y) => x - y);
  return Float64Array.from(all);
}

/**
 * A table read at the given temperatures and multiplied by one factor, so that its shape stays.
 * Equation: y(T) = factor · table(T), straight lines between points, constant beyond the ends.
 * Units: temperature K, factor 1, result in the table's unit. Valid range: factor > 0.
 * Source: own (a spread common to the whole table).
 */
export function scaleTable(table: TemperatureTable, temperature: Float64Array, factor: number): Float64Array {
  const { temperature: xs, value: ys } = table;
  return temperature.map((t) => factor * interpolateLinear(xs, ys, Math.min(xs.at(-1)!, Math.max(xs[0]!, t))));
}

/** Factor of a table at a share u: lognormal about 1 with 5 % and 95 % points 1/(1 + spread) and 1 + spread. */
export function spreadProperty(relativeSpread: number, source: string) {
  return {
    value: 1,
    low: 1 / (1 + relativeSpread),
    high: 1 + relativeSpread,
    distribution: relativeSpread > 0 ? ("lognormal" as const) : ("fixed" as const),
    unit: "1",
    validRange: "whole table",
    source,
    fromMemory: true,
  };
}
