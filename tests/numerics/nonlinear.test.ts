import { describe, expect, it } from "vitest";
import { createRandom, fitNonlinear, NumericalError } from "#numerics";
import { nistModels } from "./nist-models.ts";
import nist from "./nist-nonlinear.json";

interface NistSet {
  readonly starts: readonly (readonly number[])[];
  readonly parameters: readonly number[];
  readonly deviations: readonly number[];
  readonly sumOfSquares: number;
  readonly degreesOfFreedom: number;
  readonly rows: readonly (readonly number[])[];
}
const sets = nist as unknown as Readonly<Record<string, NistSet>>;

/** digits that agree, at most 15 */
const digits = (seen: ArrayLike<number>, certified: readonly number[]): number =>
  Math.min(...certified.map((value, i) => -Math.log10(Math.max(Math.abs(seen[i]! / value - 1), 1e-15))));

describe("nonlinear least squares against the NIST reference sets", () => {
  // BoxBOD, MGH09, MGH10 and MGH17 need a second start or third when begun at the first; all others take the one given.
  const cases = Object.keys(nistModels).flatMap((name) => [1, 2].map((start) => [name, start] as const));
  it("has every set from both starts", () => expect(cases.length).toBe(54));

  it.each(cases)("%s from start %d", (name, start) => {
    const set = sets[name]!;
    const model = nistModels[name]!;
    const fit = fitNonlinear({
      points: set.rows.length,
      start: set.starts[start - 1]!,
      starts: 25,
      residuals: (p, out) => {
        set.rows.forEach(([y, ...x], i) => {
          out[i] = model(p, x) - (name === "Nelson" ? Math.log(y!) : y!);
        });
      },
    });
    expect(digits(fit.parameters, set.parameters)).toBeGreaterThan(8.5);
    // Lanczos1 is exact to 13 digits: its residuals of 9e-14 are the rounding of the last figures of the data.
    expect(digits(fit.standardErrors, set.deviations)).toBeGreaterThan(name === "Lanczos1" ? 2.5 : 8);
    expect(digits([fit.sumOfSquares], [set.sumOfSquares])).toBeGreaterThan(name === "Lanczos1" ? 2.3 : 9.5);
    expect(fit.degreesOfFreedom).toBe(set.degreesOfFreedom);
    expect(fit.relativeOffset).toBeLessThan(name === "Lanczos1" ? 0.01 : 1e-6);
  });
});

describe("nonlinear least squares", () => {
  const xs = [0, 1, 2, 3, 4, 5];
  const decay = (truth: readonly number[], noise: number) => {
    const stream = createRandom(4);
    const ys = xs.map((x) => truth[0]! * Math.exp(-truth[1]! * x) + truth[2]! + noise * stream.normal());
    return (p: Float64Array, out: Float64Array): void => {
      xs.forEach((x, i) => {
        out[i] = p[0]! * Math.exp(-p[1]! * x) + p[2]! - ys[i]!;
      });
    };
  };

  it("takes a parameter through 0 when told at what size it matters", () => {
    const fit = fitNonlinear({ residuals: decay([3, 0.5, 0], 0), points: 6, start: [1, 1, 0], sizes: [1, 1, 1] });
    expect([...fit.parameters]).toEqual([3, 0.5, 0].map((x) => expect.closeTo(x, 9)));
    expect(fit.residualDeviation).toBeLessThan(1e-9);
  });

  it("is unchanged by the scale of a parameter, errors and covariance included", () => {
    const plain = fitNonlinear({ residuals: decay([3, 0.5, 0.4], 0.01), points: 6, start: [1, 1, 0.1] });
    const inner = decay([3, 0.5, 0.4], 0.01);
    const scaled = fitNonlinear({
      residuals: (p, out) => inner(Float64Array.of(p[0]! * 1e-6, p[1]! * 1e5, p[2]!), out),
      points: 6,
      start: [1e6, 1e-5, 0.1],
    });
    expect(scaled.parameters[0]! * 1e-6).toBeCloseTo(plain.parameters[0]!, 9);
    expect(scaled.standardErrors[1]! * 1e5).toBeCloseTo(plain.standardErrors[1]!, 8);
    expect(scaled.covariance[1]! * 1e-1).toBeCloseTo(plain.covariance[1]!, 9);
  });

  it("refuses too few points, residuals without a value and parameters without effect", () => {
    const residuals = decay([3, 0.5, 0], 0);
    expect(() => fitNonlinear({ residuals, points: 2, start: [1, 1, 1] })).toThrow("needs at least 3 points");
    expect(() => fitNonlinear({ residuals: (_p, out) => void out.fill(Number.NaN), points: 3, start: [1] })).toThrow(
      "no start led to finite residuals",
    );
    const idle = (p: Float64Array, out: Float64Array): void => {
      out[0] = p[0]! - 1;
      out[1] = p[0]! - 2;
    };
    expect(() => fitNonlinear({ residuals: idle, points: 2, start: [1, 1] })).toThrow(NumericalError);
  });
});
