import { quantile } from "#numerics";
import type { PatchPlan } from "#patch";
import type { LaserSetup, PatchResult, Setting } from "#terms";
import type { PartModel } from "./part-model.ts";

/** What an answer cannot bear, in plain words. Each line names the limit of a model that this setting touches. */
export function caveatsOf(
  model: PartModel,
  setup: LaserSetup,
  setting: Setting,
  plan: PatchPlan,
  draws: readonly PatchResult[],
): string[] {
  const { beam } = plan;
  const lines: string[] = ["Predicted from physics with wide library spreads; not a proof before patches are burned."];
  if (model.part.mixture.length > 1)
    lines.push(`The stack is not fully known: the answer runs over ${model.part.mixture.length} possible stacks.`);
  for (const { assumption } of model.part.mixture)
    if (assumption && model.part.mixture.length === 1) lines.push(assumption);
  if (beam.energyLimited)
    lines.push("Below the cut-in frequency the pulse energy limit sets the mean power, not the set power.");
  if (beam.pulseOverlap !== null && beam.pulseOverlap < 0)
    lines.push("Pulses do not touch along the line: stripes of layer stay.");
  if (beam.lineOverlap < 0) lines.push("Lines do not touch: stripes of layer stay.");
  const start = quantile(
    draws.map((d) => d.startTemperature),
    0.5,
  );
  if (start > 600)
    lines.push(
      "The part is hot before each pulse or line; the warming is an upper estimate and oxidation or distortion may follow.",
    );
  const width = plan.events === "line" ? beam.spotDiameter / setting.speed : (beam.onTime ?? 0);
  const spreadLength = Math.sqrt(4 * model.central.metal.diffusivity * width);
  if (spreadLength > beam.spotDiameter / 2)
    lines.push(
      "Heat spreads sideways during one event by more than the spot radius; the column is corrected for it but less exact here.",
    );
  if (spreadLength > model.stack.metalThickness)
    lines.push("The plate is heated through during one event: treat temperatures as a rough guide.");
  if (plan.events === "line" && setting.frequency !== null && setting.duty < 1)
    lines.push("Bursts last longer than the spot takes to pass: the dashed pattern along the line is averaged.");
  if (setup.fromMemory)
    lines.push("The set-up's figures are typical values from memory; replace them with the machine's own.");
  lines.push("Distortion (grade 4) is observed only, never predicted.");
  return lines;
}
