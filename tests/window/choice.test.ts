import {
  choiceAt,
  choiceTable,
  chooseFastest,
  type Chance,
  chanceAt,
  levelOf,
  LEVELS,
  likeliest,
  littleGain,
  MEETS,
  nextPicks,
  rayTruth,
  type TruthDraws,
} from "#window";
import { damageShapes, removalShapes } from "#calibration";
import { createRandom } from "#numerics";
import { describe, expect, it } from "vitest";
import { inventedRays, ray } from "../calibration/synthetic.ts";
import { choice, noRepeats, table } from "./hand-made.ts";

const SHIFTS = removalShapes.length + damageShapes.length;
const drift = { power: 0.03, spot: 0.02, speed: 0.02, thickness: 0.05 };
const random = createRandom(6);
const truths: TruthDraws = {
  kind: "pulsed",
  count: 30,
  draw: Int32Array.from({ length: 30 }, (_, s) => s % 10),
  phi: Float64Array.from({ length: 30 * SHIFTS }, () => 0.5 * random.normal()),
  size: SHIFTS,
  damageAt: removalShapes.length,
};

describe("the table of choices", () => {
  it("counts the versions in which a setting meets the acceptance under drift", () => {
    const one = rayTruth(truths, inventedRays(1, 10, 4)[0]!, drift);
    const found = choiceAt(one, -0.5, 3);
    const c: Chance = { clean: 0, undamaged: 0, both: 0 };
    const seen = Array.from({ length: 30 }, (_, s) => {
      chanceAt(one, -0.5, s, c);
      return { ...c };
    });
    expect([...found.meets]).toEqual(seen.map((v) => (v.both >= MEETS ? 1 : 0)));
    expect(found.share).toBeCloseTo(seen.filter((v) => v.both >= MEETS).length / 30, 12);
    expect(found.share).toBeGreaterThan(0);
    expect(found.share).toBeLessThan(1);
    for (const key of ["clean", "undamaged", "both"] as const)
      expect(found[key]).toBeCloseTo(seen.reduce((sum, v) => sum + v[key], 0) / 30, 12);
    expect(found.setting.level).toBe(0.607); // exp(−0.5) to the tenth of a per cent
    expect(levelOf(one.ray, 0.607)).toBeCloseTo(-0.5, 2);
  });

  it("keeps of each ray what has a chance, and one setting of a ray without any", () => {
    const hopeless = ray({ clean: new Array(10).fill(3), damage: new Array(10).fill(-3) });
    const good = ray({ clean: new Array(10).fill(-1), damage: new Array(10).fill(-0.3) });
    const { choices, draws } = choiceTable(truths, [hopeless, good], drift);
    expect(draws).toBe(30);
    expect(choices.filter((c) => c.family === 0)).toHaveLength(1);
    const kept = choices.filter((c) => c.family === 1);
    expect(kept.length).toBeGreaterThan(5);
    expect(kept.length).toBeLessThan(LEVELS.length);
    for (const c of kept) expect(c.both).toBeGreaterThan(0.02);
  });
});

