import { describe, expect, it } from "vitest";
import { createRandom, mean, quantile } from "#numerics";
import {
  type BarePart,
  barePart,
  edgeRaggedness,
  innerView,
  meltOf,
  meltRise,
  type PatchView,
  referenceOfColour,
  streaksOf,
  tintOf,
  unmix,
} from "#grading";
import { type FakePatch, fakePatch, pairs } from "./simulated/patch.ts";

const rgb = (colour: readonly number[]) => colour as unknown as readonly [number, number, number];
const placesOf = (view: PatchView, pair: number) =>
  unmix(view, referenceOfColour(rgb(pairs[pair]!.bare)), referenceOfColour(rgb(pairs[pair]!.coat)));
const shown = (pair: number, fake: Partial<FakePatch>, seed: number) =>
  fakePatch({ ...pairs[pair]!, share: 0, ...fake }, createRandom(seed)).view;
const bareOf = (view: PatchView, pair: number): BarePart => {
  const inner = innerView(view);
  return barePart(inner, placesOf(inner, pair))!;
};

describe("melt", () => {
  it("tells melted from unmelted patches by the glint of their bare part (area under the curve above 0.9)", () => {
    const rises = Array.from({ length: 36 }, (_, i) => {
      const brushed = 0.03 + 0.002 * i;
      const face = { size: 8, pixelsPerMm: 5, brushed };
      const reference = meltOf(bareOf(shown(i % 6, face, 7000 + i), i % 6)).index.value;
      const melted = i % 2 === 0 ? 0 : 0.03 + 0.003 * i;
      const part = bareOf(shown(i % 6, { ...face, share: (i % 5) / 15, melted, glint: 0.4 }, 8000 + i), i % 6);
      const melt = meltOf(part, reference);
      return { rise: melt.index.value - reference, melted, bright: melt.brightShare };
    });
    let above = 0;
    const [no, yes] = [rises.filter((r) => r.melted === 0), rises.filter((r) => r.melted > 0)];
    for (const a of yes) for (const b of no) above += a.rise > b.rise ? 1 : 0;
    expect(above / (yes.length * no.length)).toBeGreaterThan(0.9);
    expect(Math.max(...no.map((r) => r.bright))).toBeLessThan(0.01);
  });

  it("is (Q99.5 − Q50)/Q50, with the scatter between parts as its uncertainty", () => {
    const even = Float32Array.from({ length: 101 }, (_, i) => 1 + i / 100);
    const part: BarePart = { share: 1, luminance: Array.from({ length: 9 }, () => even), sums: [] };
    const melt = meltOf(part);
    expect(melt.index.value).toBeCloseTo((quantile(even, 0.995) - 1.5) / 1.5, 2);
    expect(melt.index.uncertainty).toBeLessThan(0.005);
    const uneven = meltOf({ ...part, luminance: part.luminance.map((l, i) => (i === 4 ? l.map((v) => 2 * v) : l)) });
    expect(uneven.index.uncertainty).toBeGreaterThan(0.1);
  });

  it("rises over half of the metal's own texture, the reference's or the patch's, whichever is more", () => {
    const melt = { index: { value: 0.3, uncertainty: 0.01 }, below: 0.1, brightShare: 0.02 };
    expect(meltRise(melt, 0.04)).toBeCloseTo(0.25, 12);
    expect(meltRise(melt, 0.2)).toBeCloseTo(0.2, 12);
  });
});

describe("tint", () => {
  const bare = referenceOfColour(rgb(pairs[0].bare));
  const coat = referenceOfColour(rgb(pairs[0].coat));
  const tinted = (tint: readonly number[], seed: number) =>
    tintOf(bareOf(shown(0, { size: 8, share: 0.2, tint }, seed), 0), bare, coat);

  it("is nothing on metal as it was, and straw where blue was lost", () => {
    const none = Array.from({ length: 8 }, (_, i) => tinted([1, 1, 1], i));
    expect(mean(none.map((t) => t.difference.value))).toBeLessThan(0.8);
    for (const t of none) expect(t.discoloured).toBeLessThan(0.05);
    const straw = tinted([1, 0.95, 0.8], 3);
    expect(straw.difference.value).toBeGreaterThan(4);
    expect(straw.discoloured).toBeGreaterThan(0.9);
    expect(straw.lab.b - bare.lab.b).toBeGreaterThan(4);
  });

  it("says that evenly darkened metal went towards a dark coat, where a thin film would look the same", () => {
    expect(tinted([0.8, 0.8, 0.8], 5).towardsCoat).toBeGreaterThan(0.95);
    expect(tinted([1, 0.97, 0.75], 5).towardsCoat).toBeLessThan(0.5);
  });

  it("has no bare part to speak of where all is coat", () => {
    const inner = innerView(shown(0, { share: 1, size: 8 }, 4));
    expect(barePart(inner, placesOf(inner, 0))).toBeNull();
  });
});

