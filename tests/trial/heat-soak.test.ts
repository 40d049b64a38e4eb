import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gapForLimit, neighbourPeak, rodShare, type SoakPlate, soakRise, soakWaits } from "#trial";

const steel = { conductivity: 50, volumetricHeat: 3.9e6, plateThickness: 3e-3 };
const plate: SoakPlate = { body: steel, width: 0.15, height: 0.1, loss: 10 };
const coupon = { width: 0.15, height: 0.1, rim: 10e-3, gap: 5e-3 };
const patch = { width: 15e-3, height: 15e-3 };
const burned = { x: 0.02, y: 0.03, ...patch, start: 0, duration: 4, energy: 300 };

/** One-dimensional kernel of an instantaneous source on a rod with insulated ends, by images, 1/m. */
function rodKernel(x: number, from: number, length: number, spread4: number): number {
  let sum = 0;
  const far = Math.ceil((4 * Math.sqrt(spread4)) / length) + 1;
  for (let n = -far; n <= far; n++)
    for (const image of [from, -from]) sum += Math.exp(-((x - image + 2 * n * length) ** 2) / spread4);
  return sum / Math.sqrt(Math.PI * spread4);
}

/** Rise from instantaneous point sources over the patch and the burn, images in all six faces; no loss. */
function directRise(place: { x: number; y: number }, time: number, cells = 12, moments = 160): number {
  const { conductivity, volumetricHeat, plateThickness } = steel;
  let sum = 0;
  for (let k = 0; k < moments; k++) {
    const fell = ((k + 0.5) / moments) * burned.duration;
    if (fell >= time) continue;
    const spread4 = (4 * conductivity * (time - fell)) / volumetricHeat;
    const down = rodKernel(0, 0, plateThickness, spread4);
    for (let i = 0; i < cells; i++) {
      for (let j = 0; j < cells; j++) {
        const x = burned.x + ((i + 0.5) / cells) * burned.width;
        const y = burned.y + ((j + 0.5) / cells) * burned.height;
        const share = burned.energy / (moments * cells * cells);
        sum +=
          (share * down * rodKernel(place.x, x, plate.width, spread4) * rodKernel(place.y, y, plate.height, spread4)) /
          volumetricHeat;
      }
    }
  }
  return sum;
}

