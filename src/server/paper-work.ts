import type { EnquiryFile, ShopFile, TrialWire } from "#contract";
import type { LibraryFile } from "#library";
import type { Language, ReportModel } from "#report";
import type { EnquiryAnswer } from "#terms";

export const paperKinds = ["procedure", "commissioning", "offer"] as const;
export type PaperKind = (typeof paperKinds)[number];
export const paperFormats = ["pdf", "html"] as const;
export type PaperFormat = (typeof paperFormats)[number];

/** A paper of one part, written from what was kept of an answer. */
export interface PartPaperWork {
  readonly kind: "part-paper";
  readonly paper: PaperKind;
  readonly part: string;
  readonly basis: EnquiryAnswer;
  /** own library files that the answer was worked out with */
  readonly library: readonly LibraryFile[];
  readonly shop: ShopFile;
  readonly format: PaperFormat;
  readonly language: Language;
  readonly revision: string;
  readonly approver: string | null;
  /** ISO 8601 day; null leaves it open */
  readonly validUntil: string | null;
  readonly dateText: string;
}

/** The sheet that the patches of a trial are burned from. */
export interface RunSheetWork {
  readonly kind: "run-sheet";
  readonly trial: TrialWire;
  readonly enquiry: EnquiryFile;
  /** the store's own library files */
  readonly library: readonly LibraryFile[];
  readonly format: PaperFormat;
  readonly language: Language;
  readonly dateText: string;
}

export interface ReportPaperWork {
  readonly kind: "report-pdf";
  readonly model: ReportModel;
}

export type PaperWork = PartPaperWork | RunSheetWork | ReportPaperWork;

export type PaperMade =
  | { readonly body: Uint8Array | string; readonly name: string }
  /** one line of what was wrong with what was asked */
  | { readonly refused: string }
  /** one sentence of why there is no such paper */
  | { readonly missing: string };
