export { CARBON_SUBLIMATION, charBurnt, charHeat, charShattered, charSublimated, charYield } from "./char.ts";
export { conversionTemperature, EATEN_CONVERSION } from "./conversion-temperature.ts";
export { type EffectiveMetal, effectiveMetal } from "./effective-metal.ts";
export {
  filmFactor,
  INTERFACE_REFERENCE_TIME,
  interfaceGasStrength,
  interfaceGasTemperature,
  stressHeld,
  stressStrength,
  ventingFactor,
  ventLength,
} from "./interface-gas.ts";
export { buildKernel, remainingNodes } from "./kernel.ts";
export type { CharNode, InnerFace, Kernel, KernelNode } from "./kernel-types.ts";
export { blendLaw } from "./blend-law.ts";
export { type CharLaw, charLaw } from "./char-law.ts";
export { recession } from "./eaten.ts";
export type { LawConditions } from "./law-conditions.ts";
export { type InnerLaw, type LawTable, lawTable, NO_STRENGTH } from "./law-table.ts";
export { type MetalResponse, metalResponse, type ResponseTable } from "./metal-response.ts";
export { GAS_CONSTANT } from "./gas-constant.ts";
export { type OxideConstants, oxideGrowthSquared, reactionTime } from "./oxide.ts";
export { type HeldLayer, type InterfaceHeat, interlayerStrength } from "./interlayer.ts";
export { arrheniusTime, oxideAfterHistory } from "./oxide-history.ts";
export { fluenceThroughPlume, plumeThreshold } from "./plume.ts";
export { convertedShare } from "./rust-conversion.ts";
export {
  passReactionTime,
  passShape,
  sharpPassReactionTime,
  type SurfacePass,
} from "./pass-reaction-time.ts";
export { pulseReactionTime, sharpPulseReactionTime, type SurfacePulse } from "./reaction-times.ts";
export { type SpreadLine, spreadResponse } from "./spread-response.ts";
export { responseTable } from "./response-table.ts";
export { remainingLayers, residueThickness, type Strip, stripOf } from "./strip.ts";
