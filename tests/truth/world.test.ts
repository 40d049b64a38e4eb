import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { beamState, completeSetting } from "#beam";
import { setup } from "#library";
import { createRandom } from "#numerics";
import type { DriftCase, Setting } from "#terms";
import { createWorld, type WorldKind, type WorldSpec } from "#truth";
import { candidateSettings } from "#workflows";
import { gradeOf } from "../../src/truth/readings.ts";
import { residueAt } from "../../src/truth/residue.ts";

const setups = ["pulsed-100", "pulsed-500", "continuous-1500"] as const;
const levels = Array.from({ length: 20 }, (_, k) => Math.exp(-0.1 * k));
const anchors = [
  { lnClean: -1.2, lnDamage: -0.3 },
  { lnClean: -0.8, lnDamage: 0.4 },
] as const;
const nominal: DriftCase = { power: 1, spot: 1, speed: 1, thickness: 1 };

const days = (count: number, seed: number): DriftCase[] => {
  const random = createRandom(seed);
  return Array.from({ length: count }, () => ({
    power: Math.exp(0.03 * random.normal()),
    spot: Math.exp(0.02 * random.normal()),
    speed: Math.exp(0.01 * random.normal()),
    thickness: Math.exp(0.05 * random.normal()),
  }));
};

const week = days(16, 3);
const referenceOf = (id: string): Setting => completeSetting(setup(id), {});
const scaled = (s: Setting, factor: number): Setting => ({ ...s, level: s.level * factor });

function specOf(id: string, seed: number, layers: 1 | 2 = 1, kind: WorldKind = "as anchored"): WorldSpec {
  const source = setup(id);
  return {
    seed,
    setup: source,
    acceptance: { residueMax: 0.05, metalConditionMax: 2 },
    nominalThickness: 50e-6,
    layers,
    reference: referenceOf(id),
    anchors,
    kind,
    candidates: candidateSettings(source, { count: 12, seed: 5, powerMax: null }).flatMap((s) =>
      levels.map((f) => scaled(s, f)),
    ),
    drift: week,
  };
}

const cases = setups.flatMap((id) =>
  ([1, 2] as const).flatMap((layers) => [1, 2, 3].map((seed) => ({ id, layers, seed }))),
);

describe("a world is anchored at one setting", () => {
  it.each(cases)(
    "$id, $layers layers, seed $seed: edges at the reference are those of an anchor",
    ({ id, layers, seed }) => {
      const world = createWorld(specOf(id, seed, layers));
      const { lnClean, lnDamage } = world.edges(referenceOf(id));
      expect(lnClean).toBeCloseTo(world.laws.anchorClean!, 3);
      expect(lnDamage).toBeCloseTo(world.laws.anchorDamage!, 3);
      const near = anchors.filter(
        (a) => Math.abs(a.lnClean - lnClean) < 0.45 && Math.abs(a.lnDamage - lnDamage) < 0.45,
      );
      expect(near.length).toBeGreaterThan(0);
    },
  );

  it.each(cases)("$id, $layers layers, seed $seed: a patch turns clean and damaged there", ({ id, layers, seed }) => {
    const world = createWorld(specOf(id, seed, layers));
    const { lnClean, lnDamage } = world.edges(referenceOf(id));
    const at = (x: number) => world.chance(scaled(referenceOf(id), 0.05), [{ ...nominal, power: Math.exp(x) / 0.05 }]);
    expect(at(lnClean - 0.01).clean).toBe(0);
    expect(at(lnClean + 0.01).clean).toBe(1);
    expect(at(lnDamage - 0.01).undamaged).toBe(1);
    expect(at(lnDamage + 0.01).undamaged).toBe(0);
  });

  it("follows laws of its own elsewhere: worlds with one anchor part at other settings", () => {
    const other = candidateSettings(setup("pulsed-500"), { count: 4, seed: 9, powerMax: null });
    const edges = other.map((s) =>
      [1, 2, 3, 4, 5, 6].map(
        (seed) => createWorld({ ...specOf("pulsed-500", seed), anchors: [anchors[0]] }).edges(s).lnClean,
      ),
    );
    const spreads = edges.map((e) => Math.max(...e) - Math.min(...e));
    expect(Math.max(...spreads)).toBeGreaterThan(0.5);
  });

  it("is the same for the same seed and another for another", () => {
    const one = createWorld(specOf("pulsed-100", 7, 2));
    const two = createWorld(specOf("pulsed-100", 7, 2));
    expect(two.laws).toEqual(one.laws);
    expect(createWorld(specOf("pulsed-100", 8, 2)).laws).not.toEqual(one.laws);
    const burn = (world: typeof one, coupon: number) => world.burn(referenceOf("pulsed-100"), coupon, createRandom(4));
    expect(burn(two, 3)).toEqual(burn(one, 3));
    const edge = Math.exp(one.edges(referenceOf("pulsed-100")).lnClean);
    const ratios = [0, 1, 2, 3].map(
      (c) => one.burn(scaled(referenceOf("pulsed-100"), edge), c, createRandom(4)).residueFraction,
    );
    expect(new Set(ratios).size).toBeGreaterThan(1);
  });
});

