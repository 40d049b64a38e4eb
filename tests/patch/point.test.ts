import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { halfSpaceFluxRise } from "#heat";
import { normalQuantile } from "#numerics";
import { CLASS_COUNT, PointHistory, type PointSpec, profileLog } from "#patch";
import type { CharLaw, LawTable } from "#removal";
import { CLASSES } from "../../src/patch/point-spec.ts";
import { afterwards, goneAt, read } from "../../src/patch/point-law.ts";

/** Evenly over a range: doubles as the library draws them are mostly next to nothing. */
const evenly = (low: number, high: number) =>
  fc.integer({ min: 0, max: 1e6 }).map((i) => low + ((high - low) * i) / 1e6);

const STEP = 0.16;
const COLUMNS = 56;
const FIRST = Math.log(100);
const MICRO = 1e-6;

interface Rule {
  /** J/m² from which the top is eaten, and m that each further e-fold eats */
  readonly eats: number;
  readonly depth: number;
  /** J/m² at which adhesion of the median is overcome, and ln adhesion for each further e-fold */
  readonly lifts: number;
  readonly steep: number;
  readonly reactionTime?: number;
  readonly relaxation?: number;
  readonly chars?: number;
  readonly bareRise?: number;
  readonly coveredRise?: number;
  readonly char?: CharLaw | null;
  /** ln adhesion that is overcome beyond that where 10 µm or less are left */
  readonly thin?: number;
}

/** A law of straight lines in ln F, the same at every thickness, so that reading between columns is exact off the bend. */
function lawOf(rule: Rule): LawTable {
  const remaining = Float64Array.of(0, 0.5 * MICRO, 10 * MICRO, 80 * MICRO);
  const table = (of: (lnFluence: number) => number) =>
    Float64Array.from({ length: remaining.length * COLUMNS }, (_, i) => of(FIRST + STEP * (i % COLUMNS)));
  const { eats, depth, lifts, steep, bareRise = 0.02, coveredRise = 0.01, thin = 0 } = rule;
  return {
    lnFluenceFirst: FIRST,
    lnFluenceStep: STEP,
    columns: COLUMNS,
    remaining,
    eaten: table((ln) => Math.max(0, depth * (ln - Math.log(eats)))),
    strength: table((ln) => steep * (ln - Math.log(lifts))).map((v, i) => v + (i < 3 * COLUMNS ? thin : 0)),
    byStress: new Uint8Array(remaining.length * COLUMNS),
    metalRise: Float64Array.of(bareRise, coveredRise, coveredRise, coveredRise),
    stayRise: new Float64Array(remaining.length),
    startTemperature: 293.15,
    firstEaten: Float64Array.of(Number.POSITIVE_INFINITY, eats, eats, eats),
    relaxation: new Float64Array(remaining.length).fill(rule.relaxation ?? 0),
    chars: new Float64Array(remaining.length).fill(rule.chars ?? 0),
    reactionTime: rule.reactionTime ?? 100e-9,
    need: () => {},
    char: () => rule.char ?? null,
  };
}

/** Fluence of a column, so that a bend can be put where the table has a point. */
const column = (i: number) => Math.exp(FIRST + STEP * i);

function specOf(law: LawTable, more: Partial<PointSpec> = {}): PointSpec {
  return {
    law,
    fluence: column(30),
    profile: "gaussian",
    lineEvents: false,
    passes: 1,
    thickness: 40 * MICRO,
    residueThickness: 2 * MICRO,
    adhesionScatter: 0.25,
    incubation: 1,
    pulseGap: 1,
    lineGap: 1,
    multiplicity: 1,
    ...more,
  };
}

function runOf(spec: PointSpec, distances: readonly number[], starts?: readonly number[]): PointHistory {
  const point = new PointHistory(spec);
  point.run(Float64Array.from(distances), Uint8Array.from(starts ?? distances.map((_, i) => (i === 0 ? 1 : 0))), 1);
  return point;
}

/** Lifts nothing, eats from column 20 at 5 µm an e-fold. */
const eats = { eats: column(20), depth: 5 * MICRO, lifts: 1e30, steep: 1 };
/** Eats nothing, lifts the median at column 25. */
const lifts = { eats: 1e12, depth: 0, lifts: column(25), steep: 2 };

