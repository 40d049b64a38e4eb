import { describe, expect, it } from "vitest";
import { defaultSetting } from "#beam";
import { setup } from "#library";
import { createPartModel, partHeat, partHeatWords, planOf, predict } from "#workflows";
import { partOf } from "./relation-cases.ts";

const laser = setup("continuous-1000");
const layers = [["polyurethane-topcoat", "dark", 40]] as const;

describe("warming of a whole piece", () => {
  const part = partOf("aluminium-5083", layers);
  const model = createPartModel(part, { seed: 2, drawCount: 4 });
  const setting = { ...defaultSetting(laser), passes: 6 };
  const plan = planOf(model, laser, setting);

  it("is the energy that stays in it over its heat capacity, when it is worked too fast to lose any", () => {
    const rate = 1;
    const heat = partHeat(model, plan, rate);
    const { sample, metal } = model.central;
    // Dark paint: the metal takes at most the share of the bare face or of the coated one.
    const kernel = model.central.kernelsAround(
      (2 * (plan.beam.spotDiameter / 2) * sample.spotFactor) / setting.speed,
      "gaussian",
    ).first;
    const share = Math.max(kernel.nodes[0]!.heatShare, kernel.nodes[kernel.nodes.length - 1]!.heatShare);
    const energy = plan.beam.meanPower * sample.powerFactor * share * (part.area / rate);
    expect(heat.rise / (energy / (metal.volumetricHeat * part.area * 5e-3))).toBeCloseTo(1, 2);
  });

  const small = (limit: number | null) =>
    createPartModel(
      {
        ...part,
        area: 0.01,
        mixture: part.mixture.map((m) => ({ ...m, stack: { ...m.stack, metalThickness: 1e-3 } })),
        acceptance: { ...part.acceptance, metalTemperatureMax: limit === null ? null : 293.15 + limit },
      },
      { seed: 2, drawCount: 4 },
    );
  const rate = 2e-4;

  it("asks for a pause that keeps the limit, and says when none can", () => {
    const { rise } = partHeat(small(null), plan, rate);
    expect(rise).toBeGreaterThan(40);
    const slow = partHeat(small(rise / 2), plan, rate);
    expect(slow.waiting?.kind).toBe("wait");
    expect(partHeatWords(slow).join(" ")).toMatch(/wait .* between passes/);
    const never = partHeat(small(rise / 20), plan, rate);
    expect(never.waiting).toMatchObject({ kind: "never", passesWithin: 0 });
    expect(partHeatWords(never).join(" ")).toContain("at most 0 pass(es) in a row");
  });

  it("travels with a prediction of a small thin piece", () => {
    const words = predict(small(null), laser, { ...setting, speed: 0.5, passes: 4 }).caveats.join(" ");
    expect(words).toContain("The whole piece warms by about");
  });
});
