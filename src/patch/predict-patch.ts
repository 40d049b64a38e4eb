import { blendLaw, type Kernel, type LawTable, lawTable, plumeThreshold, spreadResponse } from "#removal";
import type { Acceptance, PatchResult } from "#terms";
import { metalConditionGrade } from "./condition.ts";
import type { Draw } from "./draw.ts";
import { AMBIENT, marginToLimit, metalHeat, oxideThickness, stayHarm } from "./metal-outcome.ts";
import { centreFluence, eventDuration, type PatchPlan } from "./patch-plan.ts";
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
  const { beam, setting, setup } = plan;
  const { sample, strip, metal } = draw;
  const radius = (beam.spotDiameter / 2) * sample.spotFactor;
  const power = sample.powerFactor * fluenceScale;
  const duration = eventDuration(plan, radius);
  const shape = plan.events === "line" && setup.profile === "gaussian" ? "gaussian" : "square";
  const exact = setup.kind === "pulsed";
  const around = exact
    ? { first: draw.kernel(duration, "square"), second: draw.kernel(duration, "square"), weight: 0 }
    : draw.kernelsAround(duration, shape);
  const bare = around.first.nodes[0];
  const full = around.first.nodes[around.first.nodes.length - 1];
  const heatShare = Math.max(bare.heatShare, full.heatShare);
  const start = AMBIENT + plan.warming.perAbsorbedWatt * beam.meanPower * power * heatShare;
  const melting = sample.metal.meltingTemperature;
  const startForLaw = Math.min(start, melting - 1);
  const lateral = draw.lateralFactor({
    duration,
    radius,
    diffusivity: metal.diffusivity,
    speed: plan.events === "line" ? setting.speed : 0,
  });
  const fluence = centreFluence(plan, radius, power);
  const law = lawFor(draw, around, startForLaw, radius, lateral, shape, fluence);
  const spreads = shape === "gaussian";
  const response = spreads
    ? spreadResponse(draw.gaussian, sample.metal, {
        lateralFactor: lateral,
        radius,
        meanConductivity: metal.conductivity,
      })
    : draw.square;

  const bottom = strip.off[strip.off.length - 1];
  const base = {
    cell: plan.cell,
    law,
    fluence,
    radius,
    profile: setup.profile,
    lineEvents: plan.events === "line",
    passes: setting.passes,
    residueThickness: strip.residueThickness,
    adhesionScatter: bottom?.adhesionScatter ?? 0.1,
    incubation: bottom?.incubation ?? 1,
    pulseGap: setting.frequency === null ? 0 : plan.cell.multiplicity / setting.frequency,
    lineGap: plan.warming.lineTime,
    plume: exact ? plumeThreshold(duration, sample.plumeFactor) : Number.POSITIVE_INFINITY,
  };
  const flat = stamp({ ...base, thickness: strip.thickness });
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
    meltingRatio: heat.hottestRise / heat.onset,
    metalCondition: hotGrade,
    damageMargin: Math.min(
      marginToLimit(acceptance, heat, { startForLaw, start, duration, peak, line: plan.events === "line" }),
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

function lawFor(
  draw: Draw,
  around: { first: Kernel; second: Kernel; weight: number },
  startTemperature: number,
  radius: number,
  lateral: number,
  shape: "square" | "gaussian",
  peakFluence: number,
): LawTable {
  const response = shape === "square" ? draw.square : draw.gaussian;
  const first = lawTable(draw.sample, around.first, response, {
    startTemperature,
    radius,
    lateralFactor: lateral,
    peakFluence,
  });
  if (around.weight === 0) return first;
  const second = lawTable(draw.sample, around.second, response, {
    startTemperature,
    radius,
    lateralFactor: lateral,
    lnFluenceFirst: first.lnFluenceFirst,
    peakFluence,
  });
  return blendLaw(first, second, around.weight);
}
