export { type BinaryData, type BinaryFit, fitBinary, fitCloglog, fitLogit, fitProbit } from "./binary-regression.ts";
export { diagnose, evidenceCaveats, leaveOneOutBrier, priorShare } from "./diagnose.ts";
export type { EdgePosterior } from "./edge-posterior.ts";
export { failureUpperBound } from "./failure-bound.ts";
export { type FitOptions, fitWindow, type WindowFit } from "./fit-window.ts";
export { groupCentre, type GroupName, groupNames, type GroupVector } from "./groups.ts";
export { expectedImprovement } from "./improvement.ts";
export { edgeProbability, marginOf, type ScaleDose } from "./margin.ts";
export { type NextBatch, type NextInput, nextBatch, nextPatches } from "./next-patches.ts";
export { noWindowWords } from "./no-window-words.ts";
export {
  meanProbabilities,
  predictWindow,
  type ProbabilitySpread,
  type WindowDraws,
  windowProbabilities,
  type WindowPrediction,
} from "./predict-window.ts";
export { type EdgePrior, cleanPrior, undamagedPrior } from "./prior.ts";
export { recommend, type RecommendInput } from "./recommend.ts";
export {
  type Candidate,
  type Drift,
  meetsConfidence,
  robustProbabilities,
  type RobustScore,
  robustScore,
} from "./robust.ts";
export { isProven, type Repeats, repeatsOf, repeatsToProve, sameSetting } from "./same-setting.ts";
export { type MapInput, windowMap } from "./window-map.ts";
export { perHundred, statedMax, statedProbability } from "./words.ts";
