import { type PartHeating, partRise, type Waiting, waitingTime } from "#heat";
import { eventPhysics, type PatchPlan } from "#patch";
import { formatQuantity } from "#units";
import type { PartModel } from "./part-model.ts";

/** W/(m²·K), still air and radiation together near room temperature; 5 to 25 in handbooks (from memory). */
const LOSS = 10;
const ROOM = 293.15;

/** Warming of one whole piece over its passes, at the middle of the physics. */
export interface PartHeat {
  /** K, mean of the piece after the last pass, without a pause */
  readonly rise: number;
  /** K above the room that the piece may reach, null when nobody set one */
  readonly limit: number | null;
  /** pause between passes that the limit asks for; null without a limit */
  readonly waiting: Waiting | null;
}

/**
 * Mean warming of one piece and the pause between passes that its temperature limit asks for.
 *
 * Units: rate m²/s of the whole job on one piece, all passes together. Range: plates that even out between passes; the
 * place at work is hotter. Errors: none. Source: `partRise`, `waitingTime`; heat transfer coefficient from memory.
 */
export function partHeat(model: PartModel, plan: PatchPlan, rate: number): PartHeat {
  const { area, acceptance } = model.part;
  const { metal } = model.central;
  const { passes } = plan.setting;
  const heating: PartHeating = {
    absorbedPower: eventPhysics(model.central, plan).absorbedPower,
    passTime: area / (rate * passes),
    passes,
    heatCapacity: metal.volumetricHeat * area * model.stack.metalThickness,
    // One face is worked on, both lose heat.
    loss: 2 * LOSS * area,
  };
  const allowed = acceptance.metalTemperatureMax ?? model.central.sample.metal.serviceTemperature;
  const limit = allowed === null ? null : allowed - ROOM;
  return {
    rise: partRise(heating, passes, 0),
    limit,
    waiting: limit === null || limit <= 0 ? null : waitingTime(heating, limit),
  };
}

/** The warming in words; empty where a piece stays within 20 K of the room. */
export function partHeatWords({ rise, limit, waiting }: PartHeat): string[] {
  if (rise < 20) return [];
  const warm = `The whole piece warms by about ${formatQuantity(rise, "K", 2)} over its passes if none waits (mean of the piece; the place at work is hotter).`;
  if (limit === null || waiting === null || waiting.kind === "none") return [warm];
  if (waiting.kind === "wait")
    return [warm, `To stay below its limit, wait ${formatQuantity(waiting.time, "s", 2)} between passes.`];
  return [
    warm,
    `Its limit is passed whatever the pause: at most ${waiting.passesWithin} pass(es) in a row, then let it cool to the room.`,
  ];
}
