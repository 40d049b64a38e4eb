export { measurementAdvice } from "./advice.ts";
export { candidateSettings } from "./candidates.ts";
export { comparePulsedContinuous } from "./compare.ts";
export { MODEL_VERSION } from "./model-version.ts";
export { createPartModel, type PartModel, type PartModelOptions } from "./part-model.ts";
export { PATCH_SIDE, patchResults, planOf, predict, productionRate } from "./predict.ts";
export { isClean, isUndamaged, softClean, softUndamaged } from "./scores.ts";
export { searchSettings } from "./search.ts";
export { surveySetup, surveySetups, type SurveyOptions } from "./survey.ts";
export { triage } from "./triage.ts";
export { axisValue, twoEdges } from "./two-edges.ts";
export { type AnswerOptions, answerEnquiry, answerFlow, type TrialEvidence } from "./answer.ts";
export { bookOf, type EdgeBook, edgeBook, type EdgeBookOptions, fullPower } from "./edge-book.ts";
export {
  type EvaluateOptions,
  type Evaluation,
  evaluateTrial,
  evaluateWindow,
  EVIDENCE_DRAWS,
  EVIDENCE_RAYS,
  evidenceModel,
  trialBook,
} from "./evaluate-window.ts";
export { controlPlot, type ControlPlotOptions, type MapAxes } from "./control-plot.ts";
export { beliefOf } from "./learnt.ts";
export { FEATURE_DRAWS, type FeatureReader, featureReader } from "./features.ts";
export { planTrial, type PlanTrialOptions } from "./plan-trial.ts";
export { layerKindsOf, partCautions } from "./cautions-of.ts";
export { reportAnswer, type ReportOptions } from "./report-answer.ts";
export { type MapCheck, mapFlow, type MapOptions, type PhysicsMap } from "./map-flow.ts";
export { axisOver, type MapAxis, type MapControl, mapControls, type MapSpec, settingAt } from "./map-spec.ts";
export { bandCount, type MapBand, mapBand } from "./physics-map.ts";
export { type Odds, oddsOf } from "./odds.ts";
export { type PartTask, type PartWork, type ResultOf, taskRunner } from "./part-task.ts";
export { rankVerdicts } from "./rank.ts";
export { type Asking, workFlow } from "./work-flow.ts";
export { type PatchView, type PatchViewOptions, patchView } from "./patch-view.ts";
export { answerOnBand, type BandAnswer, type CurvedFace, curvedFaces } from "./face-band.ts";
export { bowEstimate, type Stiffness } from "./bow-estimate.ts";
export { type PartHeat, partHeat, partHeatWords } from "./part-heat.ts";
export { type Carried, carried } from "./beliefs.ts";
export { versionsBehind, withSamplingError } from "./belief-sampling.ts";
export { beliefsWithout } from "./beliefs-lineage.ts";
export { queriesOfPart, searchLike } from "./likeness.ts";
export type { LikeCase, LikeQuery, WeightedQuery } from "./likeness-terms.ts";
export { type ReadQuery, readAnyText, readLikeText } from "./likeness-text.ts";
export { queryWords } from "./likeness-words.ts";
export { type PriorPlan, type PriorPlanOptions, priorPlan } from "./prior-plan.ts";
export { type Transfer, type TransferOptions, transferWindow } from "./transfer.ts";
export { gradedFigure, markedPatches } from "./graded-marks.ts";
export { bestLook, gradeTrial, photoPathOf, photoPathWords } from "./grade-trial.ts";
export {
  answerDetails,
  type DetailsOptions,
  EYEWEAR_DISTANCE,
  type PartDetails,
  type SettingDetails,
  settingDetails,
} from "./part-details.ts";
export { partJob } from "./part-job.ts";
export { type BatchOptions, nextBatch } from "./next-batch.ts";
export { paperBasis } from "./paper-basis.ts";
export { type FilmLayer, type FilmMark, type FilmOn, type PulseFilm, pulseFilm } from "./pulse-film.ts";
export { type PapersOptions, papersOf, type PartPapers } from "./papers-of.ts";
