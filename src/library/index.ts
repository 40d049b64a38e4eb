export { coordinateNames } from "./coordinate-names.ts";
export { createLibrary, type Library } from "./create-library.ts";
export { libraryFileJsonSchema, libraryFileSchema } from "./file-schema.ts";
export type { LibraryFile } from "./file-shape.ts";
export type { FumeEntry, FumeLimit } from "./fume.ts";
export type { KnownNumber, KnownNumbers } from "./known-numbers.ts";
export { coloursOf, opticsOf, usualColour } from "./layer-optics.ts";
export { fume, layerKind, metal, setup } from "./lookup.ts";
export { fumeEntries, layerKinds, metals, setups } from "./own-files.ts";
export { parseLibraryFile } from "./parse-file.ts";
export { drawProperty, propertyQuantile } from "./property-quantile.ts";
export { CONVERSION_REFERENCE, conversionEnergy, conversionRate, plumeFactor } from "./removal-priors.ts";
export {
  centralSample,
  type DrawnStack,
  drawStacks,
  powerFactorSpread,
  sampleStacks,
  spotFactorSpread,
} from "./sample-stacks.ts";
export { type OxideFilm, oxideFilm, visibleIndex } from "./visible-optics.ts";
export { type LayerFamily, type LayerGuess, unknownLayerMixture } from "./unknown-layer.ts";
