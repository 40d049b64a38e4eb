export { depositLight, type LightBalance } from "./deposit-light.ts";
export { type DiffuseLayer, endlessReflectance, kubelkaMunk, reflectanceOver } from "./kubelka-munk.ts";
export { type LightStack, lightStack, type OpticalLayer } from "./light-stack.ts";
export { createLightWorkspace, type LightWorkspace } from "./slices.ts";
export { bareAbsorptance, skinDepth } from "./surface.ts";
