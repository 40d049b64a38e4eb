export { coloursOf, opticsOf, usualColour } from "./layer-optics.ts";
export { fume, layerKind, metal, setup } from "./lookup.ts";
export { fumeEntries, layerKinds, metals, setups } from "./own-files.ts";
export type { FumeEntry, FumeLimit } from "./fume.ts";
export { drawProperty, propertyQuantile } from "./property-quantile.ts";
export { centralSample, powerFactorSpread, sampleStacks, spotFactorSpread } from "./sample-stacks.ts";
export { type LayerFamily, type LayerGuess, unknownLayerMixture } from "./unknown-layer.ts";