describe("light at a point", () => {
  it("is e^−2 at the radius of a Gaussian, the whole inside a flat top, the chord of its line, nothing outside", () => {
    expect(profileLog(1, "gaussian", false)).toBe(-2);
    expect(profileLog(0.25, "gaussian", true)).toBe(-0.5);
    expect(profileLog(0.9, "top-hat", false)).toBe(0);
    expect(Math.exp(profileLog(0.64, "top-hat", true))).toBeCloseTo(0.6, 12);
    expect(profileLog(1, "top-hat", true)).toBe(-100);
  });
});

describe("the rest of an event on bared metal", () => {
  it("is two constant fluxes on a half-space after each other, exactly", () => {
    const steel = { conductivity: 40, density: 7850, heatCapacity: 500 };
    fc.assert(
      fc.property(evenly(1e-6, 1), evenly(0, 1.5), (rest, ratio) => {
        const time = 2e-4;
        const at = (t: number) => halfSpaceFluxRise(steel, 1e9, 0, t);
        const both = ratio * (at(time) - at(rest * time)) + at(rest * time);
        expect(afterwards(rest, ratio)).toBeCloseTo(both / at(time), 9);
      }),
    );
    expect(afterwards(0, 0.3)).toBe(0.3);
    expect(afterwards(1, 0.3)).toBe(1);
    expect(afterwards(0.25, 0)).toBe(0.5);
  });
});

describe("reading a table", () => {
  it("is straight between four points and held at both ends", () => {
    const table = Float64Array.of(0, 1, 4, 10, 21, 34);
    expect(read(table, 3, 0, 1, 0.25, 1.5)).toBeCloseTo(0.75 * 2.5 + 0.25 * 27.5, 12);
    expect(read(table, 3, 0, 1, 0, -5)).toBe(0);
    expect(read(table, 3, 0, 1, 1, 99)).toBeCloseTo(34, 4);
    const charLaw: CharLaw = { remaining: Float64Array.of(1), gone: (_, c) => c * c, metalRise: Float64Array.of(0) };
    expect(goneAt(charLaw, 0, 3, 0.25)).toBe(10.75);
  });
});

