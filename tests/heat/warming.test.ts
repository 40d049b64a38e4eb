import { describe, expect, it } from "vitest";
import { type BeamLine, pathRise, plateImages, type WarmingCase, warmingBound } from "#heat";
import { createRandom } from "#numerics";

function serpentine(c: WarmingCase): BeamLine[] {
  const lineTime = c.lineLength / c.speed;
  return Array.from({ length: c.lines * c.passes }, (_, i) => {
    const line = i % c.lines;
    const startTime = i * (lineTime + c.turnTime);
    const back = line % 2 === 1;
    return {
      startTime,
      endTime: startTime + lineTime,
      fromX: back ? c.lineLength : 0,
      toX: back ? 0 : c.lineLength,
      fromY: line * c.lineSpacing,
      toY: line * c.lineSpacing,
    };
  });
}

/** Largest rise just before the beam comes, over places and lines of the last pass, by exact superposition. */
function exactWarming(c: WarmingCase): number {
  const path = serpentine(c);
  const spots = [0, 0.25, 0.5, 1, 1.5, 2, 3, 5, 8, 12, 20, 40].map((s) => s * c.spotDiameter);
  const places = [...spots, ...[0.3, 0.5, 0.8, 0.9, 1].map((s) => s * c.lineLength)].filter((x) => x <= c.lineLength);
  let hottest = 0;
  for (let line = c.lines - 1; line >= 0; line -= Math.max(1, Math.floor(c.lines / 5))) {
    const index = (c.passes - 1) * c.lines + line;
    const own = path[index]!;
    const way = own.toX > own.fromX ? 1 : -1;
    for (const x of places) {
      const place = { x: own.fromX + way * x, y: own.fromY, z: 0 };
      const rise = pathRise(
        c,
        c.absorbedPower,
        c.spotDiameter / 2,
        path.slice(0, index),
        place,
        own.startTime + x / c.speed,
      );
      hottest = Math.max(hottest, rise);
    }
  }
  return hottest;
}

describe("warming bound", () => {
  it("lies between 0.98 and 1.3 of the exact superposition over 40 seeded patches", () => {
    const random = createRandom(20_240);
    const between = (low: number, high: number) => low * (high / low) ** random.next();
    // steel, aluminium, stainless, copper: round figures, from memory
    const metals = [
      [45, 3.7e6],
      [120, 2.5e6],
      [15, 4e6],
      [380, 3.4e6],
    ] as const;
    for (let i = 0; i < 40; i++) {
      const [conductivity, volumetricHeat] = metals[random.integer(4)]!;
      const spotDiameter = between(50e-6, 1.5e-3);
      const patch: WarmingCase = {
        absorbedPower: 100,
        spotDiameter,
        speed: between(0.05, 10),
        lineSpacing: spotDiameter * (0.2 + random.next()),
        lineLength: between(4e-3, 40e-3),
        lines: 2 + random.integer(20),
        passes: 1 + random.integer(3),
        plateThickness: between(0.8e-3, 8e-3),
        conductivity,
        volumetricHeat,
        turnTime: random.next() < 0.3 ? 0 : between(1e-4, 1e-2),
      };
      const ratio = warmingBound(patch) / exactWarming(patch);
      expect(ratio, JSON.stringify(patch)).toBeGreaterThan(0.98);
      expect(ratio, JSON.stringify(patch)).toBeLessThan(1.3);
    }
  });

  const patch: WarmingCase = {
    absorbedPower: 50,
    spotDiameter: 200e-6,
    speed: 2,
    lineSpacing: 100e-6,
    lineLength: 15e-3,
    lines: 150,
    passes: 2,
    plateThickness: 3e-3,
    conductivity: 45,
    volumetricHeat: 3.7e6,
    turnTime: 1e-3,
  };
  it("grows in proportion to the power", () => {
    expect(warmingBound({ ...patch, absorbedPower: 100 })).toBeCloseTo(2 * warmingBound(patch), 9);
  });
  it("grows with passes and falls with the turn time", () => {
    expect(warmingBound({ ...patch, passes: 6 })).toBeGreaterThan(warmingBound(patch));
    expect(warmingBound({ ...patch, turnTime: 20e-3 })).toBeLessThan(warmingBound(patch));
  });
  it("is nothing for a first line, and refuses a speed of 0", () => {
    expect(warmingBound({ ...patch, lines: 1, passes: 1 })).toBe(0);
    expect(() => warmingBound({ ...patch, speed: 0 })).toThrow("invalid speed: 0 m/s (must be above 0)");
  });
});

describe("plate images", () => {
  it.each([0.3, 1.999, 2.001, 5, 40])("sum of images at h²/(D·t) = %d", (x) => {
    let sum = 1;
    for (let m = 1; m < 60; m++) sum += 2 * Math.exp(-m * m * x);
    expect(Math.abs(plateImages(x) / sum - 1)).toBeLessThan(1e-8);
  });
});