describe("outline", () => {
  const raggedness = (pair: number, ragged: number, seed: number) => {
    const view = shown(pair, { size: 10, around: 1.2, ragged, blur: 0.1 }, seed);
    return edgeRaggedness(view, placesOf(view, pair));
  };

  it("is told to 0.03 mm, blur and all", () => {
    for (const ragged of [0.02, 0.08, 0.15]) {
      const read = [0, 1, 2, 3, 4, 5].map((pair) => raggedness(pair, ragged, 10 + pair)!.value);
      // the simulated outline has a spread of 0.84 of the figure it is asked for; blur takes a little more
      expect(Math.abs(mean(read) - 0.84 * ragged)).toBeLessThan(0.03);
    }
  });

  it("is not told without a margin or without an outline", () => {
    const cut = shown(0, { size: 8 }, 3);
    expect(edgeRaggedness(cut, placesOf(cut, 0))).toBeNull();
    const untouched = shown(0, { size: 8, around: 1.2, share: 1 }, 3);
    expect(edgeRaggedness(untouched, placesOf(untouched, 0))).toBeNull();
  });
});

describe("streaks", () => {
  const read = (pair: number, fake: Partial<FakePatch>, seed: number) => {
    const view = innerView(shown(pair, { size: 12, blur: 0.08, ...fake }, seed));
    return streaksOf(view, placesOf(view, pair));
  };

  it("gives their period, strength and direction with honest uncertainties", () => {
    let [found, near, strong] = [0, 0, 0];
    const all = [0.45, 0.7, 1, 1.6].flatMap((period) => [0, 1, 2, 3, 4, 5].map((pair) => ({ period, pair })));
    for (const { period, pair } of all) {
      const askew = 0.02 * (pair - 2.5);
      const angle = (pair % 2 ? Math.PI / 2 : 0) + askew;
      const stripes = { period, strength: 0.1, angle };
      const s = read(pair, { pixelsPerMm: period < 0.7 ? 9 : 6, share: 0.02 * pair, stripes }, 40 + pair);
      if (!s.found) continue;
      found += 1;
      if (Math.abs(s.period.value - period) < 2 * s.period.uncertainty) near += 1;
      if (Math.abs(s.strength.value - 0.1) < 0.03) strong += 1;
      expect(s.period.uncertainty).toBeLessThan(0.05 * period);
      // the simulated angle turns with the rows, which run downwards; the reading's with y, which runs up
      const turn = Math.abs(s.angle + angle) % Math.PI;
      expect(Math.min(turn, Math.PI - turn)).toBeLessThan(0.03);
    }
    expect(found).toBeGreaterThanOrEqual(21);
    expect(near).toBeGreaterThanOrEqual(0.9 * found);
    expect(strong).toBeGreaterThanOrEqual(0.85 * found);
  });

  it("raises few false alarms on mottle, islands, brushed metal and melt, and states their rate", () => {
    const alarms = Array.from({ length: 60 }, (_, i) =>
      read(i % 6, { size: 10, share: (i % 4) / 6, mottle: 0.15, brushed: 0.06, melted: i % 5 ? 0 : 0.1 }, 300 + i),
    ).map((s) => s.falseAlarm);
    expect(alarms.filter((p) => p < 0.01).length).toBeLessThanOrEqual(2);
    // were the rate overstated, hardly any would be low
    expect(alarms.filter((p) => p < 0.5).length).toBeGreaterThanOrEqual(8);
    expect(alarms.filter((p) => p < 0.5).length).toBeLessThan(45);
  });

  it("says which periods a photograph cannot tell", () => {
    expect(read(0, { pixelsPerMm: 6, blur: 0.02 }, 3).finest).toBeCloseTo(4 / 6, 6);
    expect(read(0, { pixelsPerMm: 12, blur: 0.3 }, 3).finest).toBeGreaterThan(1);
    expect(() => streaksOf(innerView(shown(0, { size: 6, pixelsPerMm: 5 }, 3)))).toThrow("invalid patch: 20 × 20 px");
  });
});
