import type { HazardDistance, HazardPath } from "#safety";
import { formatNumber, invalid, requireNonNegative } from "#units";

/** How a path is drawn and named in short. The last two stand open only in service and are not on the plan. */
export const pathStyles: Readonly<
  Record<HazardPath, { readonly short: string; readonly shape: "fan" | "half disc" | "lambert" | null }>
> = {
  "direct beam behind the lens": { short: "direct beam", shape: "fan" },
  "mirror-like part of the reflection": { short: "mirror-like reflection", shape: "half disc" },
  "diffuse reflection": { short: "diffuse reflection", shape: "lambert" },
  "scattered evenly": { short: "scattered evenly", shape: "half disc" },
  "lens removed, collimated beam": { short: "lens removed", shape: null },
  "open fibre end": { short: "open fibre end", shape: null },
};

/** Beyond this many times the shortest reach a path is cut, so that the short ones can still be seen. */
export const CUT_RATIO = 20;

/** Paths of the plan, longest first, and how far its scale goes. */
export interface PlanReach {
  /** m at the edge of the plan */
  readonly radius: number;
  readonly shown: readonly { readonly distance: HazardDistance; readonly cut: boolean }[];
}

/** Which paths fit on one scale: none more than CUT_RATIO times the shortest that reaches anywhere. */
export function planReach(distances: readonly HazardDistance[]): PlanReach {
  for (const d of distances)
    for (const value of [d.eye, d.skin, d.eyeShown, d.skinShown])
      requireNonNegative(`hazard distance, ${d.path}`, value, "m");
  const onPlan = distances.filter((d) => pathStyles[d.path].shape !== null && farthest(d) > 0);
  if (onPlan.length === 0)
    return invalid("hazard distances", distances.length, "", "needs one on the plan that is above 0 m");
  const shortest = Math.min(...onPlan.map(farthest));
  const shown = onPlan
    .map((distance) => ({ distance, cut: farthest(distance) > CUT_RATIO * shortest }))
    .sort((a, b) => farthest(b.distance) - farthest(a.distance));
  return { radius: Math.max(...shown.filter((s) => !s.cut).map((s) => farthest(s.distance))), shown };
}

const farthest = (d: HazardDistance): number => Math.max(d.eyeShown, d.skinShown);

export const metres = (value: number): string => `${formatNumber(value, 3)} m`;
export const reachText = (d: HazardDistance): string => `eye ${metres(d.eyeShown)}, skin ${metres(d.skinShown)}`;
