import { describe, expect, it } from "vitest";
import { agreementOf, wrongShareOf } from "#gauging";
import { createRandom } from "#numerics";

const rows = (grader: string, grades: readonly string[]) =>
  grades.map((grade, i) => ({ item: String(i + 1), grader, grade }));

describe("agreement of graders", () => {
  it("compares every two, over what both graded, numbers in their own order", () => {
    const found = agreementOf([
      ...rows("ada", ["10", "2", "0", "2", "10", "0"]),
      ...rows("ben", ["10", "2", "0", "0", "10"]),
      ...rows("cyd", ["10", "2", "2", "0", "10", "0"]),
    ]);
    expect(found.grades).toEqual(["0", "2", "10"]);
    expect(found.ordered).toBe(true);
    expect(found.pairs.map((p) => [p.graders.join(" "), p.kappa.items])).toEqual([
      ["ada ben", 5],
      ["ada cyd", 6],
      ["ben cyd", 5],
    ]);
    expect(found.pairs[0]!.kappa.agreement).toBeCloseTo(0.8, 12);
    expect(found.pairs[0]!.linear!.kappa).toBeGreaterThan(found.pairs[0]!.kappa.kappa);
  });

  it("weighs words only in an order that was given", () => {
    const items = [
      ...rows("ada", ["clean", "thin", "left", "thin"]),
      ...rows("ben", ["clean", "left", "left", "thin"]),
    ];
    expect(agreementOf(items).pairs[0]!.linear).toBeNull();
    expect(agreementOf(items, ["clean", "thin", "left"]).pairs[0]!.linear).not.toBeNull();
    expect(() => agreementOf(items, ["clean", "left"])).toThrow("invalid grade: thin (must be one of clean, left)");
  });

  it("finds the share of wrong grades of made-up graders", () => {
    const stream = createRandom(6);
    const grade = (): string[] => truth.map((t) => (stream.next() < 0.08 ? (t === "1" ? "0" : "1") : t));
    const truth = Array.from({ length: 4000 }, () => (stream.next() < 0.6 ? "1" : "0"));
    const { wrongShare } = agreementOf([...rows("ada", grade()), ...rows("ben", grade())]).pairs[0]!;
    expect(wrongShare.value).toBeCloseTo(0.08, 1.7);
    expect(wrongShare.low).toBeLessThan(0.08);
    expect(wrongShare.high).toBeGreaterThan(0.08);
    expect(wrongShareOf(2 * 0.1 * 0.9, 2)).toBeCloseTo(0.1, 12);
    expect(wrongShareOf(1 - 0.9 ** 2, 4)).toBeCloseTo(0.1, 12);
    expect(wrongShareOf(0.9, 2)).toBe(0.5);
    expect(() => wrongShareOf(1.1, 2)).toThrow("invalid disagreement: 1.1");
  });

  it("says who cannot be compared, and refuses what leaves nobody", () => {
    const found = agreementOf([
      ...rows("ada", ["1", "0"]),
      ...rows("ben", ["1", "1"]),
      { item: "9", grader: "cyd", grade: "1" },
    ]);
    expect(found.pairs.length).toBe(1);
    expect(found.without).toEqual([
      "ada and cyd: no item was graded by both",
      "ben and cyd: no item was graded by both",
    ]);
    expect(() => agreementOf(rows("ada", ["1"]))).toThrow("invalid graders: 1");
    expect(() => agreementOf([...rows("ada", ["1", "1"]), ...rows("ben", ["1", "1"])])).toThrow("one grade throughout");
    expect(() => agreementOf([...rows("ada", ["1"]), ...rows("ada", ["0"]), ...rows("ben", ["0"])])).toThrow(
      "invalid item: 1 (graded twice by ada)",
    );
  });
});
