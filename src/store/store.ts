import type {
  BeliefWire,
  EnquiryFile,
  GradingWire,
  OutcomeWire,
  PublishedSchema,
  RunLogWire,
  SampleWire,
  SettingWire,
  ShopRecord,
  TrialWire,
} from "#contract";
import type { LibraryFile } from "#library";

/** A file of the user's own library entries, under a name of the user's choice. */
export interface LibraryRecord {
  readonly id: string;
  readonly file: LibraryFile;
}

/** Records that are edited: every save adds a version and none is ever overwritten. */
export interface RecordShapes {
  readonly library: LibraryRecord;
  readonly enquiry: EnquiryFile;
  readonly trial: TrialWire;
  readonly sample: SampleWire;
  /** what a trial taught */
  readonly belief: BeliefWire;
  /** a coupon read from its photographs, with what people said of the readings */
  readonly grading: GradingWire;
  /** what the shop of an enquiry knows of its own times and money; its id is that of the enquiry */
  readonly "shop-record": ShopRecord;
  /** what was done at the machine for a trial; its id is that of the trial */
  readonly "run-log": RunLogWire;
}
export type RecordKind = keyof RecordShapes;

export interface Saved<T> {
  readonly id: string;
  /** from 1 */
  readonly version: number;
  /** ISO 8601 */
  readonly savedAt: string;
  readonly record: T;
}

export interface VersionLine {
  readonly version: number;
  readonly savedAt: string;
}

/** What a list of many trials needs of each. */
export interface TrialLine {
  readonly id: string;
  readonly enquiry: string;
  readonly part: string;
  readonly laser: string;
  /** number of planned patches */
  readonly patches: number;
  /** ISO 8601, of the latest version */
  readonly savedAt: string;
}

/** Latest version of a record without the record. */
export interface RecordHead {
  readonly id: string;
  readonly version: number;
  readonly savedAt: string;
}

/** An enquiry with what belongs to it, counted and not read. */
export interface EnquiryLine extends Saved<EnquiryFile> {
  readonly trials: number;
  /** latest outcomes of all graders */
  readonly outcomes: number;
  readonly answers: number;
  /** ids of the set-ups that trials were planned on, each once */
  readonly lasers: readonly string[];
}

/** Worst that any grader last said of a patch; only patches that somebody graded. */
export interface GradedPatch {
  readonly patch: number;
  /** 0 to 1; null where nobody said */
  readonly residueFraction: number | null;
  readonly metalCondition: number | null;
}

/** What an answer says of a trial that was evaluated in it; null: no window was found. */
export interface KeptWindow {
  readonly trial: string;
  readonly recommended: { readonly setting: SettingWire; readonly proven: boolean } | null;
}

/** Numbers of the last rows; 0 while there is none. What was read before is still right while they stand. */
export interface LastRows {
  readonly records: number;
  /** of the user's own library files, among the records */
  readonly library: number;
  readonly outcomes: number;
  readonly answers: number;
}

/** One grading of one patch; later rows of the same grader supersede earlier ones, none is overwritten. */
export interface SavedOutcome {
  /** order of arrival over all outcomes */
  readonly row: number;
  readonly savedAt: string;
  readonly outcome: OutcomeWire;
}

/** A result with everything it came from. A rerun adds another. */
export interface AnswerRecord {
  readonly enquiry: string;
  readonly enquiryVersion: number;
  /** which published shape the result has */
  readonly shape: PublishedSchema;
  readonly modelVersion: string;
  /** what went in besides the enquiry: seed, draws, set-up, setting … */
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly result: unknown;
}

export interface SavedAnswer extends AnswerRecord {
  readonly id: string;
  readonly savedAt: string;
}
export type AnswerLine = Omit<SavedAnswer, "inputs" | "result">;

export interface PhotoLine {
  readonly sha256: string;
  readonly mediaType: string;
  readonly bytes: number;
  readonly savedAt: string;
}

