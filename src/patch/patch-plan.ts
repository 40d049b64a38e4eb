import type { BeamState, LaserSetup, Setting } from "#terms";
import { lineCell, pulsedCell, type RasterCell } from "./raster.ts";
import type { Warming } from "./warming.ts";

/** One setting on one set-up, with everything that does not depend on the draw worked out once. */
export interface PatchPlan {
  readonly setup: LaserSetup;
  readonly setting: Setting;
  readonly beam: BeamState;
  readonly cell: RasterCell;
  readonly warming: Warming;
  /** "train": separate pulses or bursts; "line": the beam is on along the line */
  readonly events: "train" | "line";
}

/** Decides how a setting's light arrives and lays out its raster cell; `quick` as in `pulsedCell`. */
export function patchPlan(
  setup: LaserSetup,
  setting: Setting,
  beam: BeamState,
  warming: Warming,
  quick = false,
): PatchPlan {
  const radius = beam.spotDiameter / 2;
  // A burst that lasts longer than the spot takes to pass is a dashed line, not a pulse.
  const train = beam.onTime !== null && setting.frequency !== null && beam.onTime * setting.speed < radius;
  return {
    setup,
    setting,
    beam,
    warming,
    events: train ? "train" : "line",
    cell: train
      ? pulsedCell(radius, setting.speed / (setting.frequency as number), setting.lineSpacing, quick)
      : lineCell(radius, setting.lineSpacing),
  };
}

/** s: length of one event as the column sees it (square length, or 1/e² full width of a passing Gaussian). */
export function eventDuration(plan: PatchPlan, radius: number): number {
  if (plan.events === "train") return plan.beam.onTime as number;
  return (2 * radius) / plan.setting.speed;
}

/**
 * Fluence at the middle of one event, J/m².
 *
 * Equation: pulse or burst F₀·E/(πr²), F₀ = 2 (Gaussian) or 1 (flat top); line (2P/πw²)·w√(π/2)/v or (P/πr²)·2r/v, so
 * that the fluence summed across a line is its energy P/v.
 * Units: radius m (1/e² or flat), power a factor on the plan's power; result J/m². Range: above 0. Errors: none.
 * Source: own derivation from the beam profiles of ISO 11146.
 */
export function centreFluence(plan: PatchPlan, radius: number, power: number): number {
  const { beam, setting, setup } = plan;
  const peakFactor = setup.profile === "gaussian" ? 2 : 1;
  const area = Math.PI * radius * radius;
  if (plan.events === "train") {
    const energy = beam.pulseEnergy ?? beam.meanPower / (setting.frequency as number);
    return (peakFactor * energy * power) / area;
  }
  const length = setup.profile === "gaussian" ? radius * Math.sqrt(Math.PI / 2) : 2 * radius;
  return (((peakFactor * beam.meanPower * power) / area) * length) / setting.speed;
}
