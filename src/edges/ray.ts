import type { BeamState, Setting } from "#terms";

/**
 * A setting at the full power that its other controls allow, with the edges of every version of the physics along the one
 * control left free, the power. Every setting that differs from it by power alone lies on it.
 */
export interface Ray {
  readonly setting: Setting;
  /** m²/s, turn-rounds included; the power does not change it */
  readonly areaRate: number;
  readonly groups: RayGroups;
  /** ln power factor, one value for each version of the physics, see `PatchEdges` */
  readonly half: Float64Array;
  readonly clean: Float64Array;
  readonly melt: Float64Array;
  readonly damage: Float64Array;
  readonly slopes: RaySlopes;
}

/** Natural logarithms of the physical groups of a ray at its full power: what the physics may be wrong in. */
export interface RayGroups {
  /** ln of pulse width, burst length or dwell in s */
  readonly time: number;
  /** ln events per point in one pass */
  readonly count: number;
  readonly passes: number;
  /** ln spot diameter in m */
  readonly spot: number;
  /** ln line spacing over spot diameter */
  readonly spacing: number;
  /** ln peak fluence (pulsed) or areal dose of one pass (continuous) in J/m² */
  readonly dose: number;
  /** ln mean power in W */
  readonly power: number;
}

/** How the edges move with ln of speed, of spot diameter and of layer thickness: d(ln power)/d(ln x). */
export interface RaySlopes {
  readonly clean: { readonly speed: number; readonly spot: number; readonly thickness: number };
  readonly damage: { readonly speed: number; readonly spot: number; readonly thickness: number };
}

/**
 * Groups of a setting: logarithms of what its beam does at the work.
 * Units: SI before the logarithm. Range: as `beamState`. Errors: none. Source: definition of the groups.
 */
export function rayGroups(setting: Setting, beam: BeamState): RayGroups {
  return {
    time: Math.log(beam.onTime ?? beam.dwell ?? 1),
    count: Math.log(Math.max(0.05, beam.eventsPerPoint / setting.passes)),
    passes: Math.log(setting.passes),
    spot: Math.log(beam.spotDiameter),
    spacing: Math.log(setting.lineSpacing / beam.spotDiameter),
    dose: Math.log(beam.fluencePeak ?? beam.arealDose),
    power: Math.log(beam.meanPower),
  };
}