describe("classes of adhesion", () => {
  it("are the middles of eight equal shares of a normal distribution", () => {
    CLASSES.forEach((c, k) => {
      expect(c).toBeCloseTo(normalQuantile((k + 0.5) / 8), 9);
    });
  });

  it("open as far as the adhesion overcome: 2·0.16·(columns over) in units of the scatter", () => {
    // Column 25 + i: ln strength 0.32·i; scatter 0.25: 1.28·i standard deviations.
    for (const [i, open] of [
      [-2, 0],
      [-1, 1],
      [0, 4],
      [0.2, 5],
      [0.5, 6],
      [1, 7],
      [1.5, 8],
    ] as const) {
      const point = runOf(specOf(lawOf(lifts), { fluence: column(25 + i) }), [0]);
      expect(point.freed).toBeCloseTo(1.28 * i, 9);
      expect(point.open).toBe(open);
      expect(point.letGo).toBe(1.28 * i > 4);
      expect(point.left).toBe(40 * MICRO);
    }
    expect(runOf(specOf(lawOf(lifts), { fluence: column(28.2) }), [0]).letGo).toBe(true);
    expect(runOf(specOf(lawOf(lifts), { fluence: column(28) }), [0]).letGo).toBe(false);
  });

  it("count later light as light on bare metal, the light that threw them off not, if it was short", () => {
    const point = runOf(specOf(lawOf(lifts), { fluence: column(25.2) }), [0, 0.3, 0.1]);
    expect(point.open).toBe(5);
    for (let k = 0; k < CLASS_COUNT; k++)
      expect(point.after[k]).toBeCloseTo(k < 5 ? column(25.2) * Math.exp(-0.2) : 0, 6);
    expect(point.covered).toBeCloseTo(0.01 * column(25.2), 6);
  });

  it("meet the rest of a long event from the fluence at which each let go, less the microsecond of flight", () => {
    const fluence = column(26);
    const law = lawOf({ ...lifts, reactionTime: 20e-6, bareRise: 0.02, coveredRise: 0.005 });
    const point = runOf(specOf(law, { fluence }), [0]);
    expect(point.open).toBe(7);
    for (let k = 0; k < CLASS_COUNT; k++) {
      const letsGoAt = column(25) * Math.exp((CLASSES[k]! * 0.25) / 2);
      const rest = 1 - letsGoAt / fluence - 0.05;
      expect(point.after[k]).toBeCloseTo(
        rest > 0 && k < 7 ? fluence * (Math.sqrt(rest) + 0.25 * (1 - Math.sqrt(rest))) : 0,
        4,
      );
    }
    expect([...point.after].filter((v) => v > 0).length).toBe(6);
  });

  it("hold less of what has been thinned: the same light throws it off later", () => {
    const law = lawOf({ ...eats, lifts: column(30), steep: 1, thin: 1 });
    // 40 µm, then 32 and 24 µm, between nodes of 10 and 80 µm
    for (const [events, left] of [
      [1, 40],
      [2, 32],
      [3, 24],
    ] as const) {
      const point = runOf(specOf(law, { adhesionScatter: 10 }), new Array<number>(events).fill(0));
      expect(point.best).toBeCloseTo(1 - (left - 10) / 70, 9);
    }
  });

  it("meet every later light, also where char had warmed the other classes more than bare metal takes", () => {
    // four classes let go and meet light; the char that goes next had let 1.5 times as much through as bare metal takes
    const burns: CharLaw = {
      remaining: Float64Array.of(4 * MICRO, 12 * MICRO, 40 * MICRO),
      gone: () => 30 * MICRO,
      metalRise: Float64Array.of(0.03, 0.03, 0.03),
    };
    const rule = {
      ...eats,
      depth: 40 * MICRO,
      reactionTime: 10e-6,
      chars: 1,
      lifts: column(25),
      steep: 1e-6,
    };
    const gone = {
      ...burns,
      gone: (_: number, c: number) => (c < 23 ? 0 : 30 * MICRO),
    };
    const spec = specOf(lawOf({ ...rule, char: gone }), {
      fluence: column(30),
      thickness: 20 * MICRO,
    });
    const weaker = (i: number) => (STEP * i) / 2;
    // columns 25, 25 and 27: e^0.32 = 1.377
    const point = runOf(spec, [weaker(5), weaker(5), weaker(3)]);
    expect(point.open).toBe(8);
    for (let k = 0; k < 4; k++) expect(point.after[k]).toBeCloseTo(column(27), 4);
    for (let k = 4; k < 8; k++) expect(point.after[k]).toBeCloseTo(1.5 * column(25), 4);
  });

  it("are loosened by the events before: F·N^(1 − S), each counted by its share of the peak", () => {
    // S = 0.9; events of 1, 0.5 and 1 of the peak: the third counts N = 2.5
    const spec = specOf(lawOf(lifts), { fluence: column(25), incubation: 0.9 });
    const point = runOf(spec, [0, -0.5 * Math.log(0.5), 0]);
    expect(point.best).toBeCloseTo(2 * 0.1 * Math.log(2.5), 9);
    // groups of five: the second counts N = 1 + 5·0.5
    const group = runOf({ ...spec, multiplicity: 5, pulseGap: 0 }, [-0.5 * Math.log(0.5), 0]);
    expect(group.best).toBeCloseTo(2 * 0.1 * Math.log(3.5), 9);
    // four passes over one event: N = 1 + 3, the passes between skipped or not
    for (const passes of [1, 2, 3, 4, 7, 40]) {
      const many = runOf({ ...spec, passes }, [0]);
      expect(many.best).toBeCloseTo(2 * 0.1 * Math.log(passes), 9);
      expect(many.strong).toBe(1);
    }
  });
});

