import { beforeAll, describe, expect, it } from "vitest";
import { beamState, checkSetting, defaultSetting } from "#beam";
import { setup } from "#library";
import { Draw, type MetalAnswers, type PatchPlan } from "#patch";
import type { LaserSetup, PatchResult, Setting } from "#terms";
import type { PartModel } from "#workflows";
import {
  AlteredDraw,
  answers,
  continuousSource,
  DRAWS,
  heldMeltDepth,
  modelOf,
  pulsedBase,
  pulsedSource,
  type Runner,
  removalEdge,
  runner,
  share,
  thrownOff,
  whiteLayers,
  withLayers,
  withNodes,
} from "./relation-cases.ts";

/** Share of the draws in which a relation must come out, and the most that may be left when its mechanism is off. */
const ENOUGH = 0.95;
const CLEARLY_LESS = 0.5;
/** Steps of residue that count as a tie, and the rise that counts as one. */
const TIE = 1e-4;

let models: PartModel[];
beforeAll(() => {
  models = thrownOff();
});

const neverFalls = (q: readonly number[]) => q.every((x, i) => i === 0 || x >= q[i - 1] - TIE);
const neverRises = (q: readonly number[]) => q.every((x, i) => i === 0 || x <= q[i - 1] + TIE);
/** A layer that leaves nothing behind when it decomposes. */
const withoutChar = (l: Draw["sample"]["layers"][number]) =>
  l.decomposition ? { ...l, decomposition: { ...l.decomposition, charFraction: 0 } } : l;
/** With a mechanism off a share falls so far that fewer draws show it. */
const few = (model: PartModel) => model.draws.slice(0, 60);
const first = (q: readonly number[]) => q[0] as number;
const last = (q: readonly number[]) => q[q.length - 1] as number;

/** Asks a question of every draw of a part at the power at which a setting just cleans. */
function atRemovalEdge(
  draws: PartModel["draws"],
  base: Runner,
  runs: readonly Runner[],
  holds: (results: readonly PatchResult[]) => boolean,
): number {
  return share(draws, (draw) => {
    const scale = Math.exp(removalEdge(base, draw));
    return holds(runs.map((run) => run(draw, scale)));
  });
}

describe("relation 1: at fixed frequency and mean power removal asks for more fluence as the pulse grows longer", () => {
  const widths = [30e-9, 100e-9, 200e-9];
  const asked = (model: PartModel, draws: PartModel["draws"], alter?: (plan: PatchPlan) => PatchPlan) => {
    const runs = widths.map((pulseWidth) => runner(model, pulsedSource, { ...pulsedBase, pulseWidth }, alter));
    const edges = share(draws, (draw) => {
      const [a, b, c] = runs.map((run) => removalEdge(run, draw)) as [number, number, number];
      return b > a + 2e-3 && c > b + 2e-3;
    });
    const residue = atRemovalEdge(draws, runs[1] as Runner, runs, (r) => {
      const q = r.map((x) => x.residueFraction);
      return neverFalls(q) && last(q) > first(q) + TIE;
    });
    return { edges, residue };
  };

  it("comes out on layers thrown off from below", () => {
    for (const model of models) {
      const { edges, residue } = asked(model, model.draws);
      expect(edges, model.part.id).toBeGreaterThanOrEqual(ENOUGH);
      expect(residue, model.part.id).toBeGreaterThanOrEqual(ENOUGH);
    }
  });

  it("fails when every pulse heats as one of 100 ns", () => {
    for (const model of models) {
      const { edges, residue } = asked(model, few(model), (plan) => ({
        ...plan,
        beam: { ...plan.beam, onTime: 100e-9 },
      }));
      expect(edges, model.part.id).toBeLessThan(CLEARLY_LESS);
      expect(residue, model.part.id).toBeLessThan(CLEARLY_LESS);
    }
  });
});

