import { describe, expect, it } from "vitest";
import { pulseTrainRise, rasterBeforePulse, sequenceBeforePulse } from "#heat";
import { plainLoops } from "#loops";
import { createRandom } from "#numerics";

const plate = { conductivity: 40, volumetricHeat: 3.925e6, plateThickness: 5e-3 };
const radius = 125e-6;

/** Exact rise before pulse i, pulses of different energies, one after the other. */
function direct(p: { x: Float64Array; y: Float64Array; time: Float64Array; energy: Float64Array }, i: number): number {
  let sum = 0;
  for (let j = 0; j < i; j++) {
    const one = { x: p.x.subarray(j, j + 1), y: p.y.subarray(j, j + 1), time: p.time.subarray(j, j + 1) };
    sum += pulseTrainRise(plate, p.energy[j]!, radius, one, p.x[i]!, p.y[i]!, p.time[i]!);
  }
  return sum;
}

describe("temperature before each pulse of any sequence", () => {
  it("a serpentine raster: within 0.2 K of the exact lattice sum over 20,000 pulses (430 K)", () => {
    const n = 20_000;
    const [x, y, time] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
    for (let i = 0; i < n; i++) {
      const line = Math.floor(i / 301);
      x[i] = (line % 2 === 1 ? 300 - (i % 301) : i % 301) * 50e-6;
      y[i] = line * 0.12e-3;
      time[i] = i * 20e-6;
    }
    const lineTime = 301 * 20e-6;
    const exact = rasterBeforePulse(
      plate,
      {
        energy: 1e-3,
        radius,
        pitch: 50e-6,
        lineSpacing: 0.12e-3,
        pulsesPerLine: 301,
        linesPerPass: 126,
        period: 20e-6,
        lineTime,
        passTime: 126 * lineTime,
        serpentine: true,
      },
      n,
    );
    const rise = sequenceBeforePulse(plate, radius, { x, y, time, energy: new Float64Array(n).fill(1e-3) });
    for (let i = 0; i < n; i++) expect(Math.abs(rise[i]! - exact[i]!)).toBeLessThan(0.2);
  });

  it("random places, energies, bursts, pauses and pulses at one time: within 1e-3 of the largest, twins alike", () => {
    const random = createRandom(31);
    const n = 1500;
    const p = {
      x: new Float64Array(n),
      y: new Float64Array(n),
      time: new Float64Array(n),
      energy: new Float64Array(n),
    };
    let now = 0;
    for (let i = 0; i < n; i++) {
      p.x[i] = 4e-3 * random.next() + (i > 800 ? 2e-3 : 0);
      p.y[i] = 3e-3 * random.next() + p.x[i]!;
      p.time[i] = now;
      p.energy[i] = random.next() < 0.1 ? 0 : 2e-3 * random.next();
      now += i % 500 === 499 ? 0.7 : random.next() < 0.1 ? 0 : i % 10 === 9 ? 1e-4 : 5e-6;
    }
    const rise = sequenceBeforePulse(plate, radius, p);
    const twin = sequenceBeforePulse(plate, radius, p, undefined, plainLoops.plate);
    const largest = rise.reduce((a, b) => Math.max(a, b));
    for (let i = 0; i < n; i++) expect(Math.abs(twin[i]! - rise[i]!)).toBeLessThan(1e-11 * largest);
    for (let i = 1; i < n; i += 37)
      expect(Math.abs(rise[i]! - direct(p, i)), `pulse ${i}`).toBeLessThan(1e-3 * largest);
  });

  it("refuses times that fall and columns of different length", () => {
    const x = new Float64Array(2);
    const p = { x, y: x, time: new Float64Array([1, 0]), energy: x };
    expect(() => sequenceBeforePulse(plate, radius, p)).toThrow("invalid time step: -1 s");
    expect(() => sequenceBeforePulse(plate, radius, { ...p, x: new Float64Array(3) })).toThrow("invalid count of x");
  });
});
