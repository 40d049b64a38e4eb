import { describe, expect, it } from "vitest";
import { parseSetting, settingFromWire, settingSchema, settingToWire } from "#contract";
import { linesOf } from "./lines.ts";
import { continuous, pulsed, setting } from "./shelves.ts";

const onPulsed = (json: unknown) => linesOf(() => parseSetting(json, pulsed))[0];
const onContinuous = (json: unknown) => linesOf(() => parseSetting(json, continuous))[0];

describe("a setting file", () => {
  it("gives only what it names, in SI", () => {
    expect(parseSetting({}, pulsed)).toEqual({});
    const read = parseSetting(
      { power_W: 90, frequency_kHz: 80, speed_mm_per_s: "2 m/s", lineSpacing_mm: 0.05 },
      pulsed,
    );
    expect(read).toEqual({ power: 90, frequency: 80_000, speed: 2, lineSpacing: 50e-6 });
    expect(parseSetting({ pulseWidth_ns: 100, defocus_mm: -1, level: "80 %", lens: "f254" }, pulsed)).toEqual({
      pulseWidth: 100e-9,
      defocus: -1e-3,
      level: 0.8,
      lens: "f254",
    });
    expect(parseSetting({ frequency_kHz: null, pulseWidth_ns: null }, continuous)).toEqual({
      frequency: null,
      pulseWidth: null,
    });
  });

  it("refuses by name what does not fit", () => {
    expect(onPulsed({ speed: 3 })).toMatch(/^invalid speed: 3 \(unknown field; known: .*speed_mm_per_s/);
    expect(onPulsed({ speed_mm_per_s: -3 })).toBe("invalid speed_mm_per_s: -3 mm/s (must be greater than 0)");
    expect(onPulsed({ level: 1.2 })).toMatch(/^invalid level: 1.2 \(must be at most 1\)/);
    expect(onPulsed({ passes: 0 })).toMatch(/^invalid passes: 0 \(must be at least 1\)/);
    expect(onPulsed({ duty: 0.5 })).toMatch(/duty: 0.5 \(must be 1 for a pulsed set-up\)/);
    expect(onPulsed({ frequency_kHz: null })).toMatch(/frequency_kHz: null|frequency_kHz: missing/);
    expect(onPulsed({ lens: "f9" })).toBe("invalid lens: f9 (pulsed-100 has the lenses f160, f254)");
    expect(onPulsed({ power_W: "35 s" })).toMatch(/power_W: 35 s \(needs a power/);
    expect(onContinuous({ pulseWidth_ns: 100 })).toMatch(/pulseWidth_ns: 100 ns \(continuous-1000 is continuous/);
    expect(onContinuous({ frequency_kHz: null, duty: 0.5 })).toMatch(/duty: 0.5 \(must be 1 for a beam that is not/);
    expect(onPulsed([])).toMatch(/^invalid setting: a list of 0 \(must be an object\)/);
  });

  it("round-trips through the file units without dirt", () => {
    const wire = settingToWire(setting);
    expect(wire).toEqual({
      power_W: 100,
      frequency_kHz: 100,
      pulseWidth_ns: 100,
      level: 0.8,
      duty: 1,
      speed_mm_per_s: 3000,
      lineSpacing_mm: 0.04,
      passes: 2,
      defocus_mm: -0.5,
      lens: "f160",
    });
    expect(settingSchema.parse(wire)).toEqual(wire);
    expect(settingFromWire(wire)).toEqual(setting);
  });
});