describe("relations 2 and 3: frequency at fixed pulse width and mean power", () => {
  let white: PartModel[];
  beforeAll(() => {
    white = whiteLayers();
  });
  const frequencies = [25e3, 40e3, 70e3, 120e3, 200e3];
  // Two passes, so that metal laid bare by the first one meets the beam again.
  const runsOf = (model: PartModel, alter?: (plan: PatchPlan) => PatchPlan, more: readonly number[] = []) =>
    [...frequencies, ...more].map((frequency) =>
      runner(model, pulsedSource, { ...pulsedBase, passes: 2, frequency }, alter),
    );
  /** Each step leaves the metal less near its limit, or unharmed; past the limit of harm the distance has no meaning. */
  const saferEachStep = (r: readonly PatchResult[]) =>
    r.every((x, i) => i === 0 || x.damageMargin >= 0 || x.damageMargin > (r[i - 1] as PatchResult).damageMargin + 1e-3);
  const saferAtLast = (r: readonly PatchResult[]) =>
    saferEachStep(r) &&
    (r[0] as PatchResult).damageMargin < 0 &&
    (r[r.length - 1] as PatchResult).damageMargin > (r[0] as PatchResult).damageMargin + 0.05;
  const heldEnergy = (plan: PatchPlan): PatchPlan => ({ ...plan, beam: { ...plan.beam, pulseEnergy: 100 / 25e3 } });

  it("2: the metal is harmed less as frequency rises, where it was harmed", () => {
    for (const model of white) {
      const runs = runsOf(model);
      const harmed = model.draws.filter(
        (draw) => (runs[0] as Runner)(draw, Math.exp(removalEdge(runs[0] as Runner, draw))).damageMargin < 0,
      );
      expect(harmed.length, model.part.id).toBeGreaterThan(DRAWS / 2);
      expect(atRemovalEdge(harmed, runs[0] as Runner, runs, saferAtLast), model.part.id).toBeGreaterThanOrEqual(ENOUGH);
    }
  });

  it("2: so over all draws the chance of harm falls", () => {
    for (const model of white) {
      const runs = runsOf(model);
      const scale = model.draws.map((draw) => Math.exp(removalEdge(runs[0] as Runner, draw)));
      const harmed = runs.map((run) => model.draws.filter((draw, i) => run(draw, scale[i]).damageMargin < 0).length);
      expect(
        harmed.every((n, i) => i === 0 || n <= (harmed[i - 1] as number)),
        `${model.part.id} ${harmed}`,
      ).toBe(true);
      expect(last(harmed), model.part.id).toBeLessThan(first(harmed));
    }
  });

  it("2 fails when the energy of a pulse does not depend on frequency", () => {
    for (const model of white) {
      const runs = runsOf(model, heldEnergy);
      expect(atRemovalEdge(few(model), runs[0] as Runner, runs, saferAtLast), model.part.id).toBeLessThan(CLEARLY_LESS);
    }
  });

  const moreLeft = (r: readonly PatchResult[]) =>
    last(r.map((x) => x.residueFraction)) > Math.min(...r.map((x) => x.residueFraction)) + 0.01;

  it("3: beyond some frequency more is left behind", () => {
    for (const model of white) {
      const runs = runsOf(model);
      expect(atRemovalEdge(model.draws, runs[0] as Runner, runs, moreLeft), model.part.id).toBeGreaterThanOrEqual(
        ENOUGH,
      );
    }
  });

  // Dark layers need a pulse so weak that it no longer flashes char to vapour: megahertz, far beyond any set-up here.
  it("3: also on dark layers eaten from above, where what kept heat eats leaves char", () => {
    const dark = modelOf("aluminium-5083", [["polyurethane-topcoat", "dark", 30]]);
    const runs = runsOf(dark, undefined, [400e3, 1.6e6, 5e6]);
    expect(atRemovalEdge(dark.draws, runs[0] as Runner, runs, moreLeft)).toBeGreaterThanOrEqual(ENOUGH);
  });

  it("3 fails there when nothing chars", () => {
    const dark = modelOf("aluminium-5083", [["polyurethane-topcoat", "dark", 30]]);
    const runs = runsOf(dark, undefined, [400e3, 1.6e6, 5e6]);
    const draws = few(dark).map((draw) => withLayers(draw, withoutChar));
    // The threshold of a single pulse still brings it out in some.
    expect(atRemovalEdge(draws, runs[0] as Runner, runs, moreLeft)).toBeLessThan(0.7);
  });

  it("3 fails when removal has no threshold: depth in proportion to fluence, nothing thrown off", () => {
    for (const model of white) {
      // 3 J/mm³, about what an organic layer needs to go: only the proportion matters, the power is searched anyway.
      const draws = few(model).map(
        (draw) =>
          new AlteredDraw(draw, (kernel) =>
            withNodes(kernel, (n) => ({
              ...n,
              interfaceRise: 1e-12,
              meanRise: 1e-12,
              eatenAt: n.eatenAt.map((_, i) => 293.15 + 3e9 * (n.rise[i] as number) * (n.depth[i] as number)),
            })),
          ),
      );
      const runs = runsOf(model);
      expect(atRemovalEdge(draws, runs[0] as Runner, runs, moreLeft), model.part.id).toBeLessThan(CLEARLY_LESS);
    }
  });
});

