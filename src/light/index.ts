export { depositLight, type LightBalance } from "./deposit-light.ts";
export { type DiffuseLayer, endlessReflectance, kubelkaMunk, reflectanceOver } from "./kubelka-munk.ts";
export { type LightStack, lightStack, type OpticalLayer } from "./light-stack.ts";
export { type OxideColour, oxideColour, oxideColours } from "./oxide-colour.ts";
export { colourMatching, type SeenColour, SPECTRUM, seenColour } from "./seen-colour.ts";
export { type ComplexIndex, filmReflectance, mixedIndex } from "./thin-film.ts";
export { createLightWorkspace, type LightWorkspace } from "./slices.ts";
export { bareAbsorptance, skinDepth } from "./surface.ts";
