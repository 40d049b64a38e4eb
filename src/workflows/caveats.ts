import { lateralCaveat } from "#heat";
import { quantile } from "#numerics";
import type { PatchPlan } from "#patch";
import { plumeThreshold } from "#removal";
import type { LaserSetup, PatchResult, Setting } from "#terms";
import { formatQuantity } from "#units";
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
  lines.push(...sizeCaveats(model, setting, plan), ...layerCaveats(model));
  const start = quantile(
    draws.map((d) => d.startTemperature),
    0.5,
  );
  if (start > 600)
    lines.push(
      "The part is hot before each pulse or line; the warming is an upper estimate and oxidation or distortion may follow.",
    );
  const half = (of: (d: PatchResult) => number) => quantile(draws.map(of), 0.5);
  if (half((d) => d.magnetiteShare) > 0.5 && half((d) => d.residueFraction) > 0.01)
    lines.push("What stays of the rust is mostly turned to magnetite: black, adherent, and counted as residue.");
  const growth = model.stack.metal.oxideGrowth;
  if (growth !== null && half((d) => d.metalPeakTemperature) > growth.fittedTo)
    lines.push(
      `The growth of ${growth.oxide} was measured up to ${formatQuantity(growth.fittedTo, "degC", 3)} only: oxide thickness beyond is a rough guide.`,
    );
  const spread = spreadCaveat(model, setup, plan, draws);
  if (spread) lines.push(spread);
  const plume = setup.kind === "pulsed" ? plumeThreshold(setting.pulseWidth as number) : Number.POSITIVE_INFINITY;
  if (beam.fluencePeak !== null && beam.fluencePeak > plume)
    lines.push("The fluence is so high that the plume of a pulse shades the rest of it: a prior, from memory.");
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
  lines.push("Distortion (grade 4) is observed only, never graded from a prediction.");
  return lines;
}

/** What the three-dimensional solver does not bear out for a line, at the middle of the draws. */
function spreadCaveat(
  model: PartModel,
  setup: LaserSetup,
  plan: PatchPlan,
  draws: readonly PatchResult[],
): string | null {
  if (plan.events !== "line" || setup.profile !== "gaussian") return null;
  const { metal } = model.central;
  const radius = plan.beam.spotDiameter / 2;
  const boiling = model.central.sample.metal.boilingTemperature;
  return lateralCaveat({
    peclet: (plan.setting.speed * radius) / metal.diffusivity,
    over: quantile(
      draws.map((d) => d.meltingRatio),
      0.5,
    ),
    boils: draws.filter((d) => d.metalPeakTemperature >= 0.999 * boiling).length > draws.length / 2,
    radius,
    thickness: model.stack.metalThickness,
  });
}

/** Layers thicker than this are eaten in very many events, and thinner than that light interferes in them, m. */
const THICK = 1e-3;
const THIN = 0.2e-6;
/** m, side of the patch that warming is worked out for; see PATCH_SIDE. */
const WARMED_SIDE = 15e-3;

/** What a part smaller than the spot or the patch does to the answer. */
function sizeCaveats(model: PartModel, setting: Setting, { beam }: PatchPlan): string[] {
  const side = Math.sqrt(model.part.area);
  const lines: string[] = [];
  if (beam.spotDiameter > side)
    lines.push(
      `The spot (${formatQuantity(beam.spotDiameter, "mm", 2)}) is larger than the part (${formatQuantity(side, "mm", 2)} square): part of the beam misses it, and neither the rate nor the temperatures can be relied on.`,
    );
  else if (setting.lineSpacing > side)
    lines.push("The line spacing is larger than the part: one line crosses it, and the rate means nothing.");
  if (beam.spotDiameter <= side && side < WARMED_SIDE)
    lines.push(
      `The part is smaller than the ${formatQuantity(WARMED_SIDE, "mm", 2)} patch that warming is worked out for: its edges keep the heat in, so it gets hotter than said.`,
    );
  return lines;
}

/** What very thick and very thin layers leave of the answer. */
function layerCaveats({ part }: PartModel): string[] {
  const layers = part.mixture.flatMap((m) => m.stack.layers);
  const total = Math.max(...part.mixture.map((m) => m.stack.layers.reduce((sum, l) => sum + l.thickness.value, 0)));
  const lines: string[] = [];
  if (total > THICK)
    lines.push(
      `${formatQuantity(total, "mm", 2)} of layer is far beyond what a laser is used for: the answer bears no more than that it is slow or fails.`,
    );
  if (layers.some((l) => l.thickness.value < THIN))
    lines.push(
      "A layer is thinner than the wavelength: light interferes in it, which the optics leaves out; its absorption is a rough guide.",
    );
  return lines;
}