describe("a point without incubation, char or kept heat", () => {
  /** The same told plainly: every pass, every event, in turn. */
  function plainly(rule: Rule, spec: PointSpec, distances: readonly number[]) {
    let left = spec.thickness;
    let best = -1e9;
    let covered = 0;
    let bare = false;
    const after = new Array<number>(8).fill(0);
    const open = () => CLASSES.map((c) => bare || best > c * spec.adhesionScatter);
    for (let pass = 0; pass < spec.passes; pass++)
      for (const d of distances) {
        if (-2 * d < -6) continue;
        const fluence = spec.fluence * Math.exp(-2 * d);
        open().forEach((is, k) => {
          if (is) after[k] = Math.max(after[k]!, fluence);
        });
        if (bare || best > 4 * spec.adhesionScatter) continue;
        covered = Math.max(covered, 0.01 * fluence);
        // the table is held at its first column, 100 J/m²
        best = Math.max(best, rule.steep * Math.log(Math.max(fluence, 100) / rule.lifts));
        if (fluence <= rule.eats) continue;
        const off = rule.depth * Math.log(fluence / rule.eats);
        const before = left;
        left -= off;
        if (left <= 0.5 * spec.residueThickness) {
          const root = Math.sqrt(1 - Math.min(1, before / off));
          open().forEach((is, k) => {
            if (!is) after[k] = fluence * (root + 0.5 * (1 - root));
          });
          left = 0;
          bare = true;
        }
      }
    return { left, best, covered, bare, after, open: open().filter((is) => is).length };
  }

  it("is as a plain account of every event has it", () => {
    let eaten = 0;
    let thrown = 0;
    let partly = 0;
    fc.assert(
      fc.property(
        fc.array(evenly(0, 3.5), { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 1, max: 5 }),
        evenly(18, 34),
        fc.integer({ min: 22, max: 40 }),
        evenly(1, 40),
        (distances, passes, peak, liftsAt, um) => {
          const rule: Rule = { eats: column(20), depth: 5 * MICRO, lifts: column(liftsAt), steep: 1.5 };
          const spec = specOf(lawOf(rule), { passes, fluence: column(peak), thickness: um * MICRO });
          const point = runOf(spec, distances);
          const told = plainly(rule, spec, distances);
          expect(point.left).toBeCloseTo(told.left, 12);
          if (told.best > -1e8) expect(point.best).toBeCloseTo(told.best, 9);
          expect(point.ateAll).toBe(told.bare);
          expect(point.open).toBe(told.open);
          expect(point.covered).toBeCloseTo(told.covered, 6);
          expect(point.char).toBe(0);
          told.after.forEach((v, k) => {
            expect(Math.abs(point.after[k]! - v)).toBeLessThan(1e-6 * (1 + v));
          });
          if (told.bare) eaten++;
          else if (told.open === 8) thrown++;
          else if (told.left < spec.thickness) partly++;
        },
      ),
      { numRuns: 400 },
    );
    for (const met of [eaten, thrown, partly]) expect(met).toBeGreaterThan(20);
  });

  it("counts as gone below half of what counts as residue", () => {
    // 1.6 e-folds of 5 µm eat 8 µm; 2 µm are residue, 1 µm is nothing
    const left = (um: number) => runOf(specOf(lawOf(eats), { thickness: (8 + um) * MICRO }), [0]);
    expect(left(1.01).left).toBeCloseTo(1.01 * MICRO, 12);
    expect(left(1.01).ateAll).toBe(false);
    expect(left(0.99).left).toBe(0);
    expect(left(0.99).ateAll).toBe(true);
  });

  it("is eaten first only where some of it still held", () => {
    // adhesion overcome by 2 or by 0.4 standard deviations in the event that eats 4 µm of 4 µm
    const held = { ...eats, lifts: column(28), steep: 1 };
    const some = runOf(specOf(lawOf(held), { thickness: 4 * MICRO, adhesionScatter: 0.8 }), [0]);
    expect([some.ateAll, some.open, some.eatenFirst]).toEqual([true, 8, true]);
    const none = runOf(specOf(lawOf(held), { thickness: 4 * MICRO, adhesionScatter: 0.16 }), [0]);
    expect(none.letGo).toBe(false);
    expect([none.ateAll, none.open, none.eatenFirst]).toEqual([true, 8, false]);
  });

  it("with nothing on it is bare from the start, and meets all of its light", () => {
    const point = runOf(specOf(lawOf(eats), { thickness: 0, passes: 3 }), [0.5, 0.1, 0.3]);
    expect(point.ateAll).toBe(true);
    expect(point.open).toBe(8);
    for (const v of point.after) expect(v).toBeCloseTo(column(30) * Math.exp(-0.2), 6);
    expect(point.covered).toBe(0);
    expect(point.eatenFirst).toBe(false);
  });

  it("is shaded by the plume of each pulse: F_s·(1 + ln(F/F_s)) arrives", () => {
    const plume = column(30) / Math.E;
    const point = runOf(specOf(lawOf(eats), { plume }), [0]);
    const arrives = 2 * plume;
    expect(point.covered).toBeCloseTo(0.01 * arrives, 6);
    expect(point.left).toBeCloseTo(40 * MICRO - 5 * MICRO * Math.log(arrives / column(20)), 11);
    expect(point.strong).toBe(1);
    // adhesion, too, is overcome by what arrives; half of the peak counts as strong: e^−0.68 does, e^−0.72 not
    expect(runOf(specOf(lawOf(lifts), { plume }), [0]).best).toBeCloseTo(2 * Math.log(arrives / column(25)), 9);
    expect(runOf(specOf(lawOf(lifts)), [0.34, 0.36]).strong).toBe(1);
    // e^−5.9 of the peak still warms the metal, e^−6.1 not
    expect(runOf(specOf(lawOf(eats)), [2.95]).covered).toBeCloseTo(0.01 * column(30) * Math.exp(-5.9), 9);
    expect(runOf(specOf(lawOf(eats)), [3.05]).covered).toBe(0);
  });
});

