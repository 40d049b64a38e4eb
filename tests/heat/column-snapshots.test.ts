import { describe, expect, it } from "vitest";
import { solveColumn } from "#heat";
import { bareLight, beerLambert, fineSteps, plainLayer, plainMetal, square } from "./columns.ts";

const steel = [50, 7850, 480] as const;
const bare = {
  layers: [],
  metal: plainMetal(steel, 1e-3),
  light: bareLight,
  pulse: square(1e4, 1e-7),
  startTemperature: 300,
  endTime: 1e-6,
};

describe("snapshots of a column", () => {
  it("lie on the closed form of a constant flux, during the pulse and after it", () => {
    const moments = [1e-7, 2e-7, 1e-6];
    const result = solveColumn({
      ...bare,
      snapshotTimes: moments,
      grid: { metalCells: 400, metalFirstCell: 5e-9 },
      steps: fineSteps,
    });
    // Carslaw & Jaeger 2.9, as pinned in column-closed-forms.test.ts: rise of the surface in K, and at 1 and 2 µm.
    const surface = [2599.648, 1076.81, 421.865];
    result.snapshots.forEach((shot, i) => {
      expect(shot.time).toBe(moments[i]);
      // The first cell is 5 nm thick: its middle is that much cooler than the surface during the pulse.
      expect((shot.temperature[0]! - 300) / surface[i]!).toBeCloseTo(1, 2);
    });
    const at = (depth: number) => {
      const { edges } = result.grid;
      const k = edges.findIndex((e) => e > depth) - 1;
      const middle = (i: number) => (edges[i]! + edges[i + 1]!) / 2;
      const [a, b] = middle(k) <= depth ? [k, k + 1] : [k - 1, k];
      const share = (depth - middle(a)) / (middle(b) - middle(a));
      const { temperature } = result.snapshots[0]!;
      return temperature[a]! + share * (temperature[b]! - temperature[a]!) - 300;
    };
    expect(at(1e-6) / 1074.604).toBeCloseTo(1, 3);
    expect(at(2e-6) / 345.307).toBeCloseTo(1, 3);
  });

  it("begin with the start and end with the end, and change nothing of the run", () => {
    const plain = solveColumn(bare);
    const shot = solveColumn({ ...bare, snapshotTimes: [0, 3.3e-7, 1e-6] });
    expect(shot.snapshots).toHaveLength(3);
    expect([...shot.snapshots[0]!.temperature].every((t) => t === 300)).toBe(true);
    expect([...shot.snapshots[2]!.temperature]).toEqual([...plain.finalTemperature]);
    expect(shot.finalTemperature).toEqual(plain.finalTemperature);
    expect(shot.steps).toBe(plain.steps);
  });

  it("say which cells have left", () => {
    const layer = plainLayer([0.3, 1200, 1500], 10e-6, { ablationTemperature: 700, ablationHeat: 4e5 });
    const result = solveColumn({
      layers: [layer],
      metal: plainMetal(steel, 1e-3),
      light: beerLambert(0.95, 5e5, 0.005),
      pulse: square(2e4, 1e-7),
      startTemperature: 300,
      endTime: 5e-7,
      snapshotTimes: [2e-8, 1e-7, 5e-7],
    });
    const gone = result.snapshots.map((s) => s.firstCell);
    expect(gone[0]!).toBeLessThan(gone[1]!);
    expect(gone[2]).toBe(result.goneCells);
    expect(gone[2]!).toBeGreaterThan(0);
  });

  it.each([
    [[-1e-9], "invalid snapshot time: -1e-9 s (must lie between 0 and the end time)"],
    [[2e-6], "invalid snapshot time: 0.000002 s (must lie between 0 and the end time)"],
    [[1e-7, 1e-7], "invalid snapshot time: 1e-7 s (must be later than the one before)"],
  ])("refuse moments that cannot be: %j", (snapshotTimes, line) => {
    expect(() => solveColumn({ ...bare, snapshotTimes })).toThrow(line);
  });
});
