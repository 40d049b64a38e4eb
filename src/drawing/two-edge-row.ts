import type { EdgeSpread, TwoEdgeBar } from "#terms";
import { at, type Axis } from "./axis.ts";
import type { Theme } from "./palette.ts";
import { sharesAt } from "./two-edge-axis.ts";
import { element } from "./xml.ts";

export interface RowPlace {
  readonly id: string;
  readonly hatchId: string;
  /** top of the row */
  readonly y: number;
  readonly axis: Axis;
  readonly theme: Theme;
}

const bracketAt = 12;
const barAt = 20;
const barHeight = 16;

/** One two-edge bar with its reach bracket; carries no text. */
export function barRow(bar: TwoEdgeBar, place: RowPlace): string {
  const { axis, theme, id } = place;
  const y = place.y + barAt;
  const span = { x: axis.from, y, width: axis.to - axis.from, height: barHeight };
  const gap = gradient(`${id}-gap`, bar, axis, theme.accent, (s) => s.removed * (1 - s.damaged));
  const harm = gradient(`${id}-harm`, bar, axis, theme.damage, (s) => 0.35 * s.damaged);
  return element(
    "g",
    {},
    element("defs", {}, gap, harm),
    element("rect", { ...span, fill: theme.faint }),
    element("rect", { ...span, fill: `url(#${id}-gap)` }),
    element("rect", { ...span, fill: `url(#${id}-harm)` }),
    damageHatch(bar, place, y),
    outOfReach(bar, place, y),
    edgeLine(bar.removalEdge, axis, y, theme.ink, null),
    edgeLine(bar.damageEdge, axis, y, theme.ink, "3 2.5"),
    reachBracket(bar, axis, place.y + bracketAt, theme.ink),
    bestMark(bar.best, axis, y + barHeight / 2, theme),
  );
}

type Shares = ReturnType<typeof sharesAt>;

function gradient(id: string, bar: TwoEdgeBar, axis: Axis, colour: string, opacity: (s: Shares) => number): string {
  const steps = 48;
  const stops: string[] = [];
  for (let i = 0; i <= steps; i++) {
    const value = axis.low * (axis.high / axis.low) ** (i / steps);
    const shown = opacity(sharesAt(bar, value));
    stops.push(element("stop", { offset: i / steps, "stop-color": colour, "stop-opacity": shown }));
  }
  return element("linearGradient", { id }, ...stops);
}

function damageHatch(bar: TwoEdgeBar, place: RowPlace, y: number): string {
  if (bar.damageEdge === null || bar.damageEdge.median >= place.axis.high) return "";
  const x = at(place.axis, bar.damageEdge.median);
  return element("rect", { x, y, width: place.axis.to - x, height: barHeight, fill: `url(#${place.hatchId})` });
}

/** What the machine cannot reach is faded: a gap that lies there is of no use. */
function outOfReach(bar: TwoEdgeBar, place: RowPlace, y: number): string {
  const { axis, theme } = place;
  const [left, right] = [at(axis, bar.reachLow), at(axis, bar.reachHigh)];
  const fade = (x: number, width: number): string =>
    width <= 0 ? "" : element("rect", { x, y, width, height: barHeight, fill: theme.paper, opacity: 0.72 });
  return fade(axis.from, left - axis.from) + fade(right, axis.to - right);
}

function edgeLine(edge: EdgeSpread | null, axis: Axis, y: number, colour: string, dash: string | null): string {
  if (edge === null || edge.median < axis.low || edge.median > axis.high) return "";
  const x = at(axis, edge.median);
  return element("line", {
    x1: x,
    x2: x,
    y1: y - 2,
    y2: y + barHeight + 2,
    stroke: colour,
    "stroke-width": 1.8,
    "stroke-dasharray": dash,
  });
}

/** The ends point outward where the reach runs on beyond the axis. */
function reachBracket(bar: TwoEdgeBar, axis: Axis, y: number, colour: string): string {
  if (bar.reachHigh <= axis.low || bar.reachLow >= axis.high) return "";
  const left = at(axis, Math.max(bar.reachLow, axis.low));
  const right = at(axis, bar.reachHigh);
  const leftEnd =
    bar.reachLow < axis.low ? `M${left + 5} ${y - 4}L${left} ${y}L${left + 5} ${y + 4}` : `M${left} ${y}v5`;
  const rightEnd =
    bar.reachHigh > axis.high ? `M${right - 5} ${y - 4}L${right} ${y}L${right - 5} ${y + 4}` : `M${right} ${y}v5`;
  return element("path", {
    d: `M${left} ${y}H${right}${leftEnd}${rightEnd}`,
    fill: "none",
    stroke: colour,
    "stroke-width": 1.4,
  });
}

function bestMark(best: number | null, axis: Axis, y: number, theme: Theme): string {
  if (best === null || best < axis.low || best > axis.high) return "";
  const x = at(axis, best);
  const d = `M${x} ${y - 7}L${x + 6} ${y}L${x} ${y + 7}L${x - 6} ${y}Z`;
  return element("path", { d, fill: theme.paper, stroke: theme.ink, "stroke-width": 1.6 });
}
