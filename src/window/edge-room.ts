import { quantile } from "#numerics";
import type { Margin } from "#terms";
import type { RayTruth } from "./chances.ts";

/** Distance of a setting from one edge over the versions of the truth, ln power. */
export interface EdgeDistance {
  readonly median: number;
  /** kept in nine of ten versions */
  readonly low: number;
}

export interface EdgeRoom {
  /** power that may be lost before residue stays */
  readonly clean: EdgeDistance;
  /** power that may be gained before the metal suffers */
  readonly damage: EdgeDistance;
}

/**
 * Room between a setting and both edges.
 *
 * Equation: x − clean and damage − x in every version; median and 10 % point.
 * Units: ln power. Range: any x. Errors: none. Source: definition of the margin.
 */
export function edgeRoom(truth: RayTruth, x: number): EdgeRoom {
  const below = truth.clean.map((c, s) => x - c - truth.cleanSlope[s]! * x);
  const above = truth.damage.map((d, s) => d + truth.damageSlope[s]! * x - x);
  const distance = (values: Float64Array) => ({ median: quantile(values, 0.5), low: quantile(values, 0.1) });
  return { clean: distance(below), damage: distance(above) };
}

/**
 * The margin as it is stated: the distance to the nearer edge that nine of ten versions keep; nulls where they keep none.
 * Units: ln power, per cent of power. Errors: none. Source: `edgeRoom`.
 */
export function marginFrom(room: EdgeRoom): Margin {
  const below = 1 - Math.exp(-room.clean.low);
  const above = Math.expm1(room.damage.low);
  if (below <= 0 || above <= 0) return { logDose: null, powerPercent: null, nearestEdge: null };
  return room.clean.low <= room.damage.low
    ? { logDose: room.clean.low, powerPercent: 100 * below, nearestEdge: "clean" }
    : { logDose: room.damage.low, powerPercent: 100 * above, nearestEdge: "undamaged" };
}

const per = (share: number): string => `${share < 1 ? (100 * share).toPrecision(2) : Math.round(100 * share)} %`;

/** Farther than this (ln) nothing is said to cross an edge. */
const FAR = 1.5;

/** Both distances in words, and what would cross the nearer edge. `depth`: defocus in m that changes the spot by 1 %, or null. */
export function roomWords(truth: RayTruth, room: EdgeRoom, perCentSpot: number | null): string[] {
  const lower = Math.max(0, 1 - Math.exp(-room.clean.median));
  const upper = Math.max(0, Math.expm1(room.damage.median));
  const words = [
    `In the middle version of the physics residue stays from ${per(lower)} less power on, and the metal suffers from ${per(upper)} more on.`,
  ];
  const clean = room.clean.low <= room.damage.low;
  const left = clean ? room.clean.low : room.damage.low;
  if (left <= 0)
    return [
      ...words,
      "Nine of ten versions do not keep any distance to both edges: hold every value as close as the machine can.",
    ];
  const { slopes } = truth.ray;
  const of = clean ? slopes.clean : slopes.damage;
  // An edge that moves up eats the room below a setting; one that moves down eats the room above it.
  const sign = clean ? 1 : -1;
  const ways: string[] = [clean ? `${per(1 - Math.exp(-left))} less power` : `${per(Math.expm1(left))} more power`];
  const way = (slope: number, more: string, less: string) => {
    const needed = left / (sign * slope);
    if (!Number.isFinite(needed) || Math.abs(needed) > FAR) return;
    ways.push(`${per(Math.abs(Math.expm1(needed)))} ${needed > 0 ? more : less}`);
    if (more === "larger spot" && needed > 0 && perCentSpot !== null)
      ways[ways.length - 1] +=
        ` (about ${(1e3 * Math.sqrt(100 * Math.expm1(needed)) * perCentSpot).toPrecision(2)} mm out of focus)`;
  };
  way(of.speed, "faster", "slower");
  way(of.spot, "larger spot", "smaller spot");
  way(of.thickness, "thicker layer", "thinner layer");
  return [
    ...words,
    `In nine of ten versions it takes at least one of these to cross the nearer edge, where ${clean ? "residue stays" : "the metal suffers"}: ${ways.join(", ")}.`,
  ];
}
