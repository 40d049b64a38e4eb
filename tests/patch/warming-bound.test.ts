import { describe, expect, it } from "vitest";
import { beamState, defaultSetting } from "#beam";
import { rasterBeforePulse } from "#heat";
import { centralSample, metal, setup } from "#library";
import { effectiveMetal } from "#removal";
import { warmingOf } from "#patch";

const side = 15e-3;
const plateThickness = 5e-3;

/** Share of the pulses of a patch and what they find, over the one figure that a prediction counts with. */
function shares(metalId: string, setupId: string, change: { speed: number; spacing: number; passes: number }) {
  const laser = setup(setupId);
  const base = defaultSetting(laser);
  const setting = {
    ...base,
    speed: base.speed * change.speed,
    lineSpacing: base.lineSpacing * change.spacing,
    passes: change.passes,
  };
  const beam = beamState(laser, setting);
  const sample = centralSample({ metal: metal(metalId), metalThickness: plateThickness, layers: [] });
  const { conductivity, volumetricHeat } = effectiveMetal(sample.metal);
  const frequency = setting.frequency as number;
  const pitch = setting.speed / frequency;
  const pulsesPerLine = Math.floor(side / pitch) + 1;
  const linesPerPass = Math.max(1, Math.round(side / setting.lineSpacing));
  const lineTime = pulsesPerLine / frequency + (2 * setting.speed) / laser.acceleration;
  const found = rasterBeforePulse(
    { conductivity, volumetricHeat, plateThickness },
    {
      energy: beam.pulseEnergy as number,
      radius: beam.spotDiameter / 2,
      pitch,
      lineSpacing: setting.lineSpacing,
      pulsesPerLine,
      linesPerPass,
      period: 1 / frequency,
      lineTime,
      passTime: linesPerPass * lineTime,
      serpentine: true,
    },
    pulsesPerLine * linesPerPass * setting.passes,
  );
  const bound =
    warmingOf(laser, setting, beam, { conductivity, volumetricHeat }, plateThickness, { width: side, height: side })
      .perAbsorbedWatt *
    (beam.pulseEnergy as number) *
    frequency;
  const sorted = found.sort();
  return {
    mean: found.reduce((a, b) => a + b, 0) / found.length / bound,
    low: (sorted[Math.floor(0.1 * sorted.length)] as number) / bound,
    high: (sorted[Math.floor(0.995 * sorted.length)] as number) / bound,
  };
}

describe("the one warming figure of a patch, against the exact rise before each of its pulses", () => {
  it.each([
    ["aluminium-5083", "pulsed-100", { speed: 1, spacing: 1, passes: 1 }],
    ["aluminium-5083", "pulsed-500", { speed: 1, spacing: 1.5, passes: 3 }],
    ["steel-low-carbon", "pulsed-100", { speed: 1.5, spacing: 1, passes: 2 }],
    ["steel-low-carbon", "pulsed-500", { speed: 0.7, spacing: 2, passes: 1 }],
    ["titanium-6-4", "pulsed-500", { speed: 1, spacing: 1, passes: 2 }],
  ] as const)(
    "%s, %s: nine pulses in ten find at least 0.6 of it, the mean lies within 0.7 and 1, nearly none above",
    (metalId, setupId, change) => {
      const { mean, low, high } = shares(metalId, setupId, change);
      expect(low).toBeGreaterThan(0.6);
      expect(mean).toBeGreaterThan(0.7);
      expect(mean).toBeLessThan(1);
      expect(high).toBeLessThan(1.03);
    },
  );
});
