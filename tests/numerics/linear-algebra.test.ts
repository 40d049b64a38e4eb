import { describe, expect, it } from "vitest";
import {
  adjugate3,
  cholesky,
  choleskyInverse,
  choleskyLogDeterminant,
  createRandom,
  dot,
  fromRows,
  identity,
  type Matrix3,
  multiply,
  multiplyVector,
  NumericalError,
  qrSolve,
  solveCholesky,
  solveLower,
  solveLowerTransposed,
  solveTridiagonal,
  symmetricEigen,
  transpose,
} from "#numerics";
import nist from "./nist-linear.json";

const furthest = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  expect(a.length).toBe(b.length);
  return Math.max(...Array.from(a, (x, i) => Math.abs(x - b[i]!)));
};

function randomMatrix(m: number, n: number, seed: number): Float64Array {
  const stream = createRandom(seed);
  return Float64Array.from({ length: m * n }, () => stream.normal());
}

function positiveDefinite(n: number, seed: number): Float64Array {
  const b = randomMatrix(n, n + 3, seed);
  return multiply(b, transpose(b, n, n + 3), n, n + 3, n);
}

describe("matrices", () => {
  it("multiply and transpose", () => {
    const a = fromRows([
      [1, 2, 3],
      [4, 5, 6],
    ]);
    expect([...multiply(a, transpose(a, 2, 3), 2, 3, 2)]).toEqual([14, 32, 32, 77]);
    expect([...multiplyVector(a, [1, 0, -1], 2, 3)]).toEqual([-2, -2]);
    expect(dot([1, 2], [3, 4])).toBe(11);
    expect(() => fromRows([[1], [1, 2]])).toThrow(NumericalError);
    expect(() => multiply(a, a, 2, 3, 2)).not.toThrow();
    expect(() => multiply(a, a, 2, 3, 3)).toThrow(NumericalError);
    expect(() => dot([1], [1, 2])).toThrow(NumericalError);
  });
});