describe("chances", () => {
  it("clean rises and undamaged falls with power, on any setting that the set-ups run", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...setups),
        fc.integer({ min: 0, max: 1e6 }),
        fc.constantFrom<1 | 2>(1, 2),
        fc.constantFrom<WorldKind>("as anchored", "narrow"),
        (id, seed, layers, kind) => {
          const world = createWorld(specOf(id, seed, layers, kind));
          for (const setting of candidateSettings(setup(id), { count: 4, seed, powerMax: null })) {
            const { lnClean, lnDamage } = world.edges(setting);
            expect(Math.abs(lnClean)).toBeLessThanOrEqual(3);
            expect(Math.abs(lnDamage)).toBeLessThanOrEqual(3);
            let before = { clean: 0, undamaged: 1 };
            for (const f of [0.1, 0.2, 0.4, 0.7, 1]) {
              const chance = world.chance(scaled(setting, f), week);
              expect(chance.clean).toBeGreaterThanOrEqual(before.clean);
              expect(chance.undamaged).toBeLessThanOrEqual(before.undamaged);
              expect(chance.both).toBeLessThanOrEqual(Math.min(chance.clean, chance.undamaged));
              expect(chance.both).toBeGreaterThanOrEqual(0);
              before = chance;
              const seen = world.burn(scaled(setting, f), 1, createRandom(seed));
              expect(seen.residueFraction).toBeGreaterThanOrEqual(0);
              expect(seen.residueFraction).toBeLessThanOrEqual(1);
              expect([0, 1, 2, 3]).toContain(seen.metalCondition);
              expect(seen.thickness).toBeGreaterThan(0);
            }
          }
        },
      ),
      { numRuns: 40, seed: 11 },
    );
  });

  it("are worked out afresh for another list of days", () => {
    const world = createWorld(specOf("pulsed-100", 3));
    const setting = referenceOf("pulsed-100");
    expect(world.chance(setting, [nominal]).clean).toBe(1);
    expect(world.chance(setting, [{ ...nominal, power: 0.02 }]).clean).toBe(0);
    expect(world.chance(setting, [{ ...nominal, spot: 8 }]).clean).toBe(0);
  });

  it("a thicker coat and a faster beam are never easier to clean", () => {
    for (const { id, layers, seed } of cases) {
      const world = createWorld(specOf(id, seed, layers));
      const chanceOn = (day: DriftCase) =>
        levels.filter((f) => world.chance(scaled(referenceOf(id), f), [day]).clean === 1).length;
      const usual = chanceOn(nominal);
      expect(chanceOn({ ...nominal, thickness: 1.5 })).toBeLessThanOrEqual(usual);
      expect(chanceOn({ ...nominal, speed: 2 })).toBeLessThan(usual);
    }
  });
});

describe("kinds of worlds", () => {
  const seeds = [1, 2, 3, 4, 5, 6];

  it.each(setups)("%s: nothing works on any candidate", (id) => {
    for (const seed of seeds) {
      const spec = specOf(id, seed, seed % 2 === 0 ? 2 : 1, "nothing works");
      const world = createWorld(spec);
      const best = Math.max(...spec.candidates!.map((s) => world.chance(s, week).both));
      expect(best).toBeLessThan(0.5);
      expect(world.laws.damageMove).toBeLessThanOrEqual(0);
    }
  });

  it.each(setups)("%s: the same worlds as anchored do work somewhere", (id) => {
    const best = seeds.map((seed) => {
      const spec = specOf(id, seed, seed % 2 === 0 ? 2 : 1);
      const world = createWorld(spec);
      return Math.max(
        ...[...spec.candidates!, ...levels.map((f) => scaled(spec.reference, f))].map(
          (s) => world.chance(s, week).both,
        ),
      );
    });
    expect(best.filter((b) => b >= 0.95).length).toBeGreaterThan(3);
  });

  it.each(setups)("%s: a narrow world leaves between 0.1 and 0.3 around the reference", (id) => {
    for (const seed of seeds) {
      const world = createWorld(specOf(id, seed, 1, "narrow"));
      const reference = referenceOf(id);
      const rooms = [0.7, 1, 1.4].flatMap((v) =>
        [0.8, 1].flatMap((s) =>
          [1, 2].map((passes) => {
            const speed = Math.min(setup(id).speedMax, reference.speed * v);
            const edges = world.edges({ ...reference, speed, lineSpacing: reference.lineSpacing * s, passes });
            return edges.lnDamage - edges.lnClean;
          }),
        ),
      );
      expect(Math.max(...rooms)).toBeGreaterThan(0.095);
      expect(Math.max(...rooms)).toBeLessThan(0.305);
    }
  });
});

