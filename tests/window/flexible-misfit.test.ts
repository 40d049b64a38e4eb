import { describe, expect, it } from "vitest";
import { misfitCheck } from "#window";
import { createRandom, normalCdf } from "#numerics";

/** A made-up trial of 48 patches over two settings; physics that is right, or blind to a hump over the second. */
function trial(seed: number, patches: number, hump: number) {
  const stream = createRandom(seed);
  const rows = Array.from({ length: patches }, () => [stream.normal(), stream.normal()]);
  const physics = rows.map(([x]) => normalCdf(0.4 + 1.5 * x!));
  const truth = rows.map(([x, y]) => normalCdf(0.4 + 1.5 * x! - hump * Math.max(0, y! - 0.3)));
  return {
    rows,
    seen: truth.map((p) => stream.next() < p),
    modelProbabilities: physics,
    names: ["fluence", "overlap"],
    verdict: "clean",
  };
}

describe("misfit check by a flexible model", () => {
  it("says nothing against physics that is right, in all but a few of 60 trials", () => {
    let loud = 0;
    for (let seed = 0; seed < 60; seed++) if (misfitCheck(trial(seed, 32, 0)).missed) loud++;
    expect(loud / 60).toBeLessThan(0.06);
  });

  it("finds what the physics is blind to, and says where", () => {
    let heard = 0;
    let placed = 0;
    for (let seed = 0; seed < 40; seed++) {
      const found = misfitCheck(trial(seed, 48, 4));
      if (found.missed) heard++;
      if (found.missed && found.words.includes("high overlap")) placed++;
    }
    expect(heard / 40).toBeGreaterThan(0.8);
    expect(placed / heard).toBeGreaterThan(0.8);
    const found = misfitCheck(trial(1, 48, 4));
    expect(found.words).toMatch(/^A flexible model that knows no physics predicts the held-out patches better/);
    expect(found.suspects.length).toBeGreaterThan(0);
    for (const s of found.suspects) {
      expect(s.seen ? s.model : 1 - s.model).toBeLessThan(0.3);
      expect(s.seen ? s.flexible : 1 - s.flexible).toBeGreaterThan(0.5);
    }
  });

  it("keeps quiet on few patches, and one wrong grade does not decide", () => {
    const few = misfitCheck(trial(1, 8, 4));
    expect(few.missed).toBe(false);
    expect(few.words).toContain("Fewer than 12 patches");
    const sure = trial(3, 30, 0);
    const modelProbabilities = sure.seen.map((yes, i) => (i === 0 ? (yes ? 0 : 1) : yes ? 0.98 : 0.02));
    const one = misfitCheck({ ...sure, modelProbabilities });
    expect(one.missed).toBe(false);
    expect(Number.isFinite(one.modelScore)).toBe(true);
  });

  it("refuses what does not fit together", () => {
    const sound = trial(1, 12, 0);
    expect(() => misfitCheck({ ...sound, modelProbabilities: [0.5] })).toThrow("invalid model probabilities: 1");
    expect(() => misfitCheck({ ...sound, modelProbabilities: sound.seen.map(() => 1.5) })).toThrow(
      "invalid model probability: 1.5",
    );
  });
});