describe("heat that stays in the layer", () => {
  const relaxation = 1e-4;
  const under = (count: number, gap: number, starts?: readonly number[], lineGap = 1e9) =>
    runOf(
      specOf(lawOf({ ...eats, relaxation }), { fluence: 0.6 * column(20), pulseGap: gap, lineGap }),
      new Array<number>(count).fill(0),
      starts,
    );

  it("adds to the next: 0.6·(1 + e^−g/τ) eats from g = 0.405·τ on", () => {
    // e^−x = 2/3 at x = 0.405465
    expect(under(2, 0.41 * relaxation).left).toBe(40 * MICRO);
    // just over the edge: read straight between the bend and the next column
    const total = 0.6 * (1 + Math.exp(-0.2));
    const off = 5 * MICRO * Math.log(total);
    expect(under(2, 0.2 * relaxation).left).toBeCloseTo(40 * MICRO - off, 11);
    expect(under(1, 0).left).toBe(40 * MICRO);
  });

  it("is at most what begins to eat: what is above goes with the fumes", () => {
    // pulses 1 to 3 without loss: 1.2 eats ln 1.2, 1 stays, 1.6 eats ln 1.6
    expect(under(3, 0).left).toBeCloseTo(40 * MICRO - 5 * MICRO * (Math.log(1.2) + Math.log(1.6)), 11);
  });

  it("is lost by the time between lines where a new line begins", () => {
    expect(under(2, 0, [1, 1]).left).toBe(40 * MICRO);
    expect(under(2, 1e9, [1, 1], 0).left).toBeLessThan(39.2 * MICRO);
    expect(under(2, 1e9, [1, 0], 0).left).toBe(40 * MICRO);
  });
});

