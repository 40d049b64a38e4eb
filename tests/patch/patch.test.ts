import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { defaultSetting, roundToMachine } from "#beam";
import { parseEnquiry } from "#contract";
import { createLibrary } from "#library";
import {
  centreFluence,
  Draw,
  lineCell,
  metalAnswers,
  metalConditionGrade,
  predictPatch,
  profileLog,
  pulsedCell,
} from "#patch";
import type { Setting } from "#terms";
import { createPartModel, type PartModel, planOf } from "#workflows";

const library = createLibrary([]);
const parts = [
  { material: "aluminium-5083", layers: [{ kind: "polyurethane-topcoat", colour: "white", thickness_um: 40 }] },
  { material: "steel-low-carbon", layers: [{ kind: "red-rust", thickness_um: 40 }] },
  { material: "copper", layers: [{ kind: "oil-film", thickness_um: 3 }] },
  {
    material: "steel-low-carbon",
    layers: [
      { kind: "polyurethane-topcoat", colour: "dark", thickness_um: 40 },
      { kind: "epoxy-primer", colour: "mid", thickness_um: 30, mustStay: true },
    ],
  },
];
let models: PartModel[] = [];
beforeAll(() => {
  const enquiry = parseEnquiry({ parts }, library);
  models = enquiry.parts.map((part) => createPartModel(part, { seed: 3, drawCount: 6 }));
});

describe("a patch", () => {
  it("never answers with a value that cannot be, whatever the machine is set to", () => {
    fc.assert(
      fc.property(
        fc.nat(models.length - 1),
        fc.constantFrom(...library.setups),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 6, maxLength: 6 }),
        (which, setup, u) => {
          const base = defaultSetting(setup);
          const setting: Setting = roundToMachine(setup, {
            ...base,
            frequency: base.frequency === null ? null : base.frequency * 10 ** (2 * u[0] - 1),
            speed: base.speed * 10 ** (3 * u[1] - 2),
            lineSpacing: base.lineSpacing * 10 ** (2 * u[2] - 1),
            passes: 1 + Math.floor(8 * u[3]),
            defocus: setup.defocusMax * u[4],
            level: 0.05 + 0.95 * u[5],
          });
          const model = models[which];
          const plan = planOf(model, setup, setting);
          for (const draw of model.draws.slice(0, 2)) {
            const r = predictPatch(draw, plan, model.part.acceptance);
            expect(r.residueFraction).toBeGreaterThanOrEqual(0);
            expect(r.residueFraction).toBeLessThanOrEqual(1);
            expect(r.metalPeakTemperature).toBeGreaterThanOrEqual(293.15);
            expect(r.meltDepth).toBeGreaterThanOrEqual(0);
            expect(r.startTemperature).toBeGreaterThanOrEqual(293.15);
            for (const value of Object.values(r))
              if (typeof value === "number") expect(Number.isFinite(value)).toBe(true);
          }
        },
      ),
      { numRuns: 120, seed: 5 },
    );
  }, 60_000);

  it("sits at its limit when the power is scaled by its margin", () => {
    const setup = library.setup("pulsed-500");
    const model = models[0];
    const plan = planOf(model, setup, { ...defaultSetting(setup), passes: 1 });
    let judged = 0;
    for (const draw of model.draws) {
      // The layer is gone on both sides of the limit, so that the same metal is judged.
      // Below the plume's threshold: above it more power is not as much more heat, and the margin counts heat.
      const first = predictPatch(draw, plan, model.part.acceptance, 1.5);
      const scale = 1.5 * Math.exp(first.damageMargin);
      const at = predictPatch(draw, plan, model.part.acceptance, scale);
      if (at.residueFraction > 1e-3) continue;
      judged++;
      expect(Math.abs(at.damageMargin)).toBeLessThan(0.05);
    }
    expect(judged).toBeGreaterThan(0);
  });
});

describe("grades of the metal", () => {
  it.each([
    [0, 0, 0, 0],
    [0, 0, 21e-9, 1],
    [1e-6, 0.02, 0, 2],
    [2.1e-6, 0.02, 0, 3],
    [1e-6, 0.11, 0, 3],
    [5e-6, 0.009, 0, 0],
  ])("melt %f m on %f of the area, oxide %f m: %i", (depth, share, oxide, grade) => {
    expect(metalConditionGrade(depth, share, oxide)).toBe(grade);
  });
});

describe("the raster cell", () => {
  it("holds as many events as fall within reach: π·(1.5w)²/(pitch·spacing) on the mean", () => {
    const [radius, pitch, spacing] = [100e-6, 60e-6, 70e-6];
    const cell = pulsedCell(radius, pitch, spacing);
    const mean = cell.points.reduce((sum, p) => sum + p.length, 0) / cell.points.length;
    expect(mean / ((Math.PI * (1.5 * radius) ** 2) / (pitch * spacing))).toBeGreaterThan(0.95);
    expect(mean / ((Math.PI * (1.5 * radius) ** 2) / (pitch * spacing))).toBeLessThan(1.05);
    const fluence = (p: Float64Array) => p.reduce((sum, r2) => sum + Math.exp((-2 * r2) / radius ** 2), 0);
    const dose = cell.points.reduce((sum, p) => sum + fluence(p), 0) / cell.points.length;
    // Energy is kept: the mean of Σ exp(−2r²/w²) over the cell is (π w²/2)/(pitch·spacing), less the cut tail of 1.1 %.
    expect(dose / ((Math.PI * radius ** 2) / 2 / (pitch * spacing))).toBeGreaterThan(0.975);
    expect(dose / ((Math.PI * radius ** 2) / 2 / (pitch * spacing))).toBeLessThan(1.01);
  });

  it("groups pulses that lie closer than an eighth of the radius without losing any", () => {
    const cell = pulsedCell(100e-6, 2e-6, 50e-6);
    expect(cell.multiplicity).toBe(6);
    expect(lineCell(100e-6, 50e-6).points.every((p) => p.length >= 5)).toBe(true);
  });
});

