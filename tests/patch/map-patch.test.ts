import { beforeAll, describe, expect, it } from "vitest";
import { defaultSetting, wobblePulses } from "#beam";
import { createLibrary } from "#library";
import { fineCell, isApproximateCell, lineDose, lineWay, patchMap, type PatchMapOptions, predictPatch } from "#patch";
import { type PartModel, planOf } from "#workflows";
import { amid, compare, models } from "./map-settings.ts";

const library = createLibrary([]);
const acceptance = { metalConditionMax: 1 as const, metalTemperatureMax: null };
let made: PartModel[] = [];
beforeAll(() => {
  made = models();
});

/** A corner of a small patch under the 500 W pulsed set-up, or under a continuous one. */
function corner(id: string, which: number, options: Partial<PatchMapOptions> = {}, warm = true) {
  const setup = library.setup(id);
  const base = defaultSetting(setup);
  const model = made[which]!;
  const warmed = planOf(model, setup, base);
  const plan = warm ? warmed : { ...warmed, warming: { ...warmed.warming, perAbsorbedWatt: 0 } };
  return { plan, draw: model.central, map: patchMap(model.central, plan, { width: 3e-3, height: 3e-3, ...options }) };
}

describe("the full map and the repeating cell", () => {
  it("agree on 24 seeded settings: residue within 0.02, the same metal condition, but for one", () => {
    const all = compare(24, 5, made);
    let far = 0;
    let other = 0;
    for (const { draw, plan, full, fast } of all) {
      const inside = full.figures.interior!;
      const fine = predictPatch(draw, { ...plan, cell: fineCell(plan) }, acceptance);
      if (Math.abs(fine.residueFraction - inside.residue) > 0.02) far++;
      if (fine.metalCondition !== inside.metalCondition) other++;
      if (!isApproximateCell(plan, fast.residueFraction))
        expect(Math.abs(fast.residueFraction - inside.residue)).toBeLessThanOrEqual(0.02);
    }
    expect(far).toBeLessThanOrEqual(1);
    expect(other).toBeLessThanOrEqual(1);
  });
});

describe("pulses with gaps between them", () => {
  it("the fine cell takes lines there and back as they are: within 0.02 of the map where something is left", () => {
    const setup = library.setup("pulsed-200");
    const base = defaultSetting(setup);
    const spot = planOf(made[0]!, setup, base).beam.spotDiameter;
    const setting = { ...base, speed: 1.3 * spot * base.frequency!, lineSpacing: spot / 2.5, passes: 2 };
    let partly = 0;
    for (const model of made)
      for (const fluenceScale of [0.3, 1, 3]) {
        const plan = planOf(model, setup, setting);
        const cold = { ...plan, warming: { ...plan.warming, perAbsorbedWatt: 0 } };
        const inside = amid(model.central, cold, fluenceScale).figures.interior!;
        const fine = predictPatch(model.central, { ...cold, cell: fineCell(cold) }, acceptance, fluenceScale);
        expect(Math.abs(fine.residueFraction - inside.residue)).toBeLessThan(0.025);
        if (inside.residue > 0.1 && inside.residue < 0.9) partly++;
      }
    expect(partly).toBeGreaterThan(1);
  });
});

describe("the way along a line", () => {
  const layout = { width: 10e-3, speed: 2, acceleration: 1000 };

  it("takes L/v + v/a from rest to rest, gets up to speed after v²/2a, and is as far from both ends at mirror times", () => {
    const way = lineWay({ ...layout, turns: "inside, beam on" });
    expect(way.onTime).toBeCloseTo(10e-3 / 2 + 2 / 1000, 12);
    expect(way.at(1e-3)).toBeCloseTo(0.5 * 1000 * 1e-3 ** 2, 12);
    expect(way.at(2e-3)).toBeCloseTo(2e-3, 12);
    for (const t of [0, 0.5e-3, 1.7e-3, 3e-3]) expect(way.at(t) + way.at(way.onTime - t)).toBeCloseTo(10e-3, 12);
    expect((way.at(3.6e-3) - way.at(3.5e-3)) / 0.1e-3).toBeCloseTo(2, 9);
  });

  it("never reaches its speed on a short line", () => {
    const way = lineWay({ ...layout, width: 1e-3, turns: "inside, beam on" });
    expect(way.onTime).toBeCloseTo(2 * Math.sqrt(1e-3 / 1000), 12);
    expect(way.at(way.onTime / 2)).toBeCloseTo(0.5e-3, 12);
  });

  it.each(["gaussian", "top-hat"] as const)(
    "a %s line doses its middle with 1, its ends with a half, ramps with more",
    (profile) => {
      const scan = {
        ...layout,
        height: 1e-3,
        lineSpacing: 1e-4,
        frequency: null,
        serpentine: true,
        phase: "golden" as const,
        firstPulses: [],
        multiplicity: 1,
      };
      const cut = { ...scan, turns: "outside, beam off" as const };
      expect(lineDose(cut, 100e-6, profile, 5e-3)).toBeCloseTo(1, 1);
      expect(lineDose(cut, 100e-6, profile, 5e-3)).toBeGreaterThan(0.97);
      expect(lineDose(cut, 100e-6, profile, 0)).toBeGreaterThan(0.45);
      expect(lineDose(cut, 100e-6, profile, 0)).toBeLessThan(0.55);
      const ramped = { ...scan, turns: "inside, beam on" as const };
      // At 0.5 mm the spot moves at √(2·a·s) = 1 m/s, half its speed: twice the dose.
      expect(lineDose(ramped, 50e-6, profile, 0.5e-3)).toBeGreaterThan(1.9);
      expect(lineDose(ramped, 50e-6, profile, 0.5e-3)).toBeLessThan(2.15);
    },
  );
});

