import { describe, expect, it } from "vitest";
import { layerEdges, linearColumn } from "#heat";

const bare = {
  layers: [],
  edges: new Float64Array([0]),
  absorbed: new Float64Array(0),
  metalAbsorbed: 1,
  metalConductivity: 50,
  metalVolumetricHeat: 7850 * 480,
  metalThickness: 1,
  duration: 1e-7,
  shape: "square" as const,
  followFor: 3e-7,
};

describe("the linear column", () => {
  it("meets the half-space under constant flux (Carslaw and Jaeger 1959, 2.9: 2599.648 K)", () => {
    const result = linearColumn(bare);
    expect(result.metalPeak * 1e4).toBeGreaterThan(2599.648 * 0.995);
    expect(result.metalPeak * 1e4).toBeLessThan(2599.648 * 1.005);
    expect(result.energyRatio).toBeCloseTo(1, 9);
  });

  it("meets Beer-Lambert heating (Ready 1971: 508.0748 K at the surface)", () => {
    const edges = layerEdges(60e-6, 0.1e-6, 60);
    const absorbed = Float64Array.from(
      { length: edges.length - 1 },
      (_, i) => Math.exp(-1e5 * edges[i]) - Math.exp(-1e5 * edges[i + 1]),
    );
    const layers = [{ thickness: 60e-6, conductivity: 0.3, volumetricHeat: 1300 * 1500 }];
    const result = linearColumn({
      ...bare,
      layers,
      edges,
      absorbed,
      metalAbsorbed: 0,
      metalConductivity: 0.3,
      metalVolumetricHeat: 1300 * 1500,
      followFor: 1e-9,
    });
    expect((result.peak[0] * 1e4) / 508.0748).toBeGreaterThan(0.995);
    expect((result.peak[0] * 1e4) / 508.0748).toBeLessThan(1.005);
  });

  it("meets a film on a substrate (image series: 138.1736 and 3.8741 K)", () => {
    const edges = layerEdges(50e-6, 0.5e-6, 30);
    const absorbed = new Float64Array(edges.length - 1);
    absorbed[0] = 1;
    const layers = [{ thickness: 50e-6, conductivity: 0.3, volumetricHeat: 1300 * 1500 }];
    const result = linearColumn({
      ...bare,
      layers,
      edges,
      absorbed,
      metalAbsorbed: 0,
      duration: 0.01,
      followFor: 1e-5,
    });
    expect((result.peak[0] * 1e4) / 138.1736).toBeGreaterThan(0.99);
    expect((result.peak[0] * 1e4) / 138.1736).toBeLessThan(1.01);
    expect((result.metalPeak * 1e4) / 3.8741).toBeGreaterThan(0.99);
    expect((result.metalPeak * 1e4) / 3.8741).toBeLessThan(1.01);
  });

  it("keeps the energy of a passing Gaussian", () => {
    expect(linearColumn({ ...bare, shape: "gaussian", duration: 1e-4, followFor: 1e-3 }).energyRatio).toBeCloseTo(1, 9);
  });

  it("meets the half-space under a passing Gaussian: ∫q(t')/√(πkρc(t − t')) dt'", () => {
    const width = 1e-4;
    const result = linearColumn({ ...bare, shape: "gaussian", duration: width, followFor: 2e-4 });
    const flux = (t: number) => (Math.sqrt(8 / Math.PI) / width) * Math.exp(-8 * (t / width) ** 2);
    let peak = 0;
    for (let k = 0; k <= 60; k++) {
      const t = (k / 60) * 0.6 * width;
      // s = √(t − t') takes the root out of the integrand
      const n = 4000;
      const top = Math.sqrt(t + width);
      let sum = 0;
      for (let i = 0; i < n; i++) sum += (2 * flux(t - (((i + 0.5) / n) * top) ** 2) * top) / n;
      peak = Math.max(peak, sum / Math.sqrt(Math.PI * 50 * 7850 * 480));
    }
    expect(result.metalPeak / peak).toBeGreaterThan(0.99);
    expect(result.metalPeak / peak).toBeLessThan(1.01);
  });
});