describe("relation 4: continuous beam and speed", () => {
  // The last two are beyond what the set-up can run: the question is whether there is such a speed at all.
  const speeds = [2, 4, 8, 14, 28, 56];
  const base: Setting = { ...defaultSetting(continuousSource), lens: "f254", lineSpacing: 0.1e-3 };
  const runsOf = (model: PartModel, alter?: (plan: PatchPlan) => PatchPlan) =>
    speeds.map((speed) => runner(model, continuousSource, { ...base, speed }, alter));
  const safer = (all: readonly PatchResult[]) =>
    all.slice(0, 4).every((x, i, r) => i === 0 || x.damageMargin > (r[i - 1] as PatchResult).damageMargin + 1e-3);
  const moreLeft = (r: readonly PatchResult[]) =>
    last(r.map((x) => x.residueFraction)) > Math.min(...r.map((x) => x.residueFraction)) + 0.01;

  it("damage falls as speed rises, and beyond some speed more is left behind", () => {
    for (const model of models) {
      const runs = runsOf(model);
      expect(atRemovalEdge(model.draws, runs[1] as Runner, runs, safer), model.part.id).toBeGreaterThanOrEqual(ENOUGH);
      expect(atRemovalEdge(model.draws, runs[1] as Runner, runs, moreLeft), model.part.id).toBeGreaterThanOrEqual(
        ENOUGH,
      );
    }
  });

  it("fails when the dwell is held, in the pass itself and in the warmth that earlier lines leave", () => {
    for (const model of models) {
      let held: PatchPlan | null = null;
      runner(model, continuousSource, { ...base, speed: 4 }, (plan) => {
        held = plan;
        return plan;
      });
      const same = held as unknown as PatchPlan;
      const runs = runsOf(model, (plan) => ({
        ...plan,
        setting: { ...plan.setting, speed: 4 },
        warming: same.warming,
      }));
      expect(atRemovalEdge(few(model), runs[1] as Runner, runs, safer), model.part.id).toBeLessThan(CLEARLY_LESS);
      expect(atRemovalEdge(few(model), runs[1] as Runner, runs, moreLeft), model.part.id).toBeLessThan(CLEARLY_LESS);
    }
  });
});

describe("relation 6: passes and thickness", () => {
  const passes = [1, 2, 4, 8];
  const runsOf = (model: PartModel, alter?: (plan: PatchPlan) => PatchPlan) =>
    passes.map((n) => runner(model, pulsedSource, { ...pulsedBase, passes: n }, alter));
  const falls = (r: readonly PatchResult[]) => {
    const q = r.map((x) => x.residueFraction);
    return neverRises(q) && last(q) < first(q) - TIE;
  };

  it("what is left falls with passes", () => {
    for (const model of models) {
      const runs = runsOf(model);
      expect(atRemovalEdge(model.draws, runs[1] as Runner, runs, falls), model.part.id).toBeGreaterThanOrEqual(ENOUGH);
    }
  });

  it("fails without incubation, eating from above and the warmth of earlier passes", () => {
    for (const model of models) {
      const draws = few(model).map(
        (draw) =>
          new AlteredDraw(
            withLayers(draw, (l) => ({ ...l, incubation: 1 })),
            (kernel) => withNodes(kernel, (n) => ({ ...n, eatenAt: n.eatenAt.map(() => Number.POSITIVE_INFINITY) })),
          ),
      );
      const runs = runsOf(model, (plan) => ({
        ...plan,
        warming: { perAbsorbedWatt: 0, exposure: 0, lineTime: plan.warming.lineTime },
      }));
      expect(atRemovalEdge(draws, runs[1] as Runner, runs, falls), model.part.id).toBeLessThan(CLEARLY_LESS);
    }
  });

  /** Shares in which half as much again of the layer asks for more fluence, and is left behind more at the same passes. */
  const thicker = (model: PartModel, draws: PartModel["draws"], factor: number) => {
    const run = runsOf(model)[1] as Runner;
    const thick = draws.map((draw) => withLayers(draw, (l) => ({ ...l, thickness: factor * l.thickness })));
    const pairs = draws.map((draw, i) => {
      const edge = removalEdge(run, draw);
      const other = thick[i] as (typeof thick)[number];
      return {
        fluence: removalEdge(run, other) > edge + 2e-3,
        left: run(other, Math.exp(edge)).residueFraction > run(draw, Math.exp(edge)).residueFraction + TIE,
      };
    });
    return {
      fluence: pairs.filter((p) => p.fluence).length / pairs.length,
      left: pairs.filter((p) => p.left).length / pairs.length,
    };
  };

  it("a thicker layer needs more fluence, or is left behind at the same passes", () => {
    for (const model of models) {
      const asked = thicker(model, model.draws, 1.5);
      expect(asked.fluence, model.part.id).toBeGreaterThanOrEqual(ENOUGH);
      expect(asked.left, model.part.id).toBeGreaterThanOrEqual(ENOUGH);
    }
  });

  it("fails when the thickness is held", () => {
    for (const model of models) {
      const asked = thicker(model, few(model), 1);
      expect(asked.fluence, model.part.id).toBeLessThan(CLEARLY_LESS);
      expect(asked.left, model.part.id).toBeLessThan(CLEARLY_LESS);
    }
  });
});

