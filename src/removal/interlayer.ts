import { requireNonNegative, requirePositive } from "#units";
import { filmFactor, interfaceGasStrength, ventingFactor, ventLength } from "./interface-gas.ts";

/** A layer as it holds to the one below it. SI; the figures of `LayerSample`. */
export interface HeldLayer {
  readonly thickness: number;
  readonly interfaceTemperature: number;
  readonly interfaceActivationEnergy: number;
  /** Pa, as the library keeps it (to metal, mostly) */
  readonly adhesionStrength: number;
  /** 1, how much stronger it holds to the layer below than that; 1 where nothing is known, 0.3 to 2 between coats */
  readonly bondRatio: number;
  readonly filmStrength: number;
  /** false for oxides and metallic layers, which do not soften */
  readonly softens: boolean;
}

/** What one event does at one buried interface. */
export interface InterfaceHeat {
  /** s near the peak */
  readonly time: number;
  /** K at the interface */
  readonly temperature: number;
  /** K, mean over everything above it */
  readonly meanAbove: number;
  /** m, 1/e² radius of the spot */
  readonly radius: number;
}

/**
 * How far a buried interface is over what lifts everything above it, as a natural logarithm of the adhesion overcome
 * (0: layers of median adhesion just lift). The criterion of the metal interface, with the interlayer's own kinetics
 * and strength and with the film made of all layers above.
 *
 * Equation: `interfaceGasStrength` of the layer just above, need = (b + 2·Σ(h·τ_s)/(r·σ_ad))·(1 + τ·c/L), b the bond ratio.
 * Units: as in `HeldLayer` and `InterfaceHeat`; result 1.
 * Range: one layer or more above; gas comes from the skin of the layer just above.
 * Errors: InvalidInput for no layer or a time, temperature or radius that is not positive.
 * Source: own derivation, as `interfaceGasStrength`.
 */
export function interlayerStrength(above: readonly HeldLayer[], heat: InterfaceHeat): number {
  const holding = above[above.length - 1];
  requirePositive("layers above the interface", above.length);
  requirePositive("time", heat.time, "s");
  requirePositive("interface temperature", heat.temperature, "K");
  requirePositive("spot radius", heat.radius, "m");
  let thickness = 0;
  let sheared = 0;
  for (const layer of above) {
    thickness += requireNonNegative("layer thickness", layer.thickness, "m");
    sheared += layer.thickness * layer.filmStrength;
  }
  const { interfaceTemperature, interfaceActivationEnergy, adhesionStrength } = holding!;
  const bond = requirePositive("bond ratio", holding!.bondRatio);
  const rim =
    bond * filmFactor(thickness, thickness > 0 ? sheared / thickness : 0, heat.radius, bond * adhesionStrength);
  const length = above.every((l) => l.softens)
    ? Math.max(ventLength(heat.radius, thickness, heat.meanAbove), 1e-9)
    : heat.radius;
  return interfaceGasStrength(
    interfaceTemperature,
    interfaceActivationEnergy,
    heat.time,
    heat.temperature,
    rim * ventingFactor(heat.time, length),
  );
}