describe("heat of one patch on a coupon", () => {
  it.each([
    [0.041, 0.03, 5],
    [0.041, 0.0375, 9],
    [0.0275, 0.0375, 6],
    [0.0, 0.0, 30],
    [0.1, 0.08, 120],
    [0.035, 0.045, 7],
  ])("at (%d, %d) m after %d s is the sum of instantaneous sources with images", (x, y, time) => {
    const rise = soakRise({ ...plate, loss: 1e-12 }, burned, { x: [x], y: [y] }, time);
    expect(rise).toBeGreaterThan(0.1);
    expect(Math.abs(rise / directRise({ x, y }, time) - 1)).toBeLessThan(2e-3);
  });

  it("spreads evenly in the end, E/(ρc·V), and leaves by the loss", () => {
    const volume = plate.width * plate.height * steel.plateThickness;
    const even = burned.energy / (steel.volumetricHeat * volume);
    const at = (loss: number, time: number) => soakRise({ ...plate, loss }, burned, { x: [0.13], y: [0.01] }, time);
    expect(at(1e-12, 3000)).toBeCloseTo(even, 3);
    // After the coupon is even the rise falls by exp(−λ·Δt), λ = loss/(ρc·h).
    const lambda = 10 / (steel.volumetricHeat * steel.plateThickness);
    expect(at(10, 3000) / at(10, 2000)).toBeCloseTo(Math.exp(-lambda * 1000), 4);
    expect(soakRise(plate, burned, { x: [0.02], y: [0.03] }, 0)).toBe(0);
  });

  it("both forms of the share agree with a long sum of images, and keep the heat", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        fc.double({ min: 0.05, max: 3, noNaN: true }),
        (x, a, spread) => {
          const b = a + 0.1;
          let images = 0;
          const steps = 400;
          for (let k = 0; k < steps; k++)
            images += rodKernel(x, a + ((k + 0.5) / steps) * 0.1, 1, spread * spread) * (0.1 / steps);
          expect(rodShare(x, a, b, 1, spread)).toBeCloseTo(images, 4);
        },
      ),
      { numRuns: 60 },
    );
    for (const spread of [0.1, 0.49, 0.51, 2]) {
      let mean = 0;
      for (let k = 0; k < 1000; k++) mean += rodShare((k + 0.5) / 1000, 0.2, 0.35, 1, spread) / 1000;
      expect(mean).toBeCloseTo(0.15, 6);
    }
    expect(rodShare(0.3, 0.2, 0.35, 1, 0.4999999)).toBeCloseTo(rodShare(0.3, 0.2, 0.35, 1, 0.5000001), 6);
  });

  it("is warmer the more energy, cooler the thicker the plate", () => {
    const rise = (energy: number, thickness: number, time: number) =>
      soakRise(
        { ...plate, body: { ...steel, plateThickness: thickness } },
        { ...burned, energy },
        { x: [0.04], y: [0.04] },
        time,
      );
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1000, noNaN: true }),
        fc.double({ min: 5e-4, max: 5e-3, noNaN: true }),
        fc.double({ min: 3, max: 100, noNaN: true }),
        (energy, thickness, time) => {
          const here = rise(energy, thickness, time);
          expect(rise(2 * energy, thickness, time)).toBeCloseTo(2 * here, 6);
          expect(rise(energy, 1.3 * thickness, time)).toBeLessThanOrEqual(here * (1 + 1e-9));
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe("gap between patches", () => {
  const burn = { energy: 300, duration: 4 };
  const peak = (gap: number, energy = 300, thickness = 3e-3) =>
    neighbourPeak({ ...plate, body: { ...steel, plateThickness: thickness } }, coupon, patch, { ...burn, energy }, gap);

  it("the highest rise at the neighbour's edge is the highest of a fine search over time", () => {
    let highest = 0;
    const source = { x: 0.01, y: 0.01, ...patch, start: 0, ...burn };
    for (let time = 0.5; time < 200; time *= 1.01) {
      const beside = { x: [0.01 + 0.015 + 0.008], y: [0.01, 0.0175] };
      const above = { x: [0.01, 0.0175], y: [0.01 + 0.015 + 0.008] };
      highest = Math.max(highest, soakRise(plate, source, beside, time), soakRise(plate, source, above, time));
    }
    expect(peak(8e-3) / highest).toBeGreaterThan(0.9999);
    expect(peak(8e-3) / highest).toBeLessThan(1.001);
  });

  it("rises with power, falls with thickness and with the gap", () => {
    for (const gap of [2e-3, 5e-3, 12e-3]) {
      expect(peak(gap, 600)).toBeCloseTo(2 * peak(gap), 6);
      expect(peak(gap, 300, 6e-3)).toBeLessThan(peak(gap));
      expect(peak(gap + 2e-3)).toBeLessThan(peak(gap));
    }
  });

  it("is the smallest in half millimetres that keeps the limit for every burn, and grows with power", () => {
    const burns = [
      { energy: 200, duration: 8 },
      { energy: 250, duration: 2 },
    ];
    const gap = gapForLimit(plate, coupon, patch, burns, 10)!;
    const worst = (at: number) => Math.max(...burns.map((b) => neighbourPeak(plate, coupon, patch, b, at)));
    expect(worst(gap)).toBeLessThanOrEqual(10);
    expect(worst(gap - 0.5e-3)).toBeGreaterThan(10);
    const gaps = [50, 100, 150, 200, 250].map(
      (energy) => gapForLimit(plate, coupon, patch, [{ energy, duration: 4 }], 10)!,
    );
    expect(gaps).toEqual([...gaps].sort((a, b) => a - b));
    expect(gaps[0]).toBe(5e-3);
    expect(gaps[4]).toBeGreaterThan(gaps[1]!);
    const thicker = { ...plate, body: { ...steel, plateThickness: 6e-3 } };
    expect(gapForLimit(thicker, coupon, patch, burns, 10)!).toBeLessThan(gap);
  });

  it("is none where the coupon is too small or too thin for any", () => {
    const small = { ...coupon, width: 0.06, height: 0.06 };
    const thin = { ...plate, width: 0.06, height: 0.06, body: { ...steel, plateThickness: 0.5e-3 } };
    expect(gapForLimit(thin, small, patch, [burn], 10)).toBeNull();
  });
});

describe("waits between patches", () => {
  const places = [
    [0.01, 0.01],
    [0.05, 0.05],
    [0.03, 0.01],
    [0.09, 0.03],
    [0.05, 0.03],
    [0.01, 0.05],
  ] as const;
  const turns = (energy: number) => places.map(([x, y]) => ({ x, y, burn: { energy, duration: 3 } }));
  const limit = 8;

  it("are as short as the limit allows: the rise at the start is within it, a second sooner it is not", () => {
    const run = soakWaits(plate, patch, turns(300), limit);
    expect(run.waits[0]).toBe(0);
    expect(Math.max(...run.waits)).toBeGreaterThan(10);
    let start = 0;
    const earlier: { x: number; y: number; start: number }[] = [];
    const hottest = (x: number, y: number, from: number) => {
      let most = 0;
      for (const time of [from, from + 1.5, from + 3]) {
        for (const px of [x, x + 0.0075, x + 0.015]) {
          for (const py of [y, y + 0.0075, y + 0.015]) {
            const sum = earlier.reduce(
              (total, e) =>
                total + soakRise(plate, { ...e, ...patch, duration: 3, energy: 300 }, { x: [px], y: [py] }, time),
              0,
            );
            most = Math.max(most, sum);
          }
        }
      }
      return most;
    };
    places.forEach(([x, y], k) => {
      start += run.waits[k]!;
      if (k > 0) {
        expect(hottest(x, y, start)).toBeLessThanOrEqual(limit);
        if (run.waits[k]! > 0) expect(hottest(x, y, start - 1)).toBeGreaterThan(limit);
      }
      earlier.push({ x, y, start });
      start += 3;
    });
    expect(run.warmest).toBeLessThanOrEqual(limit);
    expect(run.warmest).toBeGreaterThan(0.9 * limit);
  });

  it("grow with power, shrink with thickness, are none for faint burns", () => {
    const total = (energy: number, thickness = 3e-3) =>
      soakWaits({ ...plate, body: { ...steel, plateThickness: thickness } }, patch, turns(energy), limit).waits.reduce(
        (a, b) => a + b,
        0,
      );
    expect(total(5)).toBe(0);
    const totals = [100, 200, 300, 400].map((energy) => total(energy));
    for (let k = 1; k < totals.length; k++) expect(totals[k]).toBeGreaterThan(totals[k - 1]!);
    expect(total(300, 6e-3)).toBeLessThan(total(300));
  });

  it("a coupon that cannot cool within a day is refused in one clear line", () => {
    expect(() => soakWaits({ ...plate, loss: 1e-9 }, patch, turns(2000), 1)).toThrow(
      "invalid gap limit: 1 K (so much that less than a day of waiting keeps it)",
    );
  });
});
