import { type PatchEvidence, quickNormal, referenceOf, type ShiftShape, shiftShapes } from "#calibration";
import { createRandom, normalCdf } from "#numerics";
import { describe, expect, it } from "vitest";
import { classChances, logLikelihood } from "../../src/calibration/likelihood.ts";
import { plainLogLikelihood } from "./plain-likelihood.ts";
import { inventedRays, patch, problemFor, ray } from "./synthetic.ts";

// The lead may tune spreads: they are read here, their places and shapes are typed in anew in the plain form.
const spreads = {
  removal: shiftShapes.filter((s) => s.edge === "removal").map((s) => s.spread),
  damage: shiftShapes.filter((s) => s.edge === "damage").map((s) => s.spread),
};

const isRest = (s: ShiftShape) => s.rest === true;
const restOf = (p: PatchEvidence) => {
  const values = (edge: string) =>
    shiftShapes
      .filter((s) => s.edge === edge && isRest(s))
      .map((s) => s.shape(p.ray, p.x, p.thickness, referenceOf("pulsed")));
  return { removal: values("removal"), damage: values("damage") };
};

describe("the quick normal", () => {
  it("stays within 1e-6 of Φ between its points, in the tails and beyond", () => {
    let worst = 0;
    for (let z = -9; z <= 9; z += 0.00137) worst = Math.max(worst, Math.abs(quickNormal(z) - normalCdf(z)));
    expect(worst).toBeLessThan(1e-6);
    expect(worst).toBeGreaterThan(1e-8);
    for (const z of [-Infinity, -6.5, 6.5, 6.4999999, 1e9, Infinity])
      expect(Math.abs(quickNormal(z) - normalCdf(z))).toBeLessThan(1e-9);
  });

  it("never falls", () => {
    let before = 0;
    for (let z = -7; z <= 7; z += 0.0011) {
      expect(quickNormal(z)).toBeGreaterThanOrEqual(before);
      before = quickNormal(z);
    }
  });
});

const rays = inventedRays(5, 4, 3);
const random = createRandom(12);
const share = (): [number, number, number] => {
  const w = [random.next(), random.next(), random.next()] as const;
  const sum = w[0] + w[1] + w[2];
  return [w[0] / sum, w[1] / sum, w[2] / sum];
};
const patches: PatchEvidence[] = Array.from({ length: 24 }, (_, i) =>
  patch(i, rays[i % 5]!, -1.2 * random.next(), {
    coupon: i % 3,
    grader: i % 2,
    thickness: i % 4 === 0 ? 0.2 * random.normal() : 0,
    residue: i % 7 === 0 ? null : share(),
    metal: i % 5 === 0 ? null : share(),
  }),
);
const problem = problemFor(patches, 4);
const { size } = problem.layout;

describe("the likelihood", () => {
  it("gives classes that add up to 1, cleaner and more harmed with every step of power", () => {
    const six = new Float64Array(6);
    const phi = Float64Array.from({ length: size }, () => random.normal());
    // Shapes that go with power as well would tilt the edge: here the rest alone is asked.
    const steps = Array.from({ length: 40 }, (_, k) => patch(k, ray({ clean: [-0.8], damage: [-0.4] }), -2 + 0.05 * k));
    shiftShapes.forEach((s, k) => {
      if (/dose|power/.test(s.name)) phi[k] = 0;
    });
    const along = problemFor(steps, 1);
    let clean = -1;
    let whole = 2;
    steps.forEach((_, i) => {
      classChances(along, i, 0, phi, 0, six);
      expect(six[0]! + six[1]! + six[2]!).toBeCloseTo(1, 12);
      expect(six[3]! + six[4]! + six[5]!).toBeCloseTo(1, 12);
      expect(Math.min(...six)).toBeGreaterThanOrEqual(0);
      expect(six[0]!).toBeGreaterThanOrEqual(clean);
      expect(six[3]!).toBeLessThanOrEqual(whole);
      clean = six[0]!;
      whole = six[3]!;
    });
    expect(clean).toBeGreaterThan(0.95);
    expect(whole).toBeLessThan(0.05);
  });

  it("is what a plain re-computation gives, plates and graders included", () => {
    let worst = 0;
    for (let round = 0; round < 200; round++) {
      const phi = Float64Array.from({ length: 2 * size }, () => random.normal());
      const draw = round % 4;
      const plain = plainLogLikelihood(patches, draw, phi.subarray(size), 3, 2, spreads, restOf);
      worst = Math.max(worst, Math.abs(logLikelihood(problem, draw, phi, size) - plain));
    }
    // 48 readings, each chance within 1e-6 and above lapse/3, about 0.004: far below 0.01 together.
    expect(worst).toBeLessThan(1e-3);
    expect(worst).toBeGreaterThan(0);
  });

  it("adds up over parts of the list", () => {
    const phi = Float64Array.from({ length: size }, () => random.normal());
    const whole = logLikelihood(problem, 1, phi, 0);
    const parts = logLikelihood(problem, 1, phi, 0, 0, 10) + logLikelihood(problem, 1, phi, 0, 10);
    expect(parts).toBeCloseTo(whole, 10);
  });

  it("has every shape but the level at 0 in the middle of what is used", () => {
    for (const kind of ["pulsed", "continuous"] as const) {
      const from = referenceOf(kind);
      const middle = ray({ clean: [0], damage: [0] }, { ...from, passes: 0 });
      const values = shiftShapes.filter((s) => !isRest(s)).map((s) => s.shape(middle, 0, 0, from));
      expect(values.filter((v) => v !== 0)).toEqual([1, 1]);
    }
  });
});

describe("the rest without a law", () => {
  const from = referenceOf("pulsed");
  const rest = shiftShapes.filter(isRest);
  const at = (groups: Parameters<typeof ray>[1], of: typeof rest) => {
    const made = ray({ clean: [0], damage: [0] }, groups);
    return of.map((s) => s.spread * s.shape(made, 0, 0, from));
  };

  it.each(["removal", "damage"] as const)("spreads the %s edge by about 0.1 and no more than its waves can", (edge) => {
    const own = rest.filter((s) => s.edge === edge);
    expect(own).toHaveLength(5);
    let squares = 0;
    const wander = createRandom(8);
    for (let k = 0; k < 4000; k++) {
      const groups = {
        time: from.time + 3 * wander.normal(),
        count: from.count + 3 * wander.normal(),
        spot: from.spot + wander.normal(),
      };
      const variance = at(groups, own).reduce((sum, v) => sum + v * v, 0);
      expect(variance).toBeLessThan(2 * 0.1 ** 2 + 1e-12);
      squares += variance / 4000;
    }
    expect(Math.sqrt(squares)).toBeGreaterThan(0.095);
    expect(Math.sqrt(squares)).toBeLessThan(0.105);
  });

  it("hardly moves between settings that are much the same, and does between others", () => {
    const apart = (step: number) => {
      const a = at({}, rest);
      const b = at({ count: Math.log(10) + step, spacing: Math.log(0.4) + step }, rest);
      return Math.sqrt(a.reduce((sum, v, k) => sum + (v - b[k]!) ** 2, 0));
    };
    expect(apart(0.02)).toBeLessThan(0.02);
    expect(apart(2)).toBeGreaterThan(0.1);
  });
});
