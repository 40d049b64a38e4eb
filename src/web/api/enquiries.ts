import type { LogbookWire } from "#contract";
import type { Sample } from "#terms";
import type { EnquiryDoc } from "../enquiry/doc.ts";
import { call } from "./client.ts";

export type { EnquiryDoc } from "../enquiry/doc.ts";

export interface EnquiryLine {
  readonly id: string;
  readonly version: number;
  readonly savedAt: string;
  readonly enquiry: EnquiryDoc;
  readonly trials: number;
  readonly outcomes: number;
  readonly answers: number;
  /** ids of the set-ups that trials were planned on */
  readonly lasers: readonly string[];
  /** of its metals, layers and tried set-ups */
  readonly names: readonly string[];
}

export interface EnquiryRecord {
  readonly id: string;
  readonly version: number;
  readonly savedAt: string;
  readonly enquiry: EnquiryDoc;
}

export interface AnswerLine {
  readonly id: string;
  readonly savedAt: string;
  readonly modelVersion: string;
  readonly enquiryVersion: number;
}

const at = (id: string): string => encodeURIComponent(id);

export const listEnquiries = (signal?: AbortSignal) =>
  call<{ enquiries: EnquiryLine[] }>("GET", "/enquiries", undefined, signal);
export const getEnquiry = (id: string, signal?: AbortSignal) =>
  call<EnquiryRecord>("GET", `/enquiries/${at(id)}`, undefined, signal);
/** `version` 0 writes a new one; any other must be the version that was read. */
export const putEnquiry = (id: string, version: number, enquiry: EnquiryDoc) =>
  call<EnquiryRecord>("PUT", `/enquiries/${at(id)}`, { version, enquiry });
export const getHistory = (id: string) =>
  call<{ versions: { version: number; savedAt: string }[] }>("GET", `/enquiries/${at(id)}/history`);
export const getVersion = (id: string, version: number) =>
  call<EnquiryRecord>("GET", `/enquiries/${at(id)}/history/${version}`);
export const getLogbook = (id: string) => call<LogbookWire>("GET", `/enquiries/${at(id)}/logbook`);
export const loadExample = () => call<{ id: string }>("POST", "/example", {});

export const listSamples = (id: string) => call<{ samples: Sample[] }>("GET", `/enquiries/${at(id)}/samples`);
export const putSample = (sample: Sample) => call<{ id: string }>("PUT", `/samples/${at(sample.id)}`, { sample });

export const listAnswers = (id: string) =>
  call<{ answers: AnswerLine[]; changedAt: string | null }>("GET", `/enquiries/${at(id)}/answers`);
export const makeAnswer = (id: string, signal: AbortSignal) =>
  call<AnswerLine>("POST", `/enquiries/${at(id)}/answers`, {}, signal);
