import { fromSI } from "#units";
import type { EdgeSpread, TwoEdgeBar } from "#terms";

/** An axis range in J/m². */
export interface BarRange {
  readonly low: number;
  readonly high: number;
}

/** Reach is followed this far beyond the last edge. */
const reachShown = 4;

/** At most this many decades are drawn; reach beyond is drawn as an arrow. */
const decadesMax = 5;

/** The range that shows every edge and best setting of the bars, with room at both ends (J/m²). */
export function barRange(bars: readonly TwoEdgeBar[]): BarRange {
  const wanted: number[] = [];
  for (const bar of bars) {
    for (const edge of [bar.removalEdge, bar.damageEdge]) if (edge !== null) wanted.push(edge.low, edge.high);
    if (bar.best !== null) wanted.push(bar.best);
    if (bar.removalEdge === null && bar.damageEdge === null) wanted.push(bar.reachLow, bar.reachHigh);
  }
  const edgesHigh = Math.max(...wanted.filter(Number.isFinite), 0);
  for (const bar of bars) wanted.push(edgesHigh > 0 ? Math.min(bar.reachHigh, edgesHigh * reachShown) : bar.reachHigh);
  const usable = wanted.filter((value) => Number.isFinite(value) && value > 0);
  if (usable.length === 0) return { low: 1e3, high: 1e5 };
  let low = Math.min(...usable) / 2;
  const high = Math.max(...usable) * 2;
  low = Math.max(low, high / 10 ** decadesMax);
  return { low, high };
}

/**
 * Share of the draws in which the edge lies below a value, straight lines on the logarithmic axis through
 * 5 % at `low`, 50 % at `median`, 95 % at `high`, running out to 0 and 1 at the same slope.
 */
export function shareBelow(edge: EdgeSpread, value: number): number {
  const x = Math.log(value);
  const points = [Math.log(edge.low), Math.log(edge.median), Math.log(edge.high)] as const;
  if (x < points[1]) {
    const width = Math.max(points[1] - points[0], 1e-6);
    return Math.min(0.5, Math.max(0, 0.05 + (0.45 * (x - points[0])) / width));
  }
  const width = Math.max(points[2] - points[1], 1e-6);
  return Math.min(1, Math.max(0.5, 0.5 + (0.45 * (x - points[1])) / width));
}

/** Shares of the draws in which the layer is off, and in which the metal has changed, at one value of the axis. */
export function sharesAt(bar: TwoEdgeBar, value: number): { readonly removed: number; readonly damaged: number } {
  return {
    removed: bar.removalEdge === null ? 0 : shareBelow(bar.removalEdge, value),
    damaged: bar.damageEdge === null ? 0 : shareBelow(bar.damageEdge, value),
  };
}

export const axisNames = {
  fluence: "peak fluence of one pulse",
  dose: "dose of one pass",
} as const;

/** J/cm², three figures */
export function doseText(value: number): string {
  const shown = fromSI(value, "J/cm2");
  return String(Number(shown.toPrecision(shown >= 100 ? 3 : 2)));
}

/** One sentence that says what the bar shows, for readers who do not see it. */
export function barSentence(bar: TwoEdgeBar): string {
  const edge = (e: EdgeSpread | null, what: string, none: string): string =>
    e === null ? none : `${what} at ${doseText(e.median)} J/cm² (${doseText(e.low)} to ${doseText(e.high)})`;
  const parts = [
    edge(bar.removalEdge, "layer comes off", "layer does not come off in the range computed"),
    edge(bar.damageEdge, "metal changes", "metal does not change in the range computed"),
    `machine reaches ${doseText(bar.reachLow)} to ${doseText(bar.reachHigh)} J/cm²`,
    bar.best === null ? "no best setting" : `best setting at ${doseText(bar.best)} J/cm²`,
  ];
  return `${axisNames[bar.axis]}: ${parts.join("; ")}`;
}