describe("Cholesky", () => {
  it("factors a worked matrix", () => {
    const l = cholesky(
      fromRows([
        [4, 12, -16],
        [12, 37, -43],
        [-16, -43, 98],
      ]),
      3,
    );
    expect([...l]).toEqual([2, 0, 0, 6, 1, 0, -8, 5, 3]);
    expect(choleskyLogDeterminant(l, 3)).toBeCloseTo(Math.log(36), 14);
  });

  it("solves and inverts", () => {
    const n = 12;
    const a = positiveDefinite(n, 4);
    const l = cholesky(a, n);
    const x = Float64Array.from({ length: n }, (_, i) => i - 3);
    const b = multiplyVector(a, x, n, n);
    expect(furthest(solveCholesky(l, n, b), x)).toBeLessThan(1e-10);
    expect(furthest(solveLowerTransposed(l, n, solveLower(l, n, b)), x)).toBeLessThan(1e-10);
    expect(furthest(multiply(a, choleskyInverse(l, n), n, n, n), identity(n))).toBeLessThan(1e-10);
  });

  it("says which row fails on a matrix that is not positive definite", () => {
    expect(() =>
      cholesky(
        fromRows([
          [1, 2],
          [2, 1],
        ]),
        2,
      ),
    ).toThrow(/not positive definite \(row 2 of 2/);
    expect(() =>
      cholesky(
        fromRows([
          [1, 1],
          [1, 1],
        ]),
        2,
      ),
    ).toThrow(/not positive definite/);
    expect(() =>
      cholesky(
        fromRows([
          [Number.NaN, 0],
          [0, 1],
        ]),
        2,
      ),
    ).toThrow(NumericalError);
    expect(() => cholesky(new Float64Array(3), 2)).toThrow(NumericalError);
  });
});

describe("least squares against the NIST reference sets", () => {
  /** 1, x … x^degree, each rounded once from the decimal fraction: Filip feels every rounding of its powers. */
  const powers = (x: number, degree: number): number[] => {
    const whole = BigInt(Math.round(x * 1e9));
    return Array.from({ length: degree + 1 }, (_, k) => Number(whole ** BigInt(k)) / 10 ** (9 * k));
  };
  /** digits that agree, at most 15 */
  const digits = (seen: ArrayLike<number>, certified: readonly number[]): number =>
    Math.min(...certified.map((value, i) => -Math.log10(Math.max(Math.abs(seen[i]! / value - 1), 1e-15))));

  /** set, digits of the coefficients, digits of their deviations: measured, rounded down */
  it.each([
    ["Norris", 13, 13],
    ["Pontius", 13, 13],
    ["NoInt1", 14, 14],
    ["NoInt2", 14, 14],
    ["Filip", 7.5, 7],
    ["Longley", 10.9, 12],
    ["Wampler3", 9.5, 13],
    ["Wampler4", 7.5, 13],
    ["Wampler5", 5.5, 13],
  ] as const)("%s to %d digits", (name, wanted, wantedDeviations) => {
    const set = nist[name];
    const rows = set.x.map((row) =>
      set.kind === "poly" ? powers(row[0]!, set.degree) : set.kind === "noint" ? row : [1, ...row],
    );
    const fit = qrSolve(fromRows(rows), rows.length, rows[0]!.length, set.y);
    expect(digits(fit.coefficients, set.coefficients)).toBeGreaterThan(wanted);
    expect(digits(fit.standardErrors, set.deviations)).toBeGreaterThan(wantedDeviations);
  });

  it.each([
    ["Wampler1", 9],
    ["Wampler2", 12],
  ] as const)("%s, an exact fit", (name, wanted) => {
    const set = nist[name];
    const rows = set.x.map((row) => powers(row[0]!, set.degree));
    const fit = qrSolve(fromRows(rows), rows.length, 6, set.y);
    expect(digits(fit.coefficients, set.coefficients)).toBeGreaterThan(wanted);
    expect(fit.residualDeviation).toBeLessThan(1e-7);
  });

  it("gives residuals that are orthogonal to the columns, and the covariance", () => {
    const a = randomMatrix(20, 4, 2);
    const y = randomMatrix(20, 1, 3);
    const fit = qrSolve(a, 20, 4, y);
    expect(furthest(multiplyVector(transpose(a, 20, 4), fit.residuals, 4, 20), new Float64Array(4))).toBeLessThan(
      1e-12,
    );
    const normal = multiply(transpose(a, 20, 4), a, 4, 20, 4);
    expect(furthest(multiply(normal, fit.unscaledCovariance, 4, 4, 4), identity(4))).toBeLessThan(1e-12);
    expect(fit.degreesOfFreedom).toBe(16);
    expect(qrSolve(fromRows([[2]]), 1, 1, [6]).coefficients[0]).toBe(3);
  });

  it("refuses dependent columns and shapes that do not fit", () => {
    expect(() =>
      qrSolve(
        fromRows([
          [1, 2],
          [2, 4],
          [3, 6],
        ]),
        3,
        2,
        [1, 2, 3],
      ),
    ).toThrow(/column 2 depends/);
    expect(() =>
      qrSolve(
        fromRows([
          [1, 0],
          [2, 0],
        ]),
        2,
        2,
        [1, 2],
      ),
    ).toThrow(/column 2 is zero/);
    expect(() => qrSolve(fromRows([[1, 2]]), 1, 2, [1])).toThrow(NumericalError);
    expect(() => qrSolve(fromRows([[1], [2]]), 2, 1, [1, Number.NaN])).toThrow(NumericalError);
  });
});

describe("symmetric eigenvalues", () => {
  it("of the second-difference matrix are 2 − 2 cos(kπ/(n + 1))", () => {
    const n = 9;
    const a = new Float64Array(n * n);
    for (let i = 0; i < n; i += 1) {
      a[i * n + i] = 2;
      if (i > 0) a[i * n + i - 1] = a[(i - 1) * n + i] = -1;
    }
    const { values } = symmetricEigen(a, n);
    values.forEach((value, k) => {
      expect(value).toBeCloseTo(2 - 2 * Math.cos(((k + 1) * Math.PI) / (n + 1)), 13);
    });
  });

  it("and vectors rebuild the matrix", () => {
    const n = 7;
    const a = positiveDefinite(n, 6);
    const { values, vectors } = symmetricEigen(a, n);
    const scaled = vectors.map((v, i) => v * values[i % n]!);
    expect(furthest(multiply(scaled, transpose(vectors, n, n), n, n, n), a)).toBeLessThan(1e-11);
    expect(furthest(multiply(transpose(vectors, n, n), vectors, n, n, n), identity(n))).toBeLessThan(1e-13);
    expect([...values]).toEqual([...values].sort((x, y) => x - y));
  });

  it("refuses a matrix that is not symmetric", () => {
    expect(() =>
      symmetricEigen(
        fromRows([
          [1, 2],
          [0, 1],
        ]),
        2,
      ),
    ).toThrow(/not symmetric/);
  });
});

describe("tridiagonal systems", () => {
  it("solves in place, also for fewer rows than the arrays hold", () => {
    const n = 40;
    const stream = createRandom(9);
    const lower = Float64Array.from({ length: n + 5 }, () => stream.normal());
    const upper = Float64Array.from({ length: n + 5 }, () => stream.normal());
    const diagonal = Float64Array.from({ length: n + 5 }, (_, i) => 1 + Math.abs(lower[i]!) + Math.abs(upper[i]!));
    const x = Float64Array.from({ length: n }, () => stream.normal());
    const rhs = new Float64Array(n + 5).fill(7);
    for (let i = 0; i < n; i += 1) {
      rhs[i] = diagonal[i]! * x[i]!;
      if (i > 0) rhs[i]! += lower[i]! * x[i - 1]!;
      if (i < n - 1) rhs[i]! += upper[i]! * x[i + 1]!;
    }
    solveTridiagonal(lower, diagonal, upper, rhs, n);
    expect(furthest(rhs.slice(0, n), x)).toBeLessThan(1e-13);
    expect([...rhs.slice(n)]).toEqual([7, 7, 7, 7, 7]);
  });

  it.each([
    [
      [0, 0, 0],
      [1, 0, 1],
      [0, 0, 0],
      [1, 1, 1],
    ],
    [
      [0, 1, 1],
      [0, 1, 1],
      [1, 1, 0],
      [0, 0, 0],
    ],
    [
      [0, 1, 1],
      [1, 1, 1],
      [1, 0, 0],
      [1, 2, 3],
    ],
    [
      [0, 0, 0],
      [1, 1, 0],
      [0, 0, 0],
      [1, 1, 1],
    ],
    [
      [0, 0, 0],
      [1, Number.NaN, 1],
      [0, 0, 0],
      [1, 1, 1],
    ],
  ])("refuses a zero or broken pivot %#", (lower, diagonal, upper, rhs) => {
    const run = (): void =>
      solveTridiagonal(
        Float64Array.from(lower),
        Float64Array.from(diagonal),
        Float64Array.from(upper),
        Float64Array.from(rhs),
      );
    expect(run).toThrow(NumericalError);
  });
});

describe("the adjugate of a 3 × 3 matrix", () => {
  // Worked by hand: cofactors of [[2, 0, 1], [1, 3, −1], [0, 5, 4]], determinant 2·17 + 1·5 = 39.
  const m: Matrix3 = [2, 0, 1, 1, 3, -1, 0, 5, 4];

  it("is what cofactors by hand come to", () => {
    expect(adjugate3(m)).toEqual({ adjugate: [17, 5, -3, -4, 8, 3, 5, -10, 6], determinant: 39 });
  });

  it("times the matrix is the determinant times the identity", () => {
    const product = multiply(Float64Array.from(m), Float64Array.from(adjugate3(m).adjugate), 3, 3, 3);
    expect([...product]).toEqual([39, 0, 0, 0, 39, 0, 0, 0, 39]);
  });
});
