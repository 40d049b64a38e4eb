export { openStore, type StoreOptions } from "./open-store.ts";
export type {
  AnswerLine,
  AnswerRecord,
  LibraryRecord,
  PhotoLine,
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
