import { describe, expect, it } from "vitest";
import { plumeFactor } from "#library";
import {
  convertedShare,
  filmFactor,
  fluenceThroughPlume,
  type HeldLayer,
  interfaceGasStrength,
  interlayerStrength,
  plumeThreshold,
  ventingFactor,
} from "#removal";
import { InvalidInput } from "#units";

describe("plume", () => {
  it("lets everything through below its threshold, and above it a share that falls while the rest still rises", () => {
    const fs = plumeThreshold(100e-9);
    // 4.8e8·√τ J/m² (Phipps et al. 1988, from memory): 15.2 J/cm² at 100 ns, 4.8 at 10 ns
    expect(fs / 1e4).toBeCloseTo(15.18, 2);
    expect(plumeThreshold(10e-9) / 1e4).toBeCloseTo(4.8, 6);
    expect(fluenceThroughPlume(0.3 * fs, fs)).toBe(0.3 * fs);
    expect(fluenceThroughPlume(Math.E * fs, fs)).toBeCloseTo(2 * fs, 6);
    let [before, share] = [0, 1];
    for (let x = 0.5; x < 100; x *= 1.1) {
      const arrives = fluenceThroughPlume(x * fs, fs);
      expect(arrives).toBeGreaterThan(before);
      if (x > 1.1) expect(arrives / (x * fs)).toBeLessThan(share);
      [before, share] = [arrives, arrives / (x * fs)];
    }
  });

  it("bends without a corner: value and slope agree on both sides", () => {
    const h = 1e-6;
    const [below, at, above] = [1 - h, 1, 1 + h].map((f) => fluenceThroughPlume(f, 1)) as [number, number, number];
    expect((at - below) / h).toBeCloseTo((above - at) / h, 5);
    expect(plumeFactor.high / plumeFactor.value).toBeCloseTo(plumeFactor.value / plumeFactor.low, 1);
    expect(() => fluenceThroughPlume(-1, 1)).toThrow(InvalidInput);
    expect(() => plumeThreshold(0)).toThrow("invalid pulse width: 0 s");
  });
});

describe("rust to magnetite", () => {
  /** s held at K, then gone: the share converted. */
  const held = (time: number, temperature: number) => convertedShare([0, time], [temperature, temperature]);

  it("orders the regimes of Osticioli and Siano 2013: not in 8 ns, hardly in 120 ns, most of it in 40 to 120 µs", () => {
    // rust just below its ablation (library: 1700 to 3000 K) in the short pulses, molten or nearly so in the long ones
    expect(held(8e-9, 2500)).toBeLessThan(0.02);
    expect(held(120e-9, 2500)).toBeLessThan(0.2);
    expect(held(40e-6, 1800)).toBeGreaterThan(0.8);
    expect(held(120e-6, 1800)).toBeGreaterThan(0.99);
    expect(held(120e-6, 1000)).toBeLessThan(0.02);
  });

  it("is 1 − e⁻¹ after the stated time at the stated temperature, and adds up over stretches", () => {
    expect(held(1 / 6e4, 1700)).toBeCloseTo(1 - Math.exp(-1), 9);
    const two = convertedShare([0, 1e-5, 1e-5, 3e-5], [1500, 1500, 1900, 1900]);
    expect(1 - two).toBeCloseTo((1 - held(1e-5, 1500)) * (1 - held(2e-5, 1900)), 12);
    expect(held(1e-5, 1900)).toBeGreaterThan(held(1e-5, 1700));
  });
});

describe("lift-off between layers", () => {
  const layer: HeldLayer = {
    thickness: 40e-6,
    interfaceTemperature: 950,
    interfaceActivationEnergy: 130e3,
    adhesionStrength: 4e6,
    bondRatio: 1,
    filmStrength: 20e6,
    softens: true,
  };
  const heat = { time: 100e-9, temperature: 1100, meanAbove: 320, radius: 50e-6 };

  it("is the criterion of the metal interface for a single layer", () => {
    const stiff = { ...layer, softens: false };
    const need = filmFactor(40e-6, 20e6, 50e-6, 4e6) * ventingFactor(100e-9, 50e-6);
    expect(interlayerStrength([stiff], heat)).toBeCloseTo(interfaceGasStrength(950, 130e3, 100e-9, 1100, need), 12);
  });

  it("rises with temperature, falls with a stronger bond and with what lies above", () => {
    const one = interlayerStrength([layer], heat);
    expect(interlayerStrength([layer], { ...heat, temperature: 1200 })).toBeGreaterThan(one);
    expect(interlayerStrength([{ ...layer, interfaceTemperature: 1200 }], heat)).toBeLessThan(one);
    expect(interlayerStrength([{ ...layer, bondRatio: 2 }], heat)).toBeLessThan(one);
    expect(interlayerStrength([{ ...layer, bondRatio: 0.5 }], heat)).toBeGreaterThan(one);
    expect(interlayerStrength([layer, layer], heat)).toBeLessThan(one);
    // the bond that parts is that of the layer just above it, not of the topmost
    const weakBelow = [layer, { ...layer, interfaceTemperature: 800 }];
    const weakAbove = [{ ...layer, interfaceTemperature: 800 }, layer];
    expect(interlayerStrength(weakBelow, heat)).toBeGreaterThan(interlayerStrength(weakAbove, heat));
    expect(() => interlayerStrength([], heat)).toThrow("invalid layers above the interface: 0");
  });
});