describe("char", () => {
  const never: CharLaw = {
    remaining: Float64Array.of(4 * MICRO, 12 * MICRO, 40 * MICRO),
    gone: () => 0,
    metalRise: Float64Array.of(0.008, 0.004, 0.001),
  };

  it("is what is eaten times its yield: 1/11 of it in 1 µs, half in 10 µs; with what left it makes up the layer", () => {
    for (const [time, share] of [
      [1e-6, 1 / 11],
      [10e-6, 0.5],
    ] as const) {
      const point = runOf(specOf(lawOf({ ...eats, reactionTime: time, chars: 1, char: never })), [0]);
      const off = 5 * MICRO * 1.6;
      expect(point.left).toBeCloseTo(40 * MICRO - off, 12);
      expect(point.char).toBeCloseTo(share * off, 12);
    }
    expect(runOf(specOf(lawOf({ ...eats, reactionTime: 1, chars: 0 })), [0]).char).toBe(0);
  });

  it("is all of what kept heat eats, also under short pulses", () => {
    const law = lawOf({ ...eats, chars: 1, relaxation: 1e-4, char: never });
    const point = runOf(specOf(law, { fluence: 0.6 * column(20), pulseGap: 0 }), [0, 0]);
    expect(point.char).toBeCloseTo(5 * MICRO * Math.log(1.2), 11);
    expect(point.left + point.char).toBeCloseTo(40 * MICRO, 12);
  });

  /** Charred through by slow heat: eats more than is there, half of it stays. */
  const slow = { ...eats, depth: 40 * MICRO, reactionTime: 10e-6, chars: 1 };

  it("shades the metal and counts as residue until it has gone; then the next light meets the metal", () => {
    // 64 µm would be eaten: 40 µm are there, 0.625 of the event; 20 µm of char
    const still = runOf(specOf(lawOf({ ...slow, char: never })), [0, 0.2]);
    expect(still.left).toBe(0);
    expect(still.char).toBeCloseTo(20 * MICRO, 12);
    expect(still.ateAll).toBe(false);
    expect(still.open).toBe(0);
    expect(still.covered).toBeCloseTo(0.01 * column(30), 6);
  });

  it("warms the metal below it: the rest of an event as the root of its share, the next as a whole", () => {
    // 0.625 of the event eats; under 20 µm of char, between 12 and 40 µm
    const rise = 0.004 - (8 / 28) * 0.003;
    const shaded = specOf(lawOf({ ...slow, coveredRise: 1e-4, char: never }));
    expect(runOf(shaded, [0]).covered).toBeCloseTo(rise * Math.sqrt(0.375) * column(30), 6);
    expect(runOf(shaded, [0, 0]).covered).toBeCloseTo(rise * column(30), 6);
    expect(runOf(shaded, [0, 1]).covered).toBeCloseTo(rise * Math.sqrt(0.375) * column(30), 6);
  });

  it("that hardly goes is taken off for all events of a group at once", () => {
    // a thousandth of what counts as gone (1 µm) is 1 nm: 0.4 nm each, of two groups of five
    const group = specOf(lawOf({ ...slow, char: { ...never, gone: () => 0.4e-9 } }), { multiplicity: 5, pulseGap: 0 });
    expect(runOf(group, [0, 0]).char).toBeCloseTo(20 * MICRO - 10 * 0.4e-9, 14);
  });

  it("goes by its law at the light that is left of the event, and by all of the light of the next", () => {
    const asked: number[] = [];
    const burns: CharLaw = {
      ...never,
      gone: (row, c) => {
        asked.push(row, c);
        return (row + 1) * 1e-7 * c;
      },
    };
    const point = runOf(specOf(lawOf({ ...slow, char: burns })), [0, 0]);
    // rows 12 µm (1) and 40 µm (2): weight of the second 8/28; column 30 + ln(0.375)/0.16 = 23.87, then 30
    const first = 1e-7 * (30 + Math.log(0.375) / STEP) * (2 + 8 / 28);
    const left = 20 * MICRO - first;
    const second = 1e-7 * 30 * (2 + (left - 12 * MICRO) / (28 * MICRO));
    expect(point.char).toBeCloseTo(left - second, 12);
    expect([...new Set(asked)]).toContain(23);
  });

  it("less than the least of the law goes in its share", () => {
    const burns: CharLaw = { ...never, gone: () => 1 * MICRO };
    const thin = specOf(lawOf({ ...slow, char: burns }), { thickness: 6 * MICRO });
    // 6 of 64 µm: 3 µm of char, 0.75 of the least; goes 0.75 µm, then 0.5625 µm
    const one = runOf(thin, [0]);
    expect(one.char).toBeCloseTo(2.25 * MICRO, 12);
    expect(runOf(thin, [0, 0]).char).toBeCloseTo(1.6875 * MICRO, 12);
  });

  it("gone, leaves the metal as warm as under its thinnest: 0.008 over 0.02 of the light", () => {
    const burns: CharLaw = { ...never, gone: () => 30 * MICRO };
    const point = runOf(
      specOf(lawOf({ ...slow, char: { ...burns, gone: (_, c) => (c < 28 ? 0 : 30 * MICRO) } })),
      [0, 0],
    );
    expect(point.ateAll).toBe(true);
    expect(point.char).toBe(0);
    expect(point.eatenFirst).toBe(true);
    for (const v of point.after) expect(v).toBeCloseTo(0.4 * column(30), 6);
    const more = runOf(
      specOf(lawOf({ ...slow, char: { ...burns, gone: (_, c) => (c < 28 ? 0 : 30 * MICRO) } })),
      [0, 0, 0.1],
    );
    for (const v of more.after) expect(v).toBeCloseTo(column(30) * Math.exp(-0.2), 6);
  });
});

