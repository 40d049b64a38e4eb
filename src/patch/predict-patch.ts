import type { Acceptance, PatchResult } from "#terms";
import { metalConditionGrade } from "./condition.ts";
import type { Draw } from "./draw.ts";
import { eventPhysics } from "./event-physics.ts";
import { magnetiteShare, marginToLimit, metalHeat, oxideThickness, stayHarm } from "./metal-outcome.ts";
import type { PatchPlan } from "./patch-plan.ts";
import { stamp } from "./stamp.ts";

/**
 * Result of one setting in one version of the physics.
 *
 * Units: acceptance as in its type; `fluenceScale` multiplies the fluence and the mean power (1: as set), so that the
 * edges of a window can be searched beyond what the machine can set.
 * Range: fluenceScale above 0. Errors: none. Source: `lawTable`, `stamp`, `warmingOf`.
 */
export function predictPatch(
  draw: Draw,
  plan: PatchPlan,
  acceptance: Pick<Acceptance, "metalConditionMax" | "metalTemperatureMax">,
  fluenceScale = 1,
): PatchResult {
  const { sample, strip } = draw;
  const physics = eventPhysics(draw, plan, fluenceScale);
  const { duration, response, radius, bound: start } = physics;
  const melting = sample.metal.meltingTemperature;
  const startForLaw = Math.min(start, melting - 1);
  const law = physics.law(start);
  const base = { ...physics.point(law, strip.thickness), cell: plan.cell, radius };
  const flat = stamp(base);
  const pitted = strip.off.find((l) => l.pitAreaShare > 0);
  const pits = pitted ? stamp({ ...base, thickness: strip.thickness * (1 + pitted.pitDepthRatio) }) : null;
  const pitShare = pitted?.pitAreaShare ?? 0;

  const heat = metalHeat(draw, flat, law, response, startForLaw, duration);
  const hotRise = Math.max(heat.hottestRise, 1e-9);
  const peak = Math.min(
    Math.max(startForLaw + response.rise(hotRise, startForLaw), start),
    sample.metal.boilingTemperature,
  );
  const oxide = oxideThickness(draw, plan, peak, start, duration, flat);
  const grade = metalConditionGrade(heat.meltDepth, heat.meltedShare, oxide);
  const hotGrade = start >= melting ? 3 : grade;
  const stay = stayHarm(draw, flat, law, start);
  return {
    residueFraction: pits ? (1 - pitShare) * flat.residue + pitShare * pits.residue : flat.residue,
    metalPeakTemperature: peak,
    meltDepth: heat.meltDepth,
    meltedShare: heat.meltedShare,
    oxideThickness: oxide,
    magnetiteShare: magnetiteShare(draw, physics.fullMeanRise * physics.fluence, start, duration),
    meltingRatio: heat.hottestRise / heat.onset,
    metalCondition: hotGrade,
    damageMargin: Math.min(
      marginToLimit(acceptance, heat, { startForLaw, start, duration, peak, line: physics.line }),
      stay.margin,
    ),
    startTemperature: start,
    stayLayerHarmed: stay.share,
    removedBy:
      flat.residue > 0.9
        ? "nothing"
        : flat.eatenShare > 0.5
          ? "eaten"
          : flat.stressShare > 0.5
            ? "stressed off"
            : "blown off",
  };
}