describe("heat left in the layer", () => {
  it("lowers the fluence that removes as pulses follow faster (Brygo et al. 2006: the threshold falls with rate)", () => {
    const [part] = parseEnquiry(
      { parts: [{ material: "steel-low-carbon", layers: [{ kind: "alkyd", colour: "dark", thickness_um: 60 }] }] },
      library,
    ).parts;
    const dark = createPartModel(part, { seed: 3, drawCount: 6 });
    const base = library.setup("pulsed-500");
    const setup = {
      ...base,
      pulses: base.pulses.map((p) => ({ ...p, frequencyMax: 1e6 })),
      frequencyMin: 100,
      frequencyMax: 1e6,
    };
    const spot = 300e-6;
    // Same pulses on the same places: speed and frequency rise together, only the time between pulses shrinks.
    const edge = (frequency: number) => {
      const plan = planOf(dark, setup, {
        ...defaultSetting(setup),
        frequency,
        speed: 0.1 * spot * frequency,
        lineSpacing: 0.3 * spot,
      });
      const still = { ...plan, warming: { ...plan.warming, perAbsorbedWatt: 0 } };
      let [low, high] = [-6, 6];
      for (let i = 0; i < 24; i++) {
        const mid = (low + high) / 2;
        if (predictPatch(dark.draws[0], still, part.acceptance, Math.exp(mid)).residueFraction <= 0.05) high = mid;
        else low = mid;
      }
      // fluence at the edge: pulse energy falls as 1/f above the cut-in
      return high + Math.log(plan.beam.pulseEnergy as number);
    };
    expect(edge(50e3)).toBeLessThan(edge(200) - Math.log(1.3));
  });
});

describe("energy of a line", () => {
  it.each(["gaussian", "top-hat"] as const)("summed across a %s line, the fluence is P/v", (profile) => {
    const setup = { ...library.setup("continuous-1000"), profile };
    const setting = defaultSetting(setup);
    const plan = planOf(models[0], setup, setting);
    const radius = plan.beam.spotDiameter / 2;
    const steps = 4000;
    let across = 0;
    for (let i = 0; i < steps; i++) {
      const y = ((i + 0.5) / steps) * 6 - 3;
      across += (Math.exp(profileLog(y * y, profile, true)) * 6 * radius) / steps;
    }
    expect((centreFluence(plan, radius, 1) * across) / plan.beam.lineEnergy).toBeCloseTo(1, 3);
  });
});

describe("what the draw adds", () => {
  const prediction = (model: PartModel, id: string, change: (d: Draw) => Draw = (d) => d, warming?: number) => {
    const setup = library.setup(id);
    const base = planOf(model, setup, defaultSetting(setup));
    const plan = warming === undefined ? base : { ...base, warming: { ...base.warming, perAbsorbedWatt: warming } };
    return { plan, results: model.draws.map((d) => predictPatch(change(d), plan, model.part.acceptance, 0.05)) };
  };

  it("pits hold on to more of the rust", () => {
    const answers = metalAnswers(models[1].central.sample.metal);
    const without = (d: Draw) =>
      new Draw({ ...d.sample, layers: d.sample.layers.map((l) => ({ ...l, pitAreaShare: 0 })) }, answers);
    const withThem = (d: Draw) => new Draw(d.sample, answers);
    const sum = (change: (d: Draw) => Draw, scale: number) => {
      const setup = library.setup("pulsed-500");
      const plan = planOf(models[1], setup, defaultSetting(setup));
      return models[1].draws.reduce(
        (s, d) => s + predictPatch(change(d), plan, models[1].part.acceptance, scale).residueFraction,
        0,
      );
    };
    const gaps = [0.02, 0.04, 0.08, 0.16, 0.32].map((scale) => sum(withThem, scale) - sum(without, scale));
    for (const gap of gaps) expect(gap).toBeGreaterThanOrEqual(-1e-9);
    expect(Math.max(...gaps)).toBeGreaterThan(0.005);
  });

  it("warmth goes with the share of light that becomes heat in the metal, at least that of the bare face", () => {
    const { plan, results } = prediction(models[0], "continuous-1000", undefined, 0.2);
    results.forEach((r, i) => {
      const { absorptance } = models[0].draws[i].sample.metal;
      const power = plan.beam.meanPower * 0.05 * models[0].draws[i].sample.powerFactor;
      expect(r.startTemperature - 293.15).toBeGreaterThanOrEqual(0.2 * power * absorptance * 0.999);
      expect(r.startTemperature - 293.15).toBeLessThanOrEqual(0.2 * power);
    });
  });

  it("oxide grows from the hot events alone, without any warmth between them", () => {
    const setup = library.setup("continuous-1000");
    const plan = planOf(models[1], setup, { ...defaultSetting(setup), speed: 1 });
    const cold = { ...plan, warming: { ...plan.warming, perAbsorbedWatt: 0 } };
    for (const draw of models[1].draws) {
      expect(predictPatch(draw, cold, models[1].part.acceptance, 1).oxideThickness).toBeGreaterThan(1e-9);
    }
  });
});
