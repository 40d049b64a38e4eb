import { allParticles, calibrate, damageShapes, referenceOf, removalShapes, shapeRow } from "#calibration";
import { createRandom, normalCdf } from "#numerics";
import type { DriftSpread } from "#terms";
import { type Chance, chanceAt, rayTruth, spreadOver, type TruthDraws, truthDraws } from "#window";
import { describe, expect, it } from "vitest";
import { inventedRays, ray } from "../calibration/synthetic.ts";

const SHIFTS = removalShapes.length + damageShapes.length;

/** One version of the truth without shifts, or with those given. */
const truths = (phi: readonly number[] = new Array<number>(SHIFTS).fill(0)): TruthDraws => ({
  kind: "pulsed",
  count: 1,
  draw: Int32Array.of(0),
  phi: Float64Array.from(phi),
  size: SHIFTS,
  damageAt: removalShapes.length,
});
const none: DriftSpread = { power: 0, spot: 0, speed: 0, thickness: 0 };
const chance = (): Chance => ({ clean: 0, undamaged: 0, both: 0 });
const slopes = {
  clean: { speed: 0.8, spot: 1.4, thickness: 0.6 },
  damage: { speed: 0.3, spot: 1.8, thickness: -0.1 },
};

/** Share of drifted patches that are clean, undamaged and both, patch by patch; edges move as straight lines. */
function byHand(drift: DriftSpread, clean: number, damage: number, x: number, seed: number, samples = 40_000) {
  const random = createRandom(seed);
  const counts = { clean: 0, undamaged: 0, both: 0 };
  for (let i = 0; i < samples; i++) {
    const power = x + drift.power * random.normal();
    const speed = drift.speed * random.normal();
    const spot = drift.spot * random.normal();
    const thickness = drift.thickness * random.normal();
    const move = (s: typeof slopes.clean) => s.speed * speed + s.spot * spot + s.thickness * thickness;
    const isClean = power >= clean + move(slopes.clean) + 0.02 * random.normal();
    const isWhole = power <= damage + move(slopes.damage) + 0.02 * random.normal();
    counts.clean += isClean ? 1 : 0;
    counts.undamaged += isWhole ? 1 : 0;
    counts.both += isClean && isWhole ? 1 : 0;
  }
  return { clean: counts.clean / samples, undamaged: counts.undamaged / samples, both: counts.both / samples };
}

describe("chances under drift", () => {
  // Four standard deviations of a share of 60,000.
  const noise = 4 * Math.sqrt(0.25 / 40_000);
  const drifts: readonly DriftSpread[] = [
    { power: 0.03, spot: 0.02, speed: 0.02, thickness: 0.05 },
    { power: 0.1, spot: 0, speed: 0, thickness: 0 },
    { power: 0.01, spot: 0.05, speed: 0.05, thickness: 0.1 },
  ];

  it.each(drifts)("are what patches that drift by hand come to; both is never called likelier: %o", (drift) => {
    const t = rayTruth(truths(), { ...ray({ clean: [-0.6], damage: [-0.4] }), slopes }, drift);
    const one = chance();
    for (const x of [-0.65, -0.55, -0.5, -0.45, -0.3]) {
      chanceAt(t, x, 0, one);
      const seen = byHand(drift, -0.6, -0.4, x, 3 + Math.round(100 * -x));
      expect(Math.abs(one.clean - seen.clean)).toBeLessThan(noise);
      expect(Math.abs(one.undamaged - seen.undamaged)).toBeLessThan(noise);
      expect(one.both).toBeLessThan(seen.both + noise);
    }
  });

  it("of both come near to the truth where power drifts most, and fall short where each edge has its own scatter", () => {
    const short = (drift: DriftSpread, clean: number, damage: number) => {
      const one = chance();
      chanceAt(rayTruth(truths(), { ...ray({ clean: [clean], damage: [damage] }), slopes }, drift), -0.5, 0, one);
      return byHand(drift, clean, damage, -0.5, 9).both - one.both;
    };
    expect(short(drifts[1]!, -0.6, -0.4)).toBeLessThan(0.01);
    // Φ(1)² − (2Φ(1) − 1) = 0.0252
    expect(Math.abs(short(none, -0.52, -0.48) - 0.0252)).toBeLessThan(noise);
  });

  it("have a floor of scatter from place to place where nothing drifts", () => {
    const t = rayTruth(truths(), ray({ clean: [-0.6], damage: [-0.4] }), none);
    expect(t.cleanDrift).toBeCloseTo(0.02, 12);
    const one = chance();
    chanceAt(t, -0.58, 0, one);
    expect(one.clean).toBeCloseTo(normalCdf(1), 5);
    expect(one.both).toBeCloseTo(normalCdf(1), 5);
  });
});

describe("edges of a ray in a version of the truth", () => {
  it("are those of the physics moved by every shift, at any power", () => {
    const random = createRandom(2);
    const phi = Array.from({ length: SHIFTS }, () => random.normal());
    const [one] = inventedRays(1, 1, 8);
    const t = rayTruth(truths(phi), one!, none);
    const from = referenceOf("pulsed");
    for (const x of [0, -0.3, -1.7]) {
      const moved = (shapes: typeof removalShapes, first: number) =>
        shapeRow(shapes, one!, x, 0, from).reduce((sum, w, k) => sum + w * phi[first + k]!, 0);
      expect(t.clean[0]! + t.cleanSlope[0]! * x).toBeCloseTo(one!.clean[0]! + moved(removalShapes, 0), 10);
      expect(t.damage[0]! + t.damageSlope[0]! * x).toBeCloseTo(
        one!.damage[0]! + moved(damageShapes, removalShapes.length),
        10,
      );
    }
  });

  it("come from all islands alike, and spread over their versions", () => {
    const rays = inventedRays(1, 20, 1);
    const posterior = calibrate({ kind: "pulsed", draws: 20, patches: [], seed: 1, particles: 400, islands: 2 });
    const taken = truthDraws(posterior, 100);
    expect(taken.count).toBe(100);
    const { size } = posterior.layout;
    const all = allParticles(posterior);
    const step = all.count / 100;
    expect(Number.isInteger(step)).toBe(true);
    // Even places, the middle of each hundredth of the list.
    const rows = Array.from({ length: 100 }, (_, s) => all.phi[Math.floor((s + 0.5) * step) * size]!);
    expect(Array.from({ length: 100 }, (_, s) => taken.phi[s * size])).toEqual(rows);
    expect(truthDraws(posterior, 99_999).count).toBe(all.count);
    const t = rayTruth(taken, rays[0]!, { power: 0.03, spot: 0, speed: 0, thickness: 0 });
    const { mean, low, high } = spreadOver(t, -0.5);
    expect(low).toBeLessThan(mean);
    expect(mean).toBeLessThan(high);
    const one = chance();
    let sum = 0;
    for (let s = 0; s < 100; s++) {
      chanceAt(t, -0.5, s, one);
      sum += one.both / 100;
    }
    expect(mean).toBeCloseTo(sum, 12);
  });
});
