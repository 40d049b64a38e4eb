export { parseJsonText, requireTextSize, textMax } from "./json-text.ts";
export { InvalidInputs, unitOfField, validate } from "./validate.ts";
export { type AnswerWire, answerSchema, answerToWire } from "./answer-output.ts";
export { type BeliefWire, beliefFromWire, beliefSchema, beliefToWire } from "./belief-wire.ts";
export { acceptanceTestSchema, testKinds, usualMethod } from "./acceptance-schema.ts";
export {
  type AdviceWire,
  adviceToWire,
  type ComparisonWire,
  comparisonSchema,
  comparisonToWire,
  type TriageWire,
  triageSchema,
  triageToWire,
} from "./comparison-output.ts";
export {
  type DetailsWire,
  detailsSchema,
  detailsToWire,
  type PartDetailsOutput,
  type PartDetailsWire,
} from "./details-output.ts";
export { type EvidenceSideWire, type EvidenceWire, evidenceToWire } from "./evidence-output.ts";
export { type JobWire, jobToWire } from "./job-output.ts";
export { columnOfTest, outcomeColumns, planColumns } from "./csv-columns.ts";
export { plainText, safeText, writeCsv } from "./csv-text.ts";
export {
  colourWords,
  type EnquiryFile,
  enquirySchema,
  type LayerFile,
  nonMetals,
  type PartFile,
} from "./enquiry-schema.ts";
export { beamCheckToWire, type BeamCheckWire } from "./beam-check-output.ts";
export {
  agreementToWire,
  type AgreementWire,
  gaugeStudyToWire,
  type GaugeStudyWire,
} from "./gauging-output.ts";
export {
  type GradingContext,
  gradingId,
  gradingSchema,
  gradingToWire,
  type GradingWire,
  parseGrading,
  rulingFromWire,
  rulingSchema,
  rulingToWire,
  type RulingWire,
  seenReadings,
} from "./grading-wire.ts";
export {
  jsonSchema,
  jsonSchemaText,
  type PublishedSchema,
  publishedSchemas,
  validatePublished,
} from "./json-schemas.ts";
export { type ArchiveWire, archiveSchema, layersToWire, type LikeWire, likeSchema } from "./like-output.ts";
export { parseMarksCsv } from "./marks-csv.ts";
export { parseRulingsCsv } from "./rulings-csv.ts";
export { type GaugeFile, parseGradesCsv, parseReadingsCsv } from "./readings-csv.ts";
export { type OutcomeWire, outcomeFromWire, outcomeSchema, outcomeToWire, parseOutcome } from "./outcome-wire.ts";
export { parseOutcomesCsv, type RecordedOutcomes, type RefusedRow } from "./outcomes-csv.ts";
export { outcomesToCsv } from "./outcomes-csv-write.ts";
export { type PredictionWire, predictionSchema, predictionToWire } from "./prediction-output.ts";
export { type RecordWire, recordSchema, recordToWire } from "./record-output.ts";
export { parseEnquiry, parseEnquiryFile, resolveEnquiry } from "./resolve-enquiry.ts";
export type { LibraryShelves } from "./resolve-part.ts";
export { type PictureOutput, type PictureWire, pictureSchema, pictureToWire } from "./picture-output.ts";
export { goesOn, planRefusal } from "./plan-change.ts";
export {
  parseRunEntry,
  type RunEntryWire,
  runEntryFromWire,
  runEntryToWire,
  type RunLogAnswer,
  runLogAnswerSchema,
  runLogPostSchema,
  type RunLogTaken,
  runLogTakenSchema,
  type RunLogWire,
} from "./run-log-wire.ts";
export { runSheetCsv } from "./run-sheet-csv.ts";
export {
  parseSample,
  type SampleWire,
  sampleFromWire,
  sampleSchema,
  sampleToWire,
  sha256Field,
} from "./sample-wire.ts";
export { type SettingFile, type SettingWire, settingFileSchema, settingSchema } from "./setting-schema.ts";
export { type ShopRecord, shopRecordSchema } from "./shop-record.ts";
export { exampleShop, parseShop, type Shop, type ShopFile, shopSchema, type ShopTimes } from "./shop-schema.ts";
export { parseSetting, settingFromWire, settingToWire } from "./setting-wire.ts";
export { type TransferOutput, transferSchema, transferToWire, type TransferWire } from "./transfer-output.ts";
export {
  parseTrial,
  parseTrialWire,
  samePlan,
  type TrialWire,
  trialFromWire,
  trialSchema,
  trialToWire,
} from "./trial-wire.ts";
export {
  type CautionsOf,
  type SurveyWire,
  surveySchema,
  surveyToWire,
  type VerdictWire,
  verdictSchema,
  verdictToWire,
} from "./verdict-output.ts";
export { type WindowWire, windowSchema, windowToWire } from "./window-output.ts";
export { parseSitesCsv, type SitesFile } from "./sites-csv.ts";
export { rangeToWire, spreadToWire, type ThresholdWire } from "./threshold-output.ts";
export * from "./api/index.ts";
