import type { Acceptance } from "#terms";
import { formatNumber } from "#units";
import { cleanPoints } from "./gauge-points.ts";

/** A way to settle the residue where photographs cannot. */
export interface OtherWay {
  readonly way: "cross-polarised" | "raking-light" | "ultraviolet" | "gauge" | "water-break";
  /** what to do and what it tells, for the person at the bench */
  readonly words: string;
  /** points a patch; null where the whole patch is looked at */
  readonly points: number | null;
}

/** Points that still go on a patch of some 10 mm by hand. */
const HANDY = 60;

const pair: OtherWay = {
  way: "cross-polarised",
  words:
    "Take a cross-polarised pair: a polariser on the lamp and one on the lens, once crossed, once parallel; bare metal goes " +
    "dark when they are crossed, coating stays.",
  points: null,
};
const raking: OtherWay = {
  way: "raking-light",
  words:
    "Light the coupon from one side at 10 to 15 degrees: edges of what is left throw shadows, whatever its colour.",
  points: null,
};
const ultraviolet: OtherWay = {
  way: "ultraviolet",
  words:
    "Look at the coupon in the dark under a 365 nm lamp, an untouched patch beside it: most oils, waxes and clear coats " +
    "glow, metal does not; wear glasses that stop ultraviolet.",
  points: null,
};
const waterBreak: OtherWay = {
  way: "water-break",
  words:
    "Do a water-break test (ASTM F22): a film of clean water that stays whole for a minute shows that no oil or wax is left; " +
    "count the points where it breaks.",
  points: null,
};

/** Gauge readings, with as many points as the acceptance asks for. */
function gauge({ residueMax }: Acceptance): OtherWay {
  const points = cleanPoints(Math.max(1e-4, Math.min(0.9, residueMax)));
  const limit = formatNumber(100 * residueMax, 2);
  const many =
    points > HANDY
      ? ` That is more than goes on a patch by hand: burn a larger patch, or agree a limit of 5 % (${cleanPoints(0.05)} points).`
      : "";
  return {
    way: "gauge",
    words:
      `Read a thickness gauge at ${points} points a patch, laid out before looking: none above 1 µm or a twentieth of the ` +
      `layer then shows, at 95 %, that less than ${limit} % of the patch is covered.${many}`,
    points,
  };
}

/** Why photographs do not do, which decides what does. */
export type Trouble = "alike" | "oil" | "rubber" | "clear" | "acceptance";

/** Ways for the troubles of a stack, each once, the best first. thick: whether a gauge can feel the layer. */
export function otherWays(troubles: readonly Trouble[], acceptance: Acceptance, thick: boolean): OtherWay[] {
  const gauged = thick ? [gauge(acceptance)] : [];
  const by: Readonly<Record<Trouble, readonly OtherWay[]>> = {
    alike: [pair, raking, ...gauged],
    oil: [waterBreak, ultraviolet],
    rubber: [raking, pair, waterBreak, ...gauged],
    clear: [ultraviolet, pair, ...gauged, waterBreak],
    acceptance: gauged.length > 0 ? gauged : [waterBreak, raking],
  };
  return [...new Map(troubles.flatMap((t) => by[t]).map((way) => [way.way, way])).values()];
}
