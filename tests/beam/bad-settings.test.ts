import { describe, expect, it } from "vitest";
import { checkSetting, completeSetting } from "#beam";
import { pulsed } from "./setups.ts";

describe("pulses that would run into each other", () => {
  const width = 500e-9;
  const setup = { ...pulsed, pulses: [{ width, energyMax: 1e-3, frequencyMax: 5e6 }], frequencyMax: 5e6 };
  const at = (frequency: number) => ({ ...completeSetting(setup, { pulseWidth: width }), frequency, speed: 1 });

  it("are refused in one sentence from width × frequency = 1 on", () => {
    expect(() => checkSetting(setup, at(1.9e6))).not.toThrow();
    for (const frequency of [2e6, 3e6])
      expect(() => checkSetting(setup, at(frequency))).toThrow(
        `invalid frequency: ${frequency / 1e3} kHz (below 2000 kHz: pulses of 500 ns would run into each other)`,
      );
  });
});
