import { describe, expect, it } from "vitest";
import { type PartHeating, partRise, pulseTrainRise, waitingTime } from "#heat";

const part: PartHeating = { absorbedPower: 80, passTime: 30, passes: 6, heatCapacity: 500, loss: 2 };

/** Newton cooling by small steps of the classical Runge-Kutta scheme. */
function stepped(p: PartHeating, passes: number, wait: number): number {
  let rise = 0;
  const go = (power: number, time: number) => {
    const steps = 4000;
    const dt = time / steps;
    const f = (r: number) => (power - p.loss * r) / p.heatCapacity;
    for (let i = 0; i < steps; i++) {
      const k1 = f(rise);
      const k2 = f(rise + 0.5 * dt * k1);
      const k3 = f(rise + 0.5 * dt * k2);
      rise += (dt / 6) * (k1 + 2 * k2 + 2 * k3 + f(rise + dt * k3));
    }
  };
  for (let i = 0; i < passes; i++) {
    if (i > 0 && wait > 0) go(0, wait);
    go(p.absorbedPower, p.passTime);
  }
  return rise;
}

describe("warming of a whole part", () => {
  it.each([
    [1, 0],
    [4, 0],
    [6, 45],
  ])("at the end of pass %d with pauses of %d s: the stepped balance of heat", (pass, wait) => {
    expect(Math.abs(partRise(part, pass, wait) / stepped(part, pass, wait) - 1)).toBeLessThan(1e-9);
  });

  it("without loss it is heat over heat capacity, and what the plate with insulated edges comes to", () => {
    const plate = { conductivity: 150, volumetricHeat: 2.5e6, plateThickness: 2e-3 };
    const [width, height, energy] = [12e-3, 8e-3, 3];
    // One pulse at (3, 2) mm and its images in all four edges, seen after 3 s, when the plate has evened out.
    const x: number[] = [];
    const y: number[] = [];
    for (let i = -8; i <= 8; i++) {
      for (let j = -12; j <= 12; j++) {
        for (const [sx, sy] of [
          [1, 1],
          [1, -1],
          [-1, 1],
          [-1, -1],
        ] as const) {
          x.push(2 * i * width + sx * 3e-3);
          y.push(2 * j * height + sy * 2e-3);
        }
      }
    }
    const train = { x: Float64Array.from(x), y: Float64Array.from(y), time: new Float64Array(x.length) };
    const late = pulseTrainRise(plate, energy, 1e-3, train, 5e-3, 7e-3, 3);
    const heatCapacity = plate.volumetricHeat * width * height * plate.plateThickness;
    const lumped = partRise({ absorbedPower: 1, passTime: energy, passes: 1, heatCapacity, loss: 0 }, 1, 0);
    expect(Math.abs(late / lumped - 1)).toBeLessThan(1e-4);
  });

  it("the waiting time brings the last pass to the limit, and is the shortest", () => {
    const wait = waitingTime(part, 15);
    expect(wait.kind).toBe("wait");
    if (wait.kind !== "wait") return;
    expect(Math.abs(partRise(part, 6, wait.time) / 15 - 1)).toBeLessThan(1e-9);
    expect(Math.abs(stepped(part, 6, wait.time) / 15 - 1)).toBeLessThan(1e-8);
    expect(partRise(part, 6, 0.99 * wait.time)).toBeGreaterThan(15);
  });

  it("no pause where none is needed; never where one pass is too much or nothing leaves", () => {
    expect(waitingTime(part, 100)).toEqual({ kind: "none" });
    expect(waitingTime(part, 4)).toEqual({ kind: "never", passesWithin: 0 });
    expect(waitingTime({ ...part, loss: 0 }, 10)).toEqual({ kind: "never", passesWithin: 2 });
    expect(() => waitingTime(part, 0)).toThrow("invalid limit of the rise: 0 K (must be above 0)");
  });
});
