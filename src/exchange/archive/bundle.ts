import type { OutcomeWire } from "#contract";
import type { PhotoLine, RecordKind, RecordShapes, SavedAnswer } from "#store";

export interface ArchivedVersion {
  /** from 1, without gaps */
  readonly version: number;
  /** ISO 8601, when it was first saved */
  readonly savedAt: string;
  readonly record: RecordShapes[RecordKind];
}

/** A record with its whole history, oldest version first. */
export interface ArchivedRecord {
  readonly kind: RecordKind;
  readonly id: string;
  readonly versions: readonly ArchivedVersion[];
}

export interface ArchivedOutcome {
  readonly savedAt: string;
  readonly outcome: OutcomeWire;
}

/** An answer without the number that its store gave it. */
export type ArchivedAnswer = Omit<SavedAnswer, "id">;

export interface ArchivedPhoto extends PhotoLine {
  readonly content: Uint8Array;
}

/** Everything that belongs to one trial, in an order that does not depend on the store it came from. */
export interface TrialBundle {
  readonly trialId: string;
  readonly records: readonly ArchivedRecord[];
  /** in order of arrival */
  readonly outcomes: readonly ArchivedOutcome[];
  /** oldest first */
  readonly answers: readonly ArchivedAnswer[];
  readonly photos: readonly ArchivedPhoto[];
}

/** The latest version of the only record of a kind, or null. */
export function latestOf<K extends RecordKind>(bundle: TrialBundle, kind: K): RecordShapes[K] | null {
  const found = bundle.records.find((r) => r.kind === kind);
  return (found?.versions.at(-1)?.record as RecordShapes[K] | undefined) ?? null;
}
