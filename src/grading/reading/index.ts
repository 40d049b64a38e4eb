export { calibrateLight, type LightSamples } from "./calibrate-light.ts";
export type { LightCalibration } from "./light-calibration.ts";
export { type ToneCurve, toneUndoer, undoTone } from "./tone-curve.ts";
export type { GreySample, LayerSample, LightSample, PatchView } from "./view.ts";
