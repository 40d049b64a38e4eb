export type { AreaRate, ScanArea } from "./area-rate.ts";
export { areaRate, handAreaRate, jumpTime, turnTime } from "./area-rate.ts";
export { beamState } from "./beam-state.ts";
export { completeSetting, defaultSetting } from "./complete.ts";
export {
  depthOfFocus,
  diameterAtDefocus,
  fibreImageDiameter,
  focusedDiameter,
  incidenceFactor,
  rayleighLength,
  spotDiameterAt,
} from "./focus.ts";
export { lensOf } from "./lens.ts";
export { checkSetting, frequencyRange } from "./limits.ts";
export { type Burst, burstOf, meanPowerModulated, onTime } from "./modulation.ts";
export {
  type DefocusBand,
  defocusBand,
  type FresnelAbsorptance,
  fluenceBand,
  fresnelAbsorptance,
  type ObliqueSpot,
  obliqueSpot,
  rimAngle,
  sagitta,
} from "./incidence.ts";
export {
  type Wobble,
  type WobbleLoad,
  type WobbleShape,
  wobbleDwell,
  wobbleLoad,
  wobblePosition,
  wobblePulses,
} from "./wobble.ts";
export {
  cutInFrequency,
  cutInFrequencyOf,
  maxPulseEnergy,
  peakPower,
  pulseChoice,
  pulseEnergy,
  pulseShapeFactor,
} from "./pulse.ts";
export { roundToMachine } from "./rounding.ts";
export { arealDose, dwell, lineEnergy, linesPerPoint, overlap, pulsePitch, pulsesPerPoint } from "./scan.ts";
export { fluenceMean, fluencePeak, irradiancePeak } from "./spot-load.ts";
