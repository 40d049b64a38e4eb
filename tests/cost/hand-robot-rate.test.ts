import { areaRate, defaultSetting, handAreaRate } from "#beam";
import { handRate, type HandTask, robotRate, type RobotTask, scanRate, travelSpeedFor } from "#cost";
import { setup } from "#library";
import { describe, expect, it } from "vitest";

const hand: HandTask = {
  area: 2,
  count: 3,
  lineWidth: 0.05,
  handSpeed: 0.1,
  passes: 2,
  strokeOverlap: 0.2,
  beamOnShare: 0.5,
  pauseShare: 0.1,
};

describe("by hand, worked by hand", () => {
  it("6 m² twice at 0.05 m × 0.8 × 0.1 m/s are 3,000 s of beam, as long for moving, a tenth of all for rest", () => {
    const job = handRate({ ...hand, handling: 60, coolingPerPart: 20, preparation: 900 });
    expect(job.time.beam).toBeCloseTo(3000, 9);
    expect(job.time.steps).toBeCloseTo(3000, 9);
    expect(job.time.waits).toBe(60);
    expect(job.time.handling).toBe(180);
    expect(job.time.pauses / job.total).toBeCloseTo(0.1, 12);
    expect(job.total).toBeCloseTo((6000 + 60 + 180 + 900) / 0.9, 8);
    expect(job.notes[0]).toContain("laser safety officer");
  });

  it("is line width × hand speed / passes where nothing is lost", () => {
    const job = handRate({ ...hand, strokeOverlap: 0, beamOnShare: 1, pauseShare: 0 });
    expect(job.jobRate).toBeCloseTo(handAreaRate(0.05, 0.1, 2), 15);
    expect(job.notes).toHaveLength(1);
    expect(handRate({ ...hand, handSpeed: 0.31 }).notes[1]).toContain("0.3 m/s (common practice, no source)");
  });

  it("refuses shares that are none", () => {
    expect(() => handRate({ ...hand, strokeOverlap: 1 })).toThrow(
      "invalid overlap of strokes: 1 (0 or more and below 1)",
    );
    expect(() => handRate({ ...hand, beamOnShare: 0 })).toThrow("invalid share of time with the beam on: 0");
    expect(() => handRate({ ...hand, pauseShare: Number.NaN })).toThrow("invalid share of pauses: not a number");
    expect(() => handRate({ ...hand, handSpeed: 0 })).toThrow("invalid travel speed: 0 m/s");
  });
});

describe("travel that a setting asks for", () => {
  it("gives the area rate of a field as wide as the line, with its turn-rounds", () => {
    const machine = setup("pulsed-200");
    const setting = { ...defaultSetting(machine), passes: 1 };
    const width = 0.04;
    const travel = travelSpeedFor(width, setting.speed, setting.lineSpacing, machine.acceleration);
    const field = areaRate(machine, setting, { width, height: 1000 * setting.lineSpacing });
    // The field is cut where the lens ends; one field has no change in it.
    const one = field.fields === 1 ? field.rate : (1000 * setting.lineSpacing * width) / (field.total - field.jumpTime);
    expect((width * travel) / one).toBeCloseTo(1, 9);
    expect(() => travelSpeedFor(0, 1, 1e-4, 1e4)).toThrow("invalid line width: 0 m");
  });
});

const robot: RobotTask = {
  width: 1,
  height: 0.42,
  count: 50,
  lineWidth: 0.05,
  travelSpeed: 0.1,
  travelSpeedMax: 0.5,
  passes: 1,
  strokeOverlap: 0.2,
  strokeEnd: 0.5,
  handling: 40,
  programming: 7200,
};

describe("on a robot, worked by hand", () => {
  it("lays ceil((420 − 10)/40) = 11 strokes of 10 s, 10 ends of 0.5 s, programs once", () => {
    const job = robotRate(robot);
    expect(job.time.beam).toBeCloseTo(50 * 110, 9);
    expect(job.time.turns).toBeCloseTo(50 * 5, 9);
    expect(job.time.handling).toBe(2000);
    expect(job.time.preparation).toBe(7200);
    expect(job.notes).toEqual([]);
    expect(robotRate({ ...robot, kinds: 3 }).time.preparation).toBe(3 * 7200);
    expect(robotRate({ ...robot, height: 0.05 }).time.turns).toBe(0);
  });

  it("keeps the robot's own limit and says what that does to the dose", () => {
    const job = robotRate({ ...robot, travelSpeed: 1 });
    expect(job.time.beam).toBeCloseTo(50 * 22, 9);
    expect(job.notes[0]).toContain("gets more dose");
    expect(robotRate({ ...robot, travelSpeed: 0.5 }).notes).toEqual([]);
  });

  it("costs less time a part the more parts there are, down to its own cycle", () => {
    const perPart = (count: number) => robotRate({ ...robot, count }).total / count;
    expect(perPart(10)).toBeLessThan(perPart(1));
    expect(perPart(1e6)).toBeCloseTo(110 + 5 + 40, 1);
  });

  it("refuses what is no task", () => {
    expect(() => robotRate({ ...robot, programming: -1 })).toThrow("invalid programming time: -1 s");
    expect(() => robotRate({ ...robot, kinds: 51 })).toThrow(
      "invalid kinds of part: 51 (must be a whole number, 1 to 50)",
    );
    expect(() => robotRate({ ...robot, travelSpeedMax: 0 })).toThrow("invalid largest travel speed: 0 m/s");
    expect(() => robotRate({ ...robot, strokeOverlap: -0.1 })).toThrow("invalid overlap of strokes: -0.1");
  });

  it("agrees with the scanner where both lay the same lines", () => {
    const lines = robotRate({ ...robot, count: 1, strokeOverlap: 0, height: 0.4, programming: 0, handling: 0 });
    const scan = scanRate({
      width: 1,
      height: 0.4,
      count: 1,
      speed: 0.1,
      lineSpacing: 0.05,
      passes: 1,
      fieldSide: 1,
      turnRound: { lineEnd: 0.5, passEnd: 0 },
    });
    expect(lines.time.beam).toBeCloseTo(scan.time.beam, 9);
    // The scanner turns after its last line too.
    expect(lines.time.turns).toBeCloseTo(scan.time.turns - 0.5, 9);
  });
});
