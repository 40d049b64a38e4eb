import { areaRate, defaultSetting } from "#beam";
import { fieldRow, scanRate, type ScanTask, scanTaskOf, timeKinds } from "#cost";
import { setup, setups } from "#library";
import { type PartModel, productionRate } from "#workflows";
import fc from "fast-check";
import { describe, expect, it } from "vitest";

/** 100 mm × 50 mm, 50 lines of 100 mm at 1 m/s: 5 s of beam. */
const plain: ScanTask = {
  width: 0.1,
  height: 0.05,
  count: 1,
  speed: 1,
  lineSpacing: 1e-3,
  passes: 1,
  fieldSide: 0.1,
  turnRound: { lineEnd: 0, passEnd: 0 },
};
const partOf = (area: number) => ({ part: { area } }) as unknown as PartModel;

describe("rate against the one that predictions use", () => {
  const quick = { acceleration: 1e30, speedMax: 1e30 };

  it.each(setups.map((s) => s.id))("%s: without turn-rounds the beam's own rate is productionRate", (id) => {
    const machine = { ...setup(id), ...quick };
    const setting = { ...defaultSetting(setup(id)), passes: 3 };
    const side = setup(id).lenses.find((l) => l.id === setting.lens)!.fieldSide;
    const job = scanRate({
      ...scanTaskOf(machine, setting, { width: side, height: side, count: 1 }),
      turnRound: { lineEnd: 0, passEnd: 0 },
    });
    expect(job.beamRate / productionRate(partOf(side * side), machine, setting)).toBeCloseTo(1, 12);
    expect(job.jobRate).toBe(job.beamRate);
    expect(job.shares.beam).toBe(1);
  });

  it.each(setups.map((s) => s.id))("%s: with turn-rounds, returns and field changes it is areaRate", (id) => {
    const machine = setup(id);
    const setting = { ...defaultSetting(machine), passes: 2 };
    for (const [width, height] of [
      [0.03, 0.02],
      [0.9, 0.41],
    ] as const) {
      const job = scanRate(scanTaskOf(machine, setting, { width, height, count: 1 }));
      const known = areaRate(machine, setting, { width, height });
      expect(job.partRate / known.rate).toBeCloseTo(1, 12);
      expect(job.total / known.total).toBeCloseTo(1, 12);
      expect(job.time.turns + job.time.beam + job.time.steps).toBeCloseTo(known.total, 9);
    }
    const small = machine.lenses.find((l) => l.id === setting.lens)!.fieldSide / 3;
    const one = scanRate(scanTaskOf(machine, setting, { width: small, height: small, count: 1 }));
    expect(one.jobRate / productionRate(partOf(small * small), machine, setting)).toBeCloseTo(1, 12);
  });
});

describe("scan time, worked by hand", () => {
  it("adds turn-rounds, returns, cooling and handling", () => {
    const job = scanRate({
      ...plain,
      count: 10,
      passes: 2,
      turnRound: { lineEnd: 0.01, passEnd: 0.5 },
      coolingBetweenPasses: 3,
      handling: 20,
      preparation: 600,
    });
    // One part: 2·50 lines of 0.1 s and 0.01 s; one return 0.5 s, 2.5 s more to cool.
    expect(job.time.beam).toBeCloseTo(100, 9);
    expect(job.time.turns).toBeCloseTo(10 * (1 + 0.5), 9);
    expect(job.time.waits).toBeCloseTo(25, 9);
    expect(job.time.handling).toBe(200);
    expect(job.time.preparation).toBe(600);
    expect(job.total).toBeCloseTo(940, 9);
    expect(job.hours).toBeCloseTo(940 / 3600, 12);
    expect(job.beamRate).toBeCloseTo(0.05 / 100, 12);
    expect(job.partRate).toBeCloseTo(0.05 / 140, 12);
    expect(job.jobRate).toBeCloseTo(0.05 / 940, 12);
  });

  it("cuts 0.25 m into 3 fields of 0.1 m with 20 mm seams, and cleans the seams twice", () => {
    expect(fieldRow(0.25, 0.1, 0.02)).toEqual({ fields: 3, size: expect.closeTo(0.29 / 3, 12) });
    expect(fieldRow(0.2, 0.1, 0)).toEqual({ fields: 2, size: 0.1 });
    expect(fieldRow(0.3, 0.1, 0).fields).toBe(3);
    const job = scanRate({ ...plain, width: 0.25, fieldOverlap: 0.02, stepTime: 4, coolingBetweenFields: 10 });
    expect(job.time.beam).toBeCloseTo(50 * 0.29, 9);
    expect(job.time.steps).toBe(8);
    expect(job.time.waits).toBe(12);
    expect(job.area).toBeCloseTo(0.0125, 12);
  });

  it("has shares that add up, and is never faster for more of anything", () => {
    const time = fc.double({ min: 0, max: 100, noNaN: true });
    const more = fc.double({ min: 0.01, max: 50, noNaN: true });
    const names = ["stepTime", "coolingBetweenPasses", "coolingBetweenFields", "handling", "preparation"] as const;
    fc.assert(
      fc.property(fc.constantFrom(...names), time, more, fc.integer({ min: 1, max: 5 }), (name, t, d, passes) => {
        const task = { ...plain, width: 0.35, passes, turnRound: { acceleration: 1e4, speedMax: 10 } };
        const [a, b] = [scanRate({ ...task, [name]: t }), scanRate({ ...task, [name]: t + d })];
        expect(b.total).toBeGreaterThanOrEqual(a.total);
        expect(timeKinds.reduce((sum, kind) => sum + a.shares[kind], 0)).toBeCloseTo(1, 12);
        expect(scanRate({ ...task, passes: passes + 1 }).total).toBeGreaterThan(scanRate(task).total);
      }),
    );
  });

  it("refuses what is no task in one line", () => {
    expect(() => scanRate({ ...plain, width: 0 })).toThrow("invalid width: 0 m (must be above 0)");
    expect(() => scanRate({ ...plain, passes: 1.5 })).toThrow("invalid passes: 1.5 (must be a whole number)");
    expect(() => scanRate({ ...plain, fieldOverlap: 0.1 })).toThrow(
      "invalid overlap of fields: 0.1 m (below the field side of 0.1 m)",
    );
    expect(() => scanRate({ ...plain, handling: -1 })).toThrow("invalid handling time: -1 s (must be 0 or above)");
    expect(() => scanRate({ ...plain, stepTime: Number.NaN })).toThrow("invalid time of a move: not a number s");
    expect(() => scanRate({ ...plain, speed: Number.POSITIVE_INFINITY })).toThrow("invalid speed: infinite m/s");
  });
});
