import { beforeAll, describe, expect, it } from "vitest";
import { defaultSetting } from "#beam";
import { createLibrary } from "#library";
import { centreFluence, patchBand, planOnFace, predictPatch } from "#patch";
import { type PartModel, planOf } from "#workflows";
import { models } from "./map-settings.ts";

const library = createLibrary([]);
const setup = library.setup("pulsed-500");
const setting = defaultSetting(setup);
const acceptance = { metalConditionMax: 1 as const, metalTemperatureMax: null };
let made: PartModel[] = [];
beforeAll(() => {
  made = models();
});

describe("a face that is not flat in focus", () => {
  it("meets cos θ of the fluence at an angle, and less off focus", () => {
    const plan = planOf(made[0]!, setup, setting);
    const upright = centreFluence(plan, plan.beam.spotDiameter / 2, 1);
    const at = (defocus: number, angle: number) => {
      const there = planOnFace(setup, setting, plan.warming, defocus, angle);
      return centreFluence(there, there.beam.spotDiameter / 2, 1) / upright;
    };
    expect(at(setting.defocus, 0)).toBeCloseTo(1, 12);
    expect(at(setting.defocus, 0.7)).toBeCloseTo(Math.cos(0.7), 12);
    expect(at(8e-3, 0)).toBeCloseTo(at(-8e-3, 0), 12);
    expect(at(8e-3, 0)).toBeLessThan(0.99);
  });

  it("spans best and worst; no band is the plan itself", () => {
    for (const model of made) {
      const plan = planOf(model, setup, setting);
      const flat = predictPatch(model.central, plan, acceptance);
      const none = patchBand(model.central, plan, acceptance, {
        defocus: { low: setting.defocus, high: setting.defocus },
        angle: { low: 0, high: 0 },
      });
      expect(none.places).toHaveLength(1);
      expect(none.dirtiest.result).toEqual(flat);
      const band = patchBand(model.central, plan, acceptance, {
        defocus: { low: -4e-3, high: 10e-3 },
        angle: { low: 0, high: 1 },
      });
      expect(band.places.some((p) => p.defocus === 0)).toBe(true);
      expect(band.dirtiest.result.residueFraction).toBeGreaterThanOrEqual(band.cleanest.result.residueFraction);
      expect(band.harshest.result.damageMargin).toBeLessThanOrEqual(band.gentlest.result.damageMargin);
    }
  });

  it("refuses bands upside down", () => {
    const plan = planOf(made[0]!, setup, setting);
    const at = (low: number, high: number) =>
      patchBand(made[0]!.central, plan, acceptance, { defocus: { low, high }, angle: { low: 0, high: 0 } });
    expect(() => at(1e-3, 0)).toThrow(/invalid defocus band/);
  });
});
