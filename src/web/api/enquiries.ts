import type {
  AnswerLineWire,
  AnswerListWire,
  EnquiryListWire,
  EnquiryRecordWire,
  HistoryWire,
  LogbookWire,
} from "#contract";
import type { Sample } from "#terms";
import type { EnquiryDoc } from "../enquiry/doc.ts";
import { call } from "./client.ts";

export type { EnquiryDoc } from "../enquiry/doc.ts";

/** The pages' document; compiles only while everything that the server gives is one. */
type Held<Given extends EnquiryDoc> = Given extends EnquiryDoc ? EnquiryDoc : never;

/** An enquiry as it is kept. What a page sends may leave out what has a default, and so may what it holds. */
export type EnquiryRecord = Omit<EnquiryRecordWire, "enquiry"> & {
  readonly enquiry: Held<EnquiryRecordWire["enquiry"]>;
};

/** A line of the list of enquiries. */
export type EnquiryLine = Omit<EnquiryListWire["enquiries"][number], "enquiry"> & { readonly enquiry: EnquiryDoc };

/** An answer that was written, in short. */
export type AnswerLine = AnswerLineWire;

const at = (id: string): string => encodeURIComponent(id);

export const listEnquiries = (signal?: AbortSignal) =>
  call<{ enquiries: EnquiryLine[] }>("GET", "/enquiries", undefined, signal);
export const getEnquiry = (id: string, signal?: AbortSignal) =>
  call<EnquiryRecord>("GET", `/enquiries/${at(id)}`, undefined, signal);
/** `version` 0 writes a new one; any other must be the version that was read. */
export const putEnquiry = (id: string, version: number, enquiry: EnquiryDoc) =>
  call<EnquiryRecord>("PUT", `/enquiries/${at(id)}`, { version, enquiry });
export const getHistory = (id: string) => call<HistoryWire>("GET", `/enquiries/${at(id)}/history`);
export const getVersion = (id: string, version: number) =>
  call<EnquiryRecord>("GET", `/enquiries/${at(id)}/history/${version}`);
export const getLogbook = (id: string) => call<LogbookWire>("GET", `/enquiries/${at(id)}/logbook`);
export const loadExample = () => call<{ id: string }>("POST", "/example", {});

export const listSamples = (id: string) => call<{ samples: Sample[] }>("GET", `/enquiries/${at(id)}/samples`);
export const putSample = (sample: Sample) => call<{ id: string }>("PUT", `/samples/${at(sample.id)}`, { sample });

export const listAnswers = (id: string) => call<AnswerListWire>("GET", `/enquiries/${at(id)}/answers`);
export const makeAnswer = (id: string, signal: AbortSignal) =>
  call<AnswerLine>("POST", `/enquiries/${at(id)}/answers`, {}, signal);
