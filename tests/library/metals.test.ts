import { describe, expect, it } from "vitest";
import { layerKind, metal, metals } from "#library";

/** Polished metal, normal incidence: A = 4n/((n + 1)² + k²) (Fresnel; Born & Wolf). */
const absorptance = (n: number, k: number) => (4 * n) / ((n + 1) ** 2 + k ** 2);

describe("metals", () => {
  // Tabulated n and k at 1.064 µm; absorptance as printed to three decimals
  it.each([
    ["steel-low-carbon", 0.374], // Fe: Johnson & Christy, Phys. Rev. B 9 (1974) 5056
    ["stainless-304", 0.374],
    ["cast-iron", 0.374],
    ["aluminium-1050", 0.05], // Al: Rakić, Appl. Opt. 34 (1995) 4755
    ["aluminium-5083", 0.05],
    ["copper", 0.027], // Cu: Johnson & Christy, Phys. Rev. B 6 (1972) 4370
    ["titanium-6-4", 0.385], // Ti: Johnson & Christy 1974
    ["zinc", 0.116], // Zn: Werner et al., J. Phys. Chem. Ref. Data 38 (2009) 1013
  ])("%s polished takes %f of the light", (id, printed) => {
    const m = metal(id);
    expect(Math.abs(absorptance(m.refractiveIndex!.value, m.extinctionCoefficient!.value) - printed)).toBeLessThan(
      0.0005,
    );
  });

  it("take at least as much light as received as polished", () => {
    for (const m of metals) {
      const polished = absorptance(m.refractiveIndex!.value, m.extinctionCoefficient!.value);
      expect(m.absorptance.high, m.id).toBeGreaterThan(polished);
    }
    const { value, low, high } = metal("aluminium-5083").absorptance;
    expect([low, value, high]).toEqual([0.1, 0.15, 0.25]);
  });

  it("opaque layers absorb within the depth that their extinction gives", () => {
    const alpha = (k: number) => (4 * Math.PI * k) / 1.064e-6;
    // magnetite k 0.370: Querry (1985); zinc k 9.08: Werner et al. (2009)
    expect(layerKind("mill-scale").optics.natural!.absorption.value / alpha(0.37)).toBeCloseTo(1, 1);
    expect(layerKind("zinc-coating").optics.natural!.absorption.value / alpha(9.08)).toBeCloseTo(1, 2);
  });

  it("iron oxide grows as published", () => {
    // Chen & Yuen, Oxid. Met. 59 (2003) 433: k_p = 6.1 exp(−169452/RT) cm²/s, 700-1250 °C
    const growth = metal("steel-low-carbon").oxideGrowth!;
    const kp = growth.preExponential.value * Math.exp(-growth.activationEnergy.value / (8.314462618 * 1273.15));
    const kpSquareCentimetre = 6.1 * Math.exp(-169452 / (8.314462618 * 1273.15));
    expect(kp / 1e-4 / kpSquareCentimetre).toBeCloseTo(1, 12);
    expect([growth.fittedFrom, growth.fittedTo]).toEqual([973, 1523]);
  });

  it("steel conducts and stores heat as the fire-design standard says", () => {
    // EN 1993-1-2: λ = 54 − 0.0333 θ; c = 425 + 0.773 θ − 1.69e-3 θ² + 2.22e-6 θ³, 20-600 °C (from memory)
    const { conductivity: k, heatCapacity: c } = metal("steel-low-carbon");
    k.temperature.forEach((t, i) => {
      if (t <= 973) expect(k.value[i]!).toBeCloseTo(54 - 0.0333 * (t - 273), 0);
    });
    c.temperature.forEach((t, i) => {
      const x = t - 273;
      if (t <= 873)
        expect(Math.abs(c.value[i]! - (425 + 0.773 * x - 1.69e-3 * x ** 2 + 2.22e-6 * x ** 3))).toBeLessThan(1);
    });
  });

  it("warn of light-metal dust and zinc fume", () => {
    for (const id of ["aluminium-1050", "aluminium-5083", "aluminium-6061", "titanium-6-4"]) {
      expect(metal(id).cautions.join(" ")).toMatch(/dust/i);
    }
    expect(metal("zinc").cautions.join(" ")).toMatch(/zinc oxide fume/i);
  });
});
