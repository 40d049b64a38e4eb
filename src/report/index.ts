export { buildReport } from "./build-report.ts";
export type {
  EvidenceComparison,
  EvidenceSide,
  GradedFigure,
  HazardZone,
  PartCost,
  PartJob,
  ReportInput,
} from "./input.ts";
export type { Block, Column, Drawing, Evidence, Fact, ReportModel, Section } from "./model.ts";
export { reportHtml } from "./html.ts";
export { drawingSvg, drawingWords } from "./draw.ts";
export { type Chosen, choose } from "./evidence.ts";
export { settingLine, settingRows } from "./setting-rows.ts";
export {
  driftSentence,
  furtherCaveats,
  type LearntRow,
  learntRows,
  nextRows,
  stopHeadlines,
} from "./learnt-rows.ts";
export { chance, waitText } from "./wording.ts";
export * from "./sheets/index.ts";
