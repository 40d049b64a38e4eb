import { describe, expect, it } from "vitest";
import { createRandom, mean, quantile } from "#numerics";
import { bareScatter, detectionLimit, innerView, referenceOf, referenceOfColour, residueOf, unmix } from "#grading";
import { drawCase } from "./simulated/case.ts";
import { fakePatch, pairs } from "./simulated/patch.ts";

const read = (seed: number, i: number) => {
  const drawn = drawCase(createRandom(seed + i), i);
  const [bare, coat] = [referenceOf(drawn.bare), referenceOf(drawn.coat)];
  const scatter = bareScatter(bare, coat);
  const residue = residueOf(unmix(innerView(drawn.patch), bare, coat), scatter);
  return { ...drawn, residue, off: residue.value - drawn.share };
};
const cases = Array.from({ length: 200 }, (_, i) => read(52_000, i));
const share = (list: typeof cases, test: (c: (typeof cases)[number]) => boolean) =>
  mean(list.map((c) => (test(c) ? 1 : 0)));

describe("residue of simulated patches, whose islands, mottle, haze and melt the reader knows nothing of", () => {
  it("is off by less than 0.02 in the mean, and by less than 0.07 in 95 of 100", () => {
    const off = cases.map((c) => Math.abs(c.off));
    expect(mean(off)).toBeLessThan(0.02);
    expect(quantile(off, 0.95)).toBeLessThan(0.07);
    // residue that thins out reads as less of it
    expect(Math.abs(mean(cases.map((c) => c.off)))).toBeLessThan(0.015);
  });

  it("states 90 % intervals that hold the truth in 0.86 to 0.95", () => {
    const covered = share(cases, (c) => Math.abs(c.off) <= 1.645 * c.residue.uncertainty);
    expect(covered).toBeGreaterThanOrEqual(0.86);
    expect(covered).toBeLessThanOrEqual(0.95);
  });

  it("reads clean patches below the detection limit, islands above it as something", () => {
    const clean = cases.filter((c) => c.share === 0);
    expect(clean.length).toBeGreaterThan(25);
    expect(share(clean, (c) => c.residue.value < c.residue.detectionLimit)).toBeGreaterThanOrEqual(0.95);
    const dirty = cases.filter((c) => c.share > 2 * c.residue.detectionLimit);
    expect(share(dirty, (c) => c.residue.value > c.residue.detectionLimit)).toBeGreaterThanOrEqual(0.95);
  });

  it("reads untouched patches as covered, which a shift to the patch's own cleanest spot alone would not", () => {
    const full = cases.filter((c) => c.share === 1);
    expect(full.length).toBeGreaterThan(8);
    for (const { residue } of full) expect(residue.value).toBeGreaterThan(0.95);
  });

  it("says by its gap that haze or a tint is spread evenly, and widens the uncertainty", () => {
    const random = createRandom(4);
    const of = (haze: number) => {
      const face = { ...pairs[0], size: 10, share: 0.3 };
      const [bare, coat] = [0, 1].map((s) => referenceOf(fakePatch({ ...face, share: s }, random).view));
      const { view } = fakePatch({ ...face, haze }, random);
      return residueOf(unmix(innerView(view), bare!, coat!), bareScatter(bare!, coat!));
    };
    const [clear, hazy] = [of(0), of(0.2)];
    expect(hazy.unmixed - hazy.contrast).toBeGreaterThan(0.08);
    expect(Math.abs(clear.unmixed - clear.contrast)).toBeLessThan(0.03);
    expect(Math.abs(hazy.value - 0.3)).toBeLessThan(0.05);
  });
});

describe("unmixing", () => {
  const bare = referenceOfColour([0.5, 0.5, 0.5]);
  const coat = referenceOfColour([0.1, 0.2, 0.3]);

  it("puts mixed areas at their share, whatever the metric", () => {
    for (const s of [-0.2, 0, 0.25, 0.5, 1, 1.1]) {
      const rgb = Float32Array.from([0, 1, 2], (c) => (1 - s) * bare.rgb[c]! + s * coat.rgb[c]!);
      const view = { width: 1, height: 1, rgb, pixelsPerMm: 5, margin: 0, blur: 0 };
      expect(unmix(view, bare, coat)[0]).toBeCloseTo(s, 5);
    }
  });

  it("holds shaded metal apart from coloured coat better than a plain projection would", () => {
    const shaded = Float32Array.from(bare.rgb, (v) => 0.8 * v);
    const view = { width: 1, height: 1, rgb: shaded, pixelsPerMm: 5, margin: 0, blur: 0 };
    const apart = bare.rgb.map((v, c) => coat.rgb[c]! - v);
    const plain =
      apart.reduce((sum, d, c) => sum + d * (shaded[c]! - bare.rgb[c]!), 0) / apart.reduce((s, d) => s + d * d, 0);
    expect(Math.abs(unmix(view, bare, coat)[0]!)).toBeLessThan(0.75 * plain);
  });

  it("knows half and half by area, and a gap of nothing", () => {
    const u = Float32Array.from({ length: 100 }, (_, i) => (i % 2 === 0 ? 0 : 1));
    const residue = residueOf(u, 0);
    expect(residue).toMatchObject({ value: 0.5, coverage: 0.5, contrast: 0.5, unmixed: 0.5, gap: 0 });
    expect(residue.uncertainty).toBeCloseTo(Math.hypot(0.018, 0.006), 12);
  });

  it("detects 2 % on smooth metal, 5 % at worst", () => {
    expect(detectionLimit(0)).toBe(0.02);
    expect(detectionLimit(0.05)).toBeCloseTo(0.03, 12);
    expect(detectionLimit(0.05, 0.025)).toBeCloseTo(0.04, 12);
    expect(detectionLimit(0.4)).toBe(0.05);
    expect(() => detectionLimit(-1)).toThrow("invalid scatter of bare metal: -1");
  });
});