describe("relation 5: continuous beam against nanosecond pulses", () => {
  const meanPower = 500;
  const pulsed = setup("pulsed-500");
  const common = { power: meanPower, level: 1, duty: 1, defocus: 0 } as const;
  const ideal = (s: Setting) => (s.speed * s.lineSpacing) / s.passes;
  const fastestFirst = (list: readonly Setting[]) => [...list].sort((a, b) => ideal(b) - ideal(a));
  const runs = (source: LaserSetup, s: Setting) => {
    try {
      checkSetting(source, s);
      return beamState(source, s).meanPower > 0.999 * meanPower;
    } catch {
      return false;
    }
  };
  /** In-focus spots of the library's lenses, all at the same mean power. */
  const pulsedGrid = fastestFirst(
    pulsed.lenses.flatMap((l) =>
      [30e-9, 100e-9].flatMap((pulseWidth) =>
        [33.4e3, 50e3, 100e3, 150e3, 200e3].flatMap((frequency) =>
          [0.15, 0.3, 0.5, 0.8].flatMap((pitch) =>
            [0.3, 0.5].flatMap((spacing) =>
              [1, 2, 4, 8].map(
                (passes): Setting => ({
                  ...common,
                  pulseWidth,
                  frequency,
                  speed: Math.min(pulsed.speedMax, pitch * l.spotDiameter * frequency),
                  lineSpacing: spacing * l.spotDiameter,
                  passes,
                  lens: l.id,
                }),
              ),
            ),
          ),
        ),
      ),
    ),
  ).filter((s) => runs(pulsed, s));
  const continuousGrid = fastestFirst(
    continuousSource.lenses.flatMap((l) =>
      [0.1, 0.2, 0.4, 0.8, 1.6, 2.3, 3.2, 4.5, 6.4, 9, 12.8, 15].flatMap((speed) =>
        [0.2, 0.35, 0.5, 0.7].flatMap((spacing) =>
          [1, 2, 4, 8].map(
            (passes): Setting => ({
              ...common,
              power: 1000,
              level: 0.5,
              pulseWidth: null,
              frequency: null,
              speed,
              lineSpacing: spacing * l.spotDiameter,
              passes,
              lens: l.id,
            }),
          ),
        ),
      ),
    ),
  ).filter((s) => runs(continuousSource, s));

  /** Best: the fastest setting of the grid that leaves at most 5 %, whatever happens to the metal. */
  function best(
    model: PartModel,
    draws: PartModel["draws"],
    source: LaserSetup,
    grid: readonly Setting[],
  ): { run: Runner; result: PatchResult }[] {
    const runners: Runner[] = [];
    return draws.map((draw) => {
      for (let i = 0; i < grid.length; i++) {
        runners[i] ??= runner(model, source, grid[i] as Setting);
        const run = runners[i] as Runner;
        const result = run(draw);
        if (result.residueFraction <= 0.05) return { run, result };
      }
      throw new Error(`nothing in the grid removes the layer from ${model.part.id}`);
    });
  }

  /** m, melt depth with the power raised to a fifth above the power at which this setting begins to melt the metal. */
  function meltPastEdge(run: Runner, draw: Draw): number {
    let low = -4;
    let high = 4;
    for (let i = 0; i < 11; i++) {
      const middle = (low + high) / 2;
      if (run(draw, Math.exp(middle)).meltDepth > 0) high = middle;
      else low = middle;
    }
    return run(draw, 1.2 * Math.exp(high)).meltDepth;
  }

  // A tie counts as holding only where neither beam can melt the metal, and none of these metals is of that kind.
  const meltsMore = (model: PartModel, draws: PartModel["draws"]) => {
    const p = best(model, draws, pulsed, pulsedGrid);
    const c = best(model, draws, continuousSource, continuousGrid);
    const asSet =
      draws.filter(
        (_, i) =>
          (c[i] as { result: PatchResult }).result.meltDepth > (p[i] as { result: PatchResult }).result.meltDepth,
      ).length / draws.length;
    const pastEdge =
      draws.filter(
        (draw, i) =>
          meltPastEdge((c[i] as { run: Runner }).run, draw) > meltPastEdge((p[i] as { run: Runner }).run, draw),
      ).length / draws.length;
    return { asSet, pastEdge };
  };

  it("at equal mean power, each at its fastest setting that removes: deeper melt on aluminium and titanium", () => {
    const titanium = modelOf("titanium-6-4", [["polyurethane-topcoat", "white", 40]]);
    for (const model of [models[0] as PartModel, titanium])
      expect(meltsMore(model, model.draws).asSet, model.part.id).toBeGreaterThanOrEqual(ENOUGH);
  });

  it("on every metal, each best setting taken as far past its melting edge, the continuous beam melts deeper", () => {
    for (const model of models)
      expect(meltsMore(model, few(model)).pastEdge, model.part.id).toBeGreaterThanOrEqual(ENOUGH);
  });

  it("known miss: as set, it comes out on the steels in most draws, not in 95 of 100: a fast line of a wide spot can just stay below melting", () => {
    // Asserted from both sides so that it is noticed when a better model brings the relation out, or loses it.
    for (const model of models.slice(1)) {
      const { asSet } = meltsMore(model, few(model));
      expect(asSet, model.part.id).toBeGreaterThan(0.5);
      expect(asSet, model.part.id).toBeLessThan(ENOUGH);
    }
  });

  it("fails when the depth of heat is held at that of a 100 ns pulse", () => {
    const model = models[0] as PartModel;
    const held = meltsMore(model, few(model).map(heldMeltDepth));
    // As set, the continuous beam also stays hotter for its depth, so a part of the relation is left.
    expect(held.asSet).toBeLessThan(0.9);
    expect(held.pastEdge).toBeLessThan(CLEARLY_LESS);
  });

  const painted = (metalId: string) => modelOf(metalId, [["polyurethane-topcoat", "white", 40]]);
  const settings: readonly [LaserSetup, Setting][] = [
    [pulsedSource, { ...pulsedBase, passes: 4 }],
    [continuousSource, { ...defaultSetting(continuousSource), lens: "f254", lineSpacing: 0.1e-3, speed: 6 }],
  ];
  /** Share of paired draws in which steel begins to melt at less than 0.9 of the power that begins to melt aluminium. */
  const steelFirst = (
    steel: PartModel,
    draws: PartModel["draws"],
    aluminium: PartModel,
    source: LaserSetup,
    setting: Setting,
  ) => {
    const onSteel = runner(steel, source, setting);
    const onAluminium = runner(aluminium, source, setting);
    const edge = (run: Runner, draw: Draw) => {
      let low = -5;
      let high = 5;
      for (let i = 0; i < 11; i++) {
        const middle = (low + high) / 2;
        if (run(draw, Math.exp(middle)).meltedShare > 0.01) high = middle;
        else low = middle;
      }
      return high;
    };
    return (
      draws.filter((draw, i) => edge(onSteel, draw) < edge(onAluminium, aluminium.draws[i] as Draw)).length /
      draws.length
    );
  };

  it("at one and the same setting carbon steel passes its melting edge before aluminium", () => {
    const steel = painted("steel-low-carbon");
    const aluminium = painted("aluminium-5083");
    for (const [source, setting] of settings)
      expect(steelFirst(steel, steel.draws, aluminium, source, setting), source.id).toBeGreaterThanOrEqual(ENOUGH);
  });

  it("fails when steel takes and carries off heat as aluminium does", () => {
    const steel = painted("steel-low-carbon");
    const aluminium = painted("aluminium-5083");
    const alike = few(steel).map((draw, i) => {
      const other = (aluminium.draws[i] as Draw).sample.metal;
      const { meltingTemperature, boilingTemperature } = draw.sample.metal;
      return new Draw(
        { ...draw.sample, metal: { ...other, metalId: "steel-low-carbon", meltingTemperature, boilingTemperature } },
        answers.get("steel-low-carbon") as MetalAnswers,
      );
    });
    for (const [source, setting] of settings)
      expect(steelFirst(steel, alike, aluminium, source, setting), source.id).toBeLessThan(CLEARLY_LESS);
  });
});