describe("groups of events", () => {
  const shared = fc.record({
    distances: fc.array(evenly(0, 2.9), { minLength: 1, maxLength: 8 }),
    multiplicity: fc.integer({ min: 2, max: 9 }),
    peak: evenly(12, 31),
    um: evenly(3, 60),
  });
  /** The same events one by one; no heat is lost between those of a group, nor between groups. */
  const bothWays = (spec: PointSpec, distances: readonly number[]) => {
    const one = distances.flatMap((d) => new Array<number>(spec.multiplicity).fill(d));
    return [runOf(spec, distances), runOf({ ...spec, multiplicity: 1 }, one)] as const;
  };
  const still = { pulseGap: 0, lineGap: 0 };

  it("eat, char and lift as so many single events do", () => {
    let [eaten, charred] = [0, 0];
    fc.assert(
      fc.property(shared, ({ distances, multiplicity, peak, um }) => {
        const rule: Rule = { ...eats, relaxation: 1e-3, reactionTime: 10e-6, chars: 1, lifts: column(36), steep: 2 };
        const quiet: CharLaw = {
          remaining: Float64Array.of(4 * MICRO, 12 * MICRO, 40 * MICRO),
          gone: () => 0,
          metalRise: Float64Array.of(0.008, 0.004, 0.001),
        };
        const law = lawOf({ ...rule, char: quiet });
        const [group, single] = bothWays(
          specOf(law, { fluence: column(peak), thickness: um * MICRO, multiplicity, ...still }),
          distances,
        );
        expect(group.left).toBeCloseTo(single.left, 11);
        expect(group.char).toBeCloseTo(single.char, 11);
        expect(group.best).toBeCloseTo(single.best, 9);
        expect(group.open).toBe(single.open);
        expect(group.strong).toBe(single.strong);
        if (group.left === 0) eaten++;
        if (group.char > 0 && group.left > 0) charred++;
      }),
      { numRuns: 300 },
    );
    for (const met of [eaten, charred]) expect(met).toBeGreaterThan(20);
  });

  it("leave the same light on bared metal and the same char as so many single events", () => {
    let [bare, charred, burnt] = [0, 0, 0];
    fc.assert(
      fc.property(
        shared,
        fc.boolean(),
        fc.integer({ min: 22, max: 40 }),
        ({ distances, multiplicity, peak, um }, chars, liftsAt) => {
          const burns: CharLaw = {
            remaining: Float64Array.of(4 * MICRO, 12 * MICRO, 40 * MICRO),
            gone: (_, c) => Math.max(0, c - 15) * 1e-7,
            metalRise: Float64Array.of(0.008, 0.004, 0.001),
          };
          const lifted = { lifts: column(liftsAt), steep: 1.5 };
          const slow = {
            ...eats,
            ...lifted,
            depth: 20 * MICRO,
            reactionTime: 10e-6,
            chars: 1,
            char: burns,
          };
          const law = lawOf(chars ? slow : { ...eats, ...lifted });
          const [group, single] = bothWays(
            specOf(law, {
              fluence: column(peak),
              thickness: um * MICRO,
              multiplicity,
              ...still,
            }),
            distances,
          );
          if (!single.letGo) expect(group.char).toBeCloseTo(single.char, 11);
          for (let k = 0; k < CLASS_COUNT; k++)
            expect(Math.abs(group.after[k]! - single.after[k]!)).toBeLessThan(1e-9 * (1 + single.after[k]!));
          if (single.after[0]! > 0) bare++;
          if (single.char > 0) charred++;
          if (chars && single.ateAll) burnt++;
        },
      ),
      { numRuns: 300 },
    );
    for (const met of [bare, charred, burnt]) expect(met).toBeGreaterThan(10);
  });
});