describe("where events really fall", () => {
  it("a scanner that turns inside the patch with the beam on heats the ends of its lines more", () => {
    const scale = { fluenceScale: 0.2 };
    const outside = corner("continuous-1000", 1, scale).map;
    const inside = corner("continuous-1000", 1, { ...scale, turns: "inside, beam on" }).map;
    const hottest = (m: typeof inside) => m.figures.lineStarts!.peak;
    expect(hottest(inside)).toBeGreaterThan(hottest(outside) + 100);
    expect(inside.figures.interior === null).toBe(outside.figures.interior === null);
    expect(outside.figures.lineStarts!.peak).toBeLessThanOrEqual(outside.figures.whole.peak);
  });

  it("strong first pulses mark where lines begin, one side of the patch on even lines only", () => {
    const plain = corner("pulsed-500", 0, { phase: "line start", fluenceScale: 0.15 }).map;
    const strong = corner("pulsed-500", 0, { phase: "line start", firstPulses: [3], fluenceScale: 0.15 }).map;
    expect(strong.figures.lineStarts!.peak).toBeGreaterThan(plain.figures.lineStarts!.peak);
    expect(strong.figures.interior!.peak).toBeCloseTo(plain.figures.interior!.peak, 6);
  });

  it("a tilted face gets less fluence over a longer spot: as much less as the cosine says", () => {
    const grid = { columns: 1, rows: 1, step: 1e-6, x0: 1.5e-3, y0: 1.5e-3 };
    const places = Float64Array.of(1.5e-3, 1.5e-3);
    const upright = corner("pulsed-500", 0, { grid, places, fluenceScale: 3 }, false).map;
    const tilted = corner("pulsed-500", 0, { grid, places, fluenceScale: 3 / Math.cos(1), tilt: 1 }, false).map;
    expect(tilted.left[0]! / upright.left[0]!).toBeCloseTo(1, 6);
    expect(tilted.peak[0]! / upright.peak[0]!).toBeCloseTo(1, 2);
  });

  it("a swinging spot clears a band about as wide as its swing", () => {
    const { plan } = corner("pulsed-500", 0);
    const amplitude = 0.6e-3;
    const swing = { shape: "across" as const, speed: 0.05, amplitude, frequency: 150 };
    const pulses = wobblePulses(swing, plan.setting.frequency!, Math.round((3e-3 / 0.05) * plan.setting.frequency!));
    const places = pulses.map((v, i) => (i % 2 === 1 ? v + 1.5e-3 : v));
    const rows = 100;
    const grid = { columns: 4, rows, step: 3e-3 / rows, x0: 1.5e-3, y0: 0 };
    const { map } = corner("pulsed-500", 0, { grid, places, fluenceScale: 3 });
    const touched = map.covered.reduce((sum, c) => sum + (c < 0.5 ? 1 : 0), 0) / 4;
    expect(touched * grid.step).toBeGreaterThan(2 * amplitude * 0.95);
    expect(touched * grid.step).toBeLessThan(2 * amplitude + 1.5 * plan.beam.spotDiameter);
  });

  it("a straight line handed in as a path is the line of the raster", () => {
    const { plan } = corner("continuous-1000", 1);
    const [y, count] = [0.5 * plan.setting.lineSpacing, 4000];
    const places = new Float64Array(2 * count);
    for (let n = 0; n < count; n++) places.set([((n + 0.5) / count) * 3e-3, y], 2 * n);
    const grid = { columns: 30, rows: 20, step: 40e-6, x0: 0.8e-3, y0: 0 };
    const scale = { fluenceScale: 0.3, grid, height: plan.setting.lineSpacing };
    const line = corner("continuous-1000", 1, scale, false).map;
    const every = 3e-3 / count / plan.setting.speed;
    const path = corner("continuous-1000", 1, { ...scale, places, every }, false).map;
    expect(line.figures.whole.peak).toBeGreaterThan(600);
    path.peak.forEach((peak, cell) => {
      // The path's tail beyond 1.5 radii is cut: at most 0.3 % of the dose in the middle.
      if (line.peak[cell]! > 500) expect(peak / line.peak[cell]!).toBeCloseTo(1, 1);
    });
    expect(path.figures.whole.peak / line.figures.whole.peak).toBeCloseTo(1, 2);
  });

  it("warmth by superposition stays under the bound, and grows along the patch", () => {
    const bound = corner("pulsed-500", 0).map;
    const raster = corner("pulsed-500", 0, { startTemperature: "raster" }).map;
    const hottest = raster.startTemperature.reduce((a, b) => Math.max(a, b), 0);
    const coldest = raster.startTemperature.reduce((a, b) => Math.min(a, b), 1e9);
    expect(coldest).toBeGreaterThan(293);
    expect(hottest).toBeGreaterThan(coldest + 5);
    expect(hottest).toBeLessThan(bound.startTemperature[0]! * 1.05);
  });

  it("refuses what cannot be", () => {
    expect(() => corner("pulsed-500", 0, { width: 0 })).toThrow(/invalid width: 0 m/);
    expect(() => corner("pulsed-500", 0, { tilt: 1.5 })).toThrow(/tilt/);
    expect(() => corner("continuous-1000", 0, { places: Float64Array.of(0, 0) })).toThrow(/time between places/);
  });
});
