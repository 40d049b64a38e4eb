import { blendLaw, type LawTable, lawTable, type MetalResponse, plumeThreshold } from "#removal";
import type { Kelvin, Metre, Second } from "#terms";
import type { Draw } from "./draw.ts";
import type { PointSpec } from "./point-spec.ts";
import { centreFluence, type PatchPlan } from "./patch-plan.ts";

const AMBIENT = 293.15;

/** What the events of one setting do in one version of the physics, with everything a map's cells need. */
export interface MapPhysics {
  readonly radius: Metre;
  readonly duration: Second;
  readonly response: MetalResponse;
  /** K before an event, by the warming bound of the plan */
  readonly bound: Kelvin;
  /** W absorbed on the mean */
  readonly absorbedPower: number;
  /** the law at a temperature before the event (held below melting) */
  law(start: Kelvin): LawTable;
  /** what a point's history needs, for a law and a thickness */
  point(law: LawTable, thickness: Metre): PointSpec;
}

/**
 * The events of a plan as `predictPatch` sees them, for a map of cells.
 *
 * Units: fluenceScale a factor on fluence and mean power. Range: above 0. Errors: none.
 * Source: `lawTable`, `centreFluence`; the same steps as `predictPatch`.
 */
export function mapPhysics(draw: Draw, plan: PatchPlan, fluenceScale = 1): MapPhysics {
  const { beam, setting, setup } = plan;
  const { sample, strip, metal } = draw;
  const radius = (beam.spotDiameter / 2) * sample.spotFactor;
  const power = sample.powerFactor * fluenceScale;
  const line = plan.events === "line";
  const duration = line ? (2 * radius) / setting.speed : (beam.onTime as number);
  const shape = line && setup.profile === "gaussian" ? "gaussian" : "square";
  const alone = () => draw.kernel(duration, "square");
  const around =
    setup.kind === "pulsed" ? { first: alone(), second: alone(), weight: 0 } : draw.kernelsAround(duration, shape);
  const { nodes } = around.first;
  const heatShare = Math.max(nodes[0]!.heatShare, nodes[nodes.length - 1]!.heatShare);
  const absorbedPower = beam.meanPower * power * heatShare;
  const response = shape === "square" ? draw.square : draw.gaussian;
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
    response,
    bound: AMBIENT + plan.warming.perAbsorbedWatt * absorbedPower,
    absorbedPower,
    law(start) {
      const at = { startTemperature: Math.min(start, sample.metal.meltingTemperature - 1), radius, lateralFactor };
      const first = lawTable(sample, around.first, response, at);
      if (around.weight === 0) return first;
      const { lnFluenceFirst } = first;
      return blendLaw(first, lawTable(sample, around.second, response, { ...at, lnFluenceFirst }), around.weight);
    },
    point: (law, thickness) => ({
      law,
      fluence,
      // Places and gains are handed over as the r² of these two forms, see `shapeOf`.
      profile: setup.profile,
      lineEvents: true,
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

/**
 * The r² that stands for an event of a given gain at a place: `profileLog` of it is the ln of gain × profile.
 *
 * Equation: Gaussian r² − ln(g)/2; flat top, whose ln is ½·ln(1 − r²): 1 − g² inside the spot for a pulse, and
 * 1 − (1 − r²)·g² for a line's chord. 2 (nothing) outside.
 * Units: r2 squared distance over squared radius, gain 1. Range: gain above 0. Errors: none. Source: own.
 */
export function shapeOf(r2: number, gain: number, profile: "gaussian" | "top-hat", line: boolean): number {
  if (profile === "gaussian") return gain === 1 ? r2 : r2 - 0.5 * Math.log(gain);
  if (r2 >= 1) return 2;
  return line ? 1 - (1 - r2) * gain * gain : 1 - gain * gain;
}
