import type { GradedWire, GradingRecordWire, GradingWire } from "#contract";
import type { NamedPhoto, SheetAsPrinted } from "../photographs/protocol.ts";
import { call } from "./client.ts";

/** A graded coupon as it is kept, with the version that a change has to name. */
export type GradingRecord = GradingRecordWire;

/** What the server reads out of photographs. */
export type ServerReading = GradedWire;

const at = (id: string): string => encodeURIComponent(id);

/** Address of a kept photograph. */
export const photoUrl = (sha256: string): string => `/api/photos/${sha256}`;

export const putPhoto = (file: Blob, signal?: AbortSignal) => call<{ sha256: string }>("PUT", "/photos", file, signal);
export const listGradings = (trialId: string) =>
  call<{ gradings: GradingRecord[] }>("GET", `/trials/${at(trialId)}/gradings`);
/** `version` 0 writes a new one; any other must be the version that was read. */
export const putGrading = (grading: GradingWire, version: number) =>
  call<GradingRecord>("PUT", `/trials/${at(grading.trial)}/gradings/${grading.coupon}`, { version, grading });
export const gradeOnServer = (
  trialId: string,
  photos: readonly NamedPhoto[],
  { printScale, greys }: SheetAsPrinted,
  signal: AbortSignal,
) =>
  call<ServerReading>(
    "POST",
    `/trials/${at(trialId)}/grade`,
    { photos, printScale, ...(greys === null ? {} : { greys }) },
    signal,
  );