describe("the setting that is chosen", () => {
  const yes = [1, 1, 1, 1, 0];
  const sure = [1, 1, 1, 1, 1];
  const no = [1, 1, 1, 0, 0];

  it("is the fastest with the share asked for", () => {
    const list = [choice(1, sure), choice(3, yes), choice(9, no), choice(2, sure)];
    expect(chooseFastest(table(...list), 0.8, noRepeats)).toBe(list[1]);
    expect(chooseFastest(table(...[...list].reverse()), 0.8, noRepeats)).toBe(list[1]);
    expect(chooseFastest(table(...list), 0.95, noRepeats)).toBe(list[3]);
    expect(chooseFastest(table(...list), 0.5, noRepeats)).toBe(list[2]);
  });

  it("is the surer one of two within 2 % in rate, and not of two farther apart", () => {
    const fast = choice(1, yes);
    const close = choice(0.985, sure);
    const slower = choice(0.97, sure);
    expect(chooseFastest(table(fast, close), 0.8, noRepeats)).toBe(close);
    expect(chooseFastest(table(fast, slower), 0.8, noRepeats)).toBe(fast);
    // Steps of 2 % do not add up: what is compared is the fastest.
    expect(chooseFastest(table(fast, choice(0.985, yes), slower), 0.8, noRepeats)).toBe(fast);
    const likelier = choice(0.99, yes, { both: 0.9 });
    expect(chooseFastest(table(fast, likelier), 0.8, noRepeats)).toBe(likelier);
  });

  it("gives up a little rate for proof in hand, and for no proof with a failure in it", () => {
    const fast = choice(1, sure);
    const after = (rate: number, burned: number, good: number) => {
      const proven = choice(rate, sure);
      const picked = chooseFastest(table(fast, proven), 0.8, (s) =>
        s === proven.setting ? { burned, good } : noRepeats(),
      );
      return picked === proven;
    };
    // Worth 0.97·1.06 = 1.028, 0.93·1.12 = 1.042 and no more for a third; 0.85·1.12 = 0.952.
    expect([after(0.97, 1, 1), after(0.93, 2, 2), after(0.93, 5, 5)]).toEqual([true, true, true]);
    expect([after(0.85, 2, 2), after(0.85, 5, 5), after(0.93, 3, 2)]).toEqual([false, false, false]);
  });

  it("is none that failed half of its repeats", () => {
    const fast = choice(3, sure);
    const slow = choice(1, sure);
    const after = (burned: number, good: number) =>
      chooseFastest(table(fast, slow), 0.8, (s) => (s === fast.setting ? { burned, good } : noRepeats()));
    expect(after(2, 1)).toBe(slow);
    expect(after(1, 0)).toBe(slow);
    expect(after(3, 2)).toBe(fast);
    expect(after(1, 1)).toBe(fast);
  });

  it("is null where none meets it; the likeliest is there nevertheless", () => {
    const a = choice(3, no, { both: 0.3 });
    const b = choice(1, no, { both: 0.7 });
    expect(chooseFastest(table(a, b), 0.8, noRepeats)).toBeNull();
    expect(likeliest(table(a, b))).toBe(b);
    expect(likeliest({ draws: 0, choices: [] })).toBeNull();
    expect(chooseFastest({ draws: 0, choices: [] }, 0.8, noRepeats)).toBeNull();
  });
});

