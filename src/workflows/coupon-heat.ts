import { areaRate } from "#beam";
import { interpolateLinear } from "#numerics";
import { eventPhysics } from "#patch";
import type { LaserSetup, Setting } from "#terms";
import { type BurnHeat, type PatchSize, patchDefault, type SoakInput } from "#trial";
import type { PartModel } from "./part-model.ts";
import { planOf } from "./predict.ts";

/** W/(m²·K), still air and radiation together near room temperature; 5 to 25 in handbooks (from memory). */
const LOSS = 10;
/** K, at which the coupon's properties are read: a little above the room. */
const WARM = 323.15;

/**
 * What the spacing of patches on a coupon of a part is worked out from, at the middle of the physics: the coupon is of
 * the part's metal and thickness and lies on a table, so that it loses heat by its upper face only; a patch takes in
 * the mean absorbed power while the beam is on, and as long as all its lines with their turn-rounds take.
 * limit: K; patch: m. Throws InvalidInput on sizes that are not positive. Source: `areaRate`, `eventPhysics`.
 */
export function couponHeat(
  model: PartModel,
  setup: LaserSetup,
  limit?: number,
  patch: PatchSize = patchDefault,
): SoakInput {
  const { metal } = model.central.sample;
  const known = new Map<Setting, BurnHeat>();
  const burn = (setting: Setting): BurnHeat => {
    const before = known.get(setting);
    if (before) return before;
    const area = areaRate(setup, setting, patch);
    const on = area.lines * setting.passes * (patch.width / setting.speed);
    const { absorbedPower } = eventPhysics(model.central, planOf(model, setup, setting));
    const heat = { energy: absorbedPower * on, duration: area.total };
    known.set(setting, heat);
    return heat;
  };
  return {
    plate: {
      conductivity: interpolateLinear(metal.temperature, metal.conductivity, WARM),
      volumetricHeat: metal.density * interpolateLinear(metal.temperature, metal.heatCapacity, WARM),
      plateThickness: model.stack.metalThickness,
    },
    loss: LOSS,
    ...(limit === undefined ? {} : { limit }),
    burn,
  };
}
