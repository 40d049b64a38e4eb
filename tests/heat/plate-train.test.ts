import { describe, expect, it } from "vitest";
import { pulseTrainRise, trainRise } from "#heat";
import { createRandom } from "#numerics";

describe("rise before a pulse from the earlier pulses of its row", () => {
  it("within 1e-4 of the direct sum over 60 seeded rows", () => {
    const random = createRandom(404);
    const between = (low: number, high: number) => low * (high / low) ** random.next();
    for (let k = 0; k < 60; k++) {
      const body = {
        conductivity: between(10, 400),
        volumetricHeat: between(2e6, 4e6),
        plateThickness: between(0.3e-3, 1e-2),
      };
      const radius = between(20e-6, 2e-3);
      const speed = between(0.05, 12);
      const pitch = radius * between(0.05, 3);
      const row = { frequency: speed / pitch, speed, radius, length: between(0.5, 500) * pitch };
      const count = Math.floor((row.length / speed) * row.frequency);
      const x = Float64Array.from({ length: count }, (_, i) => (i - count) * pitch);
      const time = Float64Array.from({ length: count }, (_, i) => (i - count) / row.frequency);
      const direct = pulseTrainRise(body, 1 / row.frequency, radius, { x, y: new Float64Array(count), time }, 0, 0, 0);
      const rise = trainRise(body, row);
      if (count === 0) expect(rise).toBe(0);
      else expect(Math.abs(rise / direct - 1), JSON.stringify({ body, row })).toBeLessThan(1e-4);
    }
  });
  it("refuses a row without length", () => {
    const body = { conductivity: 40, volumetricHeat: 4e6, plateThickness: 1e-3 };
    expect(() => trainRise(body, { frequency: 1e5, speed: 1, radius: 1e-4, length: 0 })).toThrow("invalid length: 0 m");
  });
});
