import { requirePositive } from "#units";
import type { PlateBody } from "./superposition.ts";

/** A plate with what every sum over Gaussians needs. SI. */
export interface PlateKernel {
  /** m²/s */
  readonly diffusivity: number;
  /** m */
  readonly thickness: number;
  /** m², square of the 1/e² radius of what is laid down */
  readonly radius2: number;
  /** from depth factor (1/m) to K·m²/J: 1/(ρc), m³·K/J */
  readonly perHeat: number;
}

export function plateKernel(body: PlateBody, radius: number): PlateKernel {
  const volumetricHeat = requirePositive("volumetric heat", body.volumetricHeat, "J/(m³·K)");
  return {
    diffusivity: requirePositive("conductivity", body.conductivity, "W/(m·K)") / volumetricHeat,
    thickness: requirePositive("plate thickness", body.plateThickness, "m"),
    radius2: requirePositive("radius", radius, "m") ** 2,
    perHeat: 1 / volumetricHeat,
  };
}

/**
 * Heat of one unit per area left at the lit face after t, per volume: S(x)/√(πDt), x = h²/(Dt), S(x) = 1 + 2Σ exp(−m²x)
 * (images of the faces), below x = π by Poisson's sum. age t: s, > 0. Result: 1/m, exact to 1e-15. Errors: none.
 * Source: Carslaw & Jaeger, 2nd ed., 10.3.
 */
export function depthFactor(kernel: PlateKernel, age: number): number {
  const spread = kernel.diffusivity * age;
  const x = (kernel.thickness * kernel.thickness) / spread;
  if (x > 36) return 1 / Math.sqrt(Math.PI * spread);
  const e = Math.exp(x < Math.PI ? (-Math.PI * Math.PI) / x : -x);
  const e4 = e * e * e * e;
  const sum = 1 + 2 * (e + e4 + e4 * e4 * e);
  return x < Math.PI ? sum / kernel.thickness : sum / Math.sqrt(Math.PI * spread);
}

/**
 * −d ln depthFactor/dt: how fast a surface loses heat downwards, 1/s; 1/(2t) while young, 0 once the plate is even.
 * age t: s, > 0. Source: derivative of `depthFactor`.
 */
export function depthDecay(kernel: PlateKernel, age: number): number {
  const x = (kernel.thickness * kernel.thickness) / (kernel.diffusivity * age);
  if (x > 36) return 0.5 / age;
  const z = x < Math.PI ? (Math.PI * Math.PI) / x : x;
  const e = Math.exp(-z);
  const e4 = e * e * e * e;
  const e9 = e4 * e4 * e;
  const weighted = (2 * z * (e + 4 * e4 + 9 * e9)) / (1 + 2 * (e + e4 + e9));
  // With x falling as 1/t: d ln S/d ln t = weighted for the images, and −weighted for the modes.
  return (x < Math.PI ? weighted : 0.5 - weighted) / age;
}
