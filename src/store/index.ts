export { schemaVersion } from "./migrations.ts";
export { openStore, type StoreOptions } from "./open-store.ts";
export type {
  AnswerLine,
  AnswerRecord,
  EnquiryLine,
  GradedPatch,
  KeptWindow,
  LastRows,
  LibraryRecord,
  LogLine,
  PhotoLine,
  RecordHead,
  RecordKind,
  RecordShapes,
  Saved,
  SavedAnswer,
  SavedOutcome,
  Store,
  StoreReader,
  StoreTransaction,
  TrialLine,
  VersionLine,
} from "./store.ts";
export { VersionConflict } from "./version-conflict.ts";
export { refusalOfPlan } from "./plan-refusal.ts";