describe("what a patch shows", () => {
  it("two of a hundred readings and grades are on the wrong side", () => {
    const world = createWorld({ ...specOf("pulsed-100", 5), anchors: [{ lnClean: -2, lnDamage: 1.5 }] });
    const setting = referenceOf("pulsed-100");
    const random = createRandom(21);
    const n = 8000;
    let dirty = 0;
    let damaged = 0;
    for (let i = 0; i < n; i++) {
      const seen = world.burn(setting, i % 4, random);
      if (seen.residueFraction > 0.05) dirty++;
      if (seen.metalCondition > 2) damaged++;
    }
    // Four standard deviations of a count of 8000 at 2 %.
    const room = 4 * Math.sqrt((0.02 * 0.98) / n);
    expect(Math.abs(dirty / n - 0.02)).toBeLessThan(room);
    expect(Math.abs(damaged / n - 0.02)).toBeLessThan(room);
  });

  it("grades go one up per step, with the first beyond the limit at a ratio of 1", () => {
    expect([0.3, 0.7, 0.85, 0.999, 1.001, 1.3].map((r) => gradeOf(r, 2))).toEqual([0, 1, 2, 2, 3, 3]);
    expect([0.3, 0.7, 0.85, 0.999, 1.001, 1.3].map((r) => gradeOf(r, 1))).toEqual([0, 0, 1, 1, 2, 3]);
  });

  it("scatters in thickness by 15 % about the nominal coat", () => {
    const world = createWorld(specOf("pulsed-100", 5));
    const random = createRandom(2);
    const lns = Array.from({ length: 4000 }, () =>
      Math.log(world.burn(referenceOf("pulsed-100"), 0, random).thickness / 50e-6),
    );
    const mean = lns.reduce((a, b) => a + b, 0) / lns.length;
    const spread = Math.sqrt(lns.reduce((a, b) => a + (b - mean) ** 2, 0) / lns.length);
    expect(Math.abs(mean)).toBeLessThan(0.01);
    expect(spread).toBeCloseTo(0.15, 2);
  });

  it("lines farther apart than the spot leave residue between them", () => {
    for (const id of setups) {
      const world = createWorld(specOf(id, 2));
      const reference = referenceOf(id);
      const d = beamState(setup(id), reference).spotDiameter;
      const dense = world.edges({ ...reference, lineSpacing: 0.4 * d }).lnClean;
      const loose = world.edges({ ...reference, lineSpacing: 1.3 * d }).lnClean;
      expect(loose).toBeGreaterThan(dense + 0.5);
    }
  });

  it("two layers leave residue where only the upper is removed", () => {
    const law = { eaten: false, thicknessExponent: 0.2, countExponent: -0.05, dosePower: 2, width: 0.05 };
    const bare = new Float64Array(4);
    const upperGone = 0.5;
    expect(residueAt({ layers: [bare], lnEvents: 0 }, [law], [0], upperGone, 0)).toBe(0);
    expect(residueAt({ layers: [bare, bare], lnEvents: 0 }, [law, law], [0, 1], upperGone, 0)).toBe(1);
    expect(residueAt({ layers: [bare, bare], lnEvents: 0 }, [law, law], [0, 1], 1.5, 0)).toBe(0);
    // The same in a whole world: the lower layer decides and the upper comes off well before.
    const seed = Array.from({ length: 200 }, (_, i) => i).find((i) => {
      const { laws } = createWorld(specOf("pulsed-500", i, 2));
      return laws.upperDecides === 0 && laws.layerLead! > 0.3;
    })!;
    const world = createWorld(specOf("pulsed-500", seed, 2));
    const { lnClean } = world.edges(referenceOf("pulsed-500"));
    const between = scaled(referenceOf("pulsed-500"), Math.exp(lnClean - 0.25));
    const random = createRandom(1);
    const residues = Array.from({ length: 60 }, () => world.burn(between, 0, random).residueFraction);
    expect(residues.filter((r) => r > 0.05).length).toBeGreaterThan(50);
  });
});
