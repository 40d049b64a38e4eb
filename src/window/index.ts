export { type BinaryData, type BinaryFit, fitBinary, fitCloglog, fitLogit, fitProbit } from "./binary-regression.ts";
export { type Batch, type BatchInput, type BatchPick, littleGain, nextPicks } from "./batch.ts";
export {
  type Chance,
  CHANCE_DRAWS,
  aboveClean,
  belowDamage,
  chanceAt,
  type RayTruth,
  rayTruth,
  spreadOver,
  type TruthDraws,
  truthDraws,
} from "./chances.ts";
export {
  atLevel,
  type Choice,
  choiceAt,
  type ChoiceTable,
  choiceTable,
  levelOf,
  LEVELS,
  MEETS,
} from "./choice-table.ts";
export { chooseFastest, likeliest, type RepeatCount } from "./choose.ts";
export {
  chosenWords,
  nothingFoundWords,
  perHundred,
  pickWords,
  statedMax,
  statedProbability,
  stopWords,
} from "./decision-words.ts";
export { edgeRoom, type EdgeRoom, marginFrom, roomWords } from "./edge-room.ts";
export { cleanSitesFor, failureUpperBound } from "./failure-bound.ts";
export { type FlexibleMisfit, type MisfitInput, misfitCheck, type SuspectPatch } from "./flexible-misfit.ts";
export { type FlexibleFit, type FlexibleOptions, fitFlexible } from "./flexible-model.ts";
export { type LatentDraw, type LinkSensitivity, linkSensitivity } from "./link-sensitivity.ts";
export {
  type ProfileRange,
  type SplitSites,
  type TestedSite,
  type ThresholdCurve,
  thresholdCurve,
} from "./threshold-curve.ts";
export { rehearse, type TrialForecast } from "./rehearse.ts";
export { isProven, type Repeats, repeatsToProve, sameSetting } from "./same-setting.ts";
export {
  type Burn,
  evidenceVerdict,
  physicsModel,
  repeatsAmong,
  sequentialTrial,
  type TrialModel,
  type TrialOrder,
  type TrialPolicy,
  type TrialState,
} from "./sequential.ts";
export { productionDrift } from "./production-drift.ts";
export { stopLimits, type StopState, type StopVerdict, stopVerdict } from "./stop-rule.ts";
