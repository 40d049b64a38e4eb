import { blendLaw, type LawTable, lawTable, type MetalResponse, plumeThreshold, spreadResponse } from "#removal";
import type { Kelvin, Metre, Second } from "#terms";
import type { Draw } from "./draw.ts";
import type { PointSpec } from "./point-spec.ts";
import { AMBIENT } from "./metal-outcome.ts";
import { centreFluence, eventDuration, type PatchPlan } from "./patch-plan.ts";

/** What the events of one setting do in one version of the physics, for a cell of a raster or of a map. */
export interface EventPhysics {
  readonly radius: Metre;
  readonly duration: Second;
  /** how the bare metal answers, heat that spreads sideways under a line included */
  readonly response: MetalResponse;
  /** whether the beam is on along the line */
  readonly line: boolean;
  /** K before an event, by the warming bound of the plan */
  readonly bound: Kelvin;
  /** J/m² at the middle of one event */
  readonly fluence: number;
  /** K·m²/J, mean rise of the whole coat in one event */
  readonly fullMeanRise: number;
  /** W absorbed on the mean */
  readonly absorbedPower: number;
  /** the law at a temperature before the event (held below melting) */
  law(start: Kelvin): LawTable;
  /** what a point's history needs, for a law and a thickness */
  point(law: LawTable, thickness: Metre): PointSpec;
}

/**
 * The events of a plan in one version of the physics.
 *
 * Units: fluenceScale a factor on fluence and mean power. Range: above 0. Errors: none.
 * Source: `lawTable`, `centreFluence`, `spreadResponse`.
 */
export function eventPhysics(draw: Draw, plan: PatchPlan, fluenceScale = 1): EventPhysics {
  const { beam, setting, setup } = plan;
  const { sample, strip, metal } = draw;
  const radius = (beam.spotDiameter / 2) * sample.spotFactor;
  const power = sample.powerFactor * fluenceScale;
  const line = plan.events === "line";
  const duration = eventDuration(plan, radius);
  const shape = line && setup.profile === "gaussian" ? "gaussian" : "square";
  const alone = () => draw.kernel(duration, "square");
  const around =
    setup.kind === "pulsed" ? { first: alone(), second: alone(), weight: 0 } : draw.kernelsAround(duration, shape);
  const { nodes } = around.first;
  const heatShare = Math.max(nodes[0]!.heatShare, nodes[nodes.length - 1]!.heatShare);
  const absorbedPower = beam.meanPower * power * heatShare;
  const column = shape === "square" ? draw.square : draw.gaussian;
  const lateralFactor = draw.lateralFactor({
    duration,
    radius,
    diffusivity: metal.diffusivity,
    speed: line ? setting.speed : 0,
  });
  const fluence = centreFluence(plan, radius, power);
  const bottom = strip.off[strip.off.length - 1];
  return {
    radius,
    duration,
    line,
    response:
      shape === "square"
        ? draw.square
        : spreadResponse(draw.gaussian, sample.metal, {
            lateralFactor,
            radius,
            meanConductivity: metal.conductivity,
          }),
    bound: AMBIENT + plan.warming.perAbsorbedWatt * absorbedPower,
    absorbedPower,
    fluence,
    fullMeanRise: nodes[nodes.length - 1]!.meanRise * lateralFactor,
    law(start) {
      const at = {
        startTemperature: Math.min(start, sample.metal.meltingTemperature - 1),
        radius,
        lateralFactor,
        peakFluence: fluence,
      };
      const first = lawTable(sample, around.first, column, at);
      if (around.weight === 0) return first;
      const { lnFluenceFirst } = first;
      return blendLaw(first, lawTable(sample, around.second, column, { ...at, lnFluenceFirst }), around.weight);
    },
    point: (law, thickness) => ({
      law,
      fluence,
      profile: setup.profile,
      lineEvents: line,
      passes: setting.passes,
      thickness,
      residueThickness: strip.residueThickness,
      adhesionScatter: bottom?.adhesionScatter ?? 0.1,
      incubation: bottom?.incubation ?? 1,
      pulseGap: setting.frequency === null ? 0 : plan.cell.multiplicity / setting.frequency,
      lineGap: plan.warming.lineTime,
      multiplicity: plan.cell.multiplicity,
      plume: setup.kind === "pulsed" ? plumeThreshold(duration, sample.plumeFactor) : Number.POSITIVE_INFINITY,
    }),
  };
}