/** One thing that was saved under an enquiry. */
export interface LogLine {
  readonly savedAt: string;
  readonly what: RecordKind | "outcomes" | "answer";
  /** of the record, the trial of the outcomes, or the answer */
  readonly id: string;
  /** null for what has none */
  readonly version: number | null;
  /** outcomes that were saved together; null for all else */
  readonly count: number | null;
  readonly grader: string | null;
}

/** All that can be asked. It cannot write: a stray write shows in a signature. */
export interface StoreReader {
  latest<K extends RecordKind>(kind: K, id: string): Promise<Saved<RecordShapes[K]> | null>;
  version<K extends RecordKind>(kind: K, id: string, version: number): Promise<Saved<RecordShapes[K]> | null>;
  /** latest version of every record of a kind, last saved first; trials, samples, beliefs and gradings may be narrowed to an enquiry */
  list<K extends RecordKind>(kind: K, enquiry?: string): Promise<Saved<RecordShapes[K]>[]>;
  /** latest version of every trial in short, last saved first; patches are counted, not read */
  trialLines(): Promise<TrialLine[]>;
  /** latest version of every record of a kind without the record, last saved first */
  heads(kind: RecordKind): Promise<RecordHead[]>;
  /** latest version of every enquiry with the number of what belongs to it, last saved first */
  enquiryLines(): Promise<EnquiryLine[]>;
  /** the latest outcomes of a trial as one line per graded patch, by patch */
  gradedPatches(trial: string): Promise<GradedPatch[]>;
  /** windows that an answer holds, without the rest of it; none for an answer of another shape */
  windowsIn(answer: string): Promise<KeptWindow[]>;
  /** when the enquiry, its trials, their outcomes or its gradings were last saved; null where there are none */
  lastChange(enquiry: string): Promise<string | null>;
  /** how far the store has grown */
  lastRows(): Promise<LastRows>;
  /** everything saved under an enquiry, newest first, `most` lines at most */
  logbook(enquiry: string, most: number): Promise<LogLine[]>;
  /** newest first */
  history(kind: RecordKind, id: string): Promise<VersionLine[]>;
  /** the latest outcome of every patch and grader, by patch */
  outcomes(trial: string): Promise<OutcomeWire[]>;
  /** every outcome ever recorded, in order of arrival; of one patch where given */
  outcomeHistory(trial: string, patch?: number): Promise<SavedOutcome[]>;
  /** newest first */
  answers(enquiry: string): Promise<AnswerLine[]>;
  answer(id: string): Promise<SavedAnswer | null>;
  photos(): Promise<PhotoLine[]>;
}

/** A reader that can also write; all of its writes are kept together or not at all. */
export interface StoreTransaction extends StoreReader {
  /**
   * Adds a version and returns it. `expected` is the version that the change was made from (0: new); a record that
   * has moved on is refused with VersionConflict. Putting an earlier version again is how a change is undone.
   */
  put<K extends RecordKind>(kind: K, record: RecordShapes[K], expected?: number): Promise<Saved<RecordShapes[K]>>;
  /** Adds a row per outcome; each must belong to a patch of the trial. Returns the number of rows. */
  addOutcomes(trial: string, outcomes: readonly OutcomeWire[]): Promise<number>;
  addAnswer(answer: AnswerRecord): Promise<SavedAnswer>;
  /** Notes a photo whose file is in place. `Store.savePhoto` does both. */
  notePhoto(photo: Omit<PhotoLine, "savedAt">): Promise<void>;
}

/** What keeps the records. When `write` has resolved, its records survive the loss of power and of the process. */
export interface Store {
  read<T>(work: (reader: StoreReader) => Promise<T>): Promise<T>;
  /** `now` gives the times of its rows where they are not of this moment, as when an archive is taken in. */
  write<T>(work: (transaction: StoreTransaction) => Promise<T>, now?: () => string): Promise<T>;
  /** Keeps a photo under the sha256 of its bytes and returns that. The same photo twice is kept once. */
  savePhoto(bytes: Uint8Array, mediaType: string, now?: () => string): Promise<string>;
  photo(sha256: string): Promise<Uint8Array | null>;
  close(): Promise<void>;
}