describe("the next patches", () => {
  const draws = 40;
  const list = Array.from({ length: 25 }, (_, i) =>
    choice(
      1 + i,
      Array.from({ length: draws }, () => (random.next() < 0.9 / (1 + 0.15 * i) ? 1 : 0)),
    ),
  );
  const all = table(...list);
  const base = { table: all, choice: null, repeats: noRepeats, patches: 0, burned: () => false };

  it("are those that improve most on what the batch has, one after the other", () => {
    const best = new Array<number>(draws).fill(0);
    const { picks, gain } = nextPicks({ ...base, n: 6 });
    expect(gain).toBeNull();
    expect(picks).toHaveLength(6);
    expect(new Set(picks.map((p) => p.choice)).size).toBe(6);
    picks.forEach((pick, k) => {
      const improvement = list.map((c) =>
        best.reduce((sum, b, s) => sum + Math.max(0, c.areaRate * c.meets[s]! - b) / draws, 0),
      );
      const most = Math.max(...improvement);
      expect(improvement[list.indexOf(pick.choice)]).toBeCloseTo(most, 12);
      const beaten = best.filter((b, s) => pick.choice.areaRate * pick.choice.meets[s]! > b).length / draws;
      expect(pick.share).toBeCloseTo(beaten, 12);
      expect(pick.why).toBe(k === 0 ? "first" : "faster");
      best.forEach((b, s) => {
        best[s] = Math.max(b, pick.choice.areaRate * pick.choice.meets[s]!);
      });
    });
  });

  it("state the gain that the next four would bring over the choice, as a share of its rate", () => {
    const chosen = list[3]!;
    const { gain } = nextPicks({ ...base, n: 2, choice: chosen });
    const best = [...chosen.meets].map((m) => m * chosen.areaRate);
    const start = best.reduce((a, b) => a + b, 0);
    for (let k = 0; k < 4; k++) {
      const improved = list.map((c) => best.map((b, s) => Math.max(b, c.areaRate * c.meets[s]!)));
      const sums = improved.map((row) => row.reduce((a, b) => a + b, 0));
      const pick = sums.indexOf(Math.max(...sums));
      best.splice(0, draws, ...improved[pick]!);
    }
    expect(gain).toBeCloseTo((best.reduce((a, b) => a + b, 0) - start) / draws / chosen.areaRate, 12);
    expect(gain!).toBeGreaterThan(littleGain(0));
  });

  it("ask less and less of a gain as patches are burned", () => {
    for (const [patches, gain] of [
      [0, 0.3],
      [20, 0.3],
      [28, 0.65],
      [36, 1],
      [99, 1],
    ] as const)
      expect(littleGain(patches)).toBeCloseTo(gain, 12);
    // A gain of a half: looked for at 24 patches, not at 36.
    const ones = new Array<number>(draws).fill(1);
    const chosen = choice(10, ones);
    const half = table(
      chosen,
      choice(
        20,
        ones.map((_, s) => s % 2),
      ),
    );
    const why = (patches: number) =>
      nextPicks({ ...base, table: half, choice: chosen, patches, n: 1, burned: (s) => s === chosen.setting }).picks[0]!
        .why;
    expect([why(24), why(36)]).toEqual(["faster", "repeat"]);
  });

  it("begin with repeats of the choice when little is left to gain, as many as it lacks", () => {
    const ones = new Array<number>(draws).fill(1);
    const chosen = choice(10, ones);
    const little = table(
      chosen,
      choice(
        11,
        ones.map((_, s) => s % 2),
      ),
      choice(5, ones),
    );
    const run = (n: number, good: number) =>
      nextPicks({
        table: little,
        patches: 12,
        n,
        choice: chosen,
        repeats: () => ({ burned: good, good }),
        burned: (s) => s === chosen.setting,
      });
    expect(run(4, 0).gain).toBeCloseTo(0.05, 12);
    expect(run(4, 0).picks.map((p) => p.why)).toEqual(["repeat", "repeat", "repeat", "faster"]);
    expect(run(2, 0).picks.map((p) => p.why)).toEqual(["repeat", "repeat"]);
    expect(run(2, 3).picks.map((p) => p.why)).toEqual(["faster", "likely"]);
    expect(run(3, 2).picks.map((p) => p.choice.areaRate)).toEqual([10, 11, 5]);
  });

  it("leave out what was burned, end where nothing is left, and spread where no version has hope", () => {
    const burned = nextPicks({ ...base, n: 25, burned: (s) => s !== list[4]!.setting });
    expect(burned.picks.map((p) => p.choice)).toEqual([list[4]]);
    expect(nextPicks({ ...base, n: 0 }).picks).toEqual([]);
    const never = new Array<number>(draws).fill(0);
    const a = choice(1, never, { both: 0.5, family: 1 });
    const b = choice(2, never, { both: 0.45, family: 1 });
    const c = choice(3, never, { both: 0.3, family: 2 });
    const hopeless = nextPicks({ ...base, table: table(a, b, c), n: 3 });
    expect(hopeless.picks.map((p) => p.choice)).toEqual([a, c, b]);
    expect(hopeless.picks.map((p) => p.why)).toEqual(["likely", "likely", "likely"]);
  });

  it("are not led by a setting that hardly any version backs, however fast", () => {
    const some = (n: number) => Array.from({ length: 100 }, (_, s) => (s < n ? 1 : 0));
    const plain = choice(10, some(90));
    const odd = choice(5000, some(5));
    const rare = choice(400, some(6));
    const run = (fast: typeof odd) => nextPicks({ ...base, table: table(plain, fast), choice: plain, n: 1 });
    // Five of a hundred would gain 250 times the rate by the sums alone.
    expect(run(odd).gain).toBe(0);
    expect(run(rare).gain).toBeCloseTo((0.06 * (400 - 10)) / 10, 12);
  });

  it("prove a choice that was never burned while others are tried", () => {
    const half = Array.from({ length: draws }, (_, s) => s % 2);
    const chosen = choice(10, new Array<number>(draws).fill(1));
    const faster = choice(30, half);
    const run = (good: number, n: number) =>
      nextPicks({
        ...base,
        table: table(chosen, faster, choice(31, half)),
        choice: chosen,
        n,
        repeats: () => ({ burned: good, good }),
      }).picks.map((p) => p.why);
    expect(run(0, 2)).toEqual(["repeat", "faster"]);
    expect(run(1, 2)[0]).toBe("faster");
    // One patch alone looks for what is faster.
    expect(run(0, 1)).toEqual(["faster"]);
  });
});
