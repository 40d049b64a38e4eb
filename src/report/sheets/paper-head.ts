import { requireText } from "#units";
import type { Language } from "./language.ts";
import { requireLanguage } from "./language.ts";
import { blank, fact, type Sheet, type SheetFact } from "./model.ts";
import { type Speech, speechOf } from "./speech.ts";

/** What every paper carries. Nothing here knows the time: date and ids are handed in. */
export interface PaperHead {
  readonly documentId: string;
  readonly revision: string;
  /** as it is to be printed */
  readonly dateText: string;
  /** null: a line to sign is printed */
  readonly approver: string | null;
  readonly enquiryId: string;
  readonly customer: string;
  /** true where the enquiry is invented: the paper says so */
  readonly invented: boolean;
  readonly modelVersion: string;
}

/** The words and the numbers of a language; throws InvalidInput for one that there is none of. */
export const speak = (language: Language): Speech => speechOf(requireLanguage(language));

type HeadPart = Pick<
  Sheet,
  | "language"
  | "documentId"
  | "approver"
  | "head"
  | "marks"
  | "footer"
  | "pageWord"
  | "blankWords"
  | "tickWords"
  | "losses"
  | "lossLead"
>;

/** The head, foot and marks of a paper. `further` facts stand after the usual ones. Throws InvalidInput for empty text. */
export function paperHead(given: PaperHead, speech: Speech, further: readonly SheetFact[] = []): HeadPart {
  const { common } = speech.words;
  const documentId = requireText("document id", given.documentId, 60);
  const revision = requireText("revision", given.revision, 20);
  const date = requireText("date", given.dateText, 40);
  const approver = given.approver === null ? null : requireText("approver", given.approver, 80);
  const foot = [documentId, `${common.revision} ${revision}`, date, `${common.modelVersion} ${given.modelVersion}`];
  if (given.invented) foot.push(common.invented);
  if (common.asEntered !== "") foot.push(common.asEntered);
  return {
    language: speech.language,
    documentId,
    approver,
    head: [
      fact(common.document, documentId),
      fact(common.revision, revision),
      fact(common.date, date),
      fact(common.enquiry, requireText("enquiry id", given.enquiryId, 60)),
      fact(common.approvedBy, approver ?? blank()),
      ...further,
    ],
    marks: given.invented ? [common.invented] : [],
    footer: foot.join(" · "),
    pageWord: common.page,
    blankWords: common.blank,
    tickWords: common.tick,
    losses: [],
    lossLead: common.leftOut,
  };
}
