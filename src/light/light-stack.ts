import type { LayerSample, Metre, PerMetre, Ratio, StackSample } from "#terms";
import { invalid, requireNonNegative, requireShare } from "#units";

/** One layer as light sees it. */
export interface OpticalLayer {
  readonly thickness: Metre;
  /** K of Kubelka and Munk, 1/m; also what collimated light loses per metre to absorption */
  readonly absorption: PerMetre;
  /** S of Kubelka and Munk, 1/m; collimated light loses 4/3 of it per metre to scattering */
  readonly scattering: PerMetre;
  /**
   * Share thrown back where light passes between this layer and the one above it, 0 when not given. Matters for a
   * metallic layer under paint. Not read on the top layer, whose surface has reflectances of its own.
   */
  readonly frontReflectance?: Ratio;
}

/** Layers from the top down to the metal, with the reflectances of the outer surface. */
export interface LightStack {
  readonly layers: readonly OpticalLayer[];
  /** share of the light reaching the metal that it absorbs */
  readonly metalAbsorptance: Ratio;
  /** of the outer surface for collimated light, from either side; about 0.04 for a polymer */
  readonly externalReflectance: Ratio;
  /** of the outer surface for diffuse light from inside; 0.55 to 0.6 for a polymer */
  readonly internalReflectance: Ratio;
}

/** Throws InvalidInput where a stack has no meaning; a surface that lets nothing through has none here. */
export function checkLightStack(stack: LightStack): void {
  requireShare("metal absorptance", stack.metalAbsorptance);
  for (const [name, value] of [
    ["external reflectance", stack.externalReflectance],
    ["internal reflectance", stack.internalReflectance],
  ] as const) {
    if (!(value >= 0 && value < 1)) invalid(name, value, "", "0 or more and below 1");
  }
  for (const layer of stack.layers) {
    requireNonNegative("layer thickness", layer.thickness, "m");
    requireNonNegative("layer absorption", layer.absorption, "1/m");
    requireNonNegative("layer scattering", layer.scattering, "1/m");
    const front = layer.frontReflectance ?? 0;
    if (!(front >= 0 && front < 1)) invalid("front reflectance", front, "", "0 or more and below 1");
  }
}

/** A buried layer that would reflect more than this in air is metallic and reflects under paint as well (own choice). */
const METALLIC_REFLECTANCE = 0.3;

const opticalLayer = (layer: LayerSample): OpticalLayer => ({
  thickness: layer.thickness,
  absorption: layer.absorption,
  scattering: layer.scattering,
  frontReflectance: layer.externalReflectance > METALLIC_REFLECTANCE ? layer.externalReflectance : 0,
});

/** A drawn stack as light sees it; the outer surface is that of the top layer. Optical constants near 1.06 µm. */
export function lightStack(sample: Pick<StackSample, "layers" | "metal">): LightStack {
  const top = sample.layers[0];
  return {
    layers: sample.layers.map(opticalLayer),
    metalAbsorptance: sample.metal.absorptance,
    externalReflectance: top?.externalReflectance ?? 0,
    internalReflectance: top?.internalReflectance ?? 0,
  };
}
