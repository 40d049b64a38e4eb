import { type DetailsWire, type ShopFile, shopSchema, validate, validatePublished } from "#contract";
import type { LibraryFile } from "#library";
import type { ReportModel } from "#report";
import type { SavedAnswer, StoreReader } from "#store";
import type { EnquiryAnswer } from "#terms";
import { NotFound } from "./errors.ts";

/** What is kept beside an answer; answers of earlier versions have the report alone. */
export interface AnswerInputs {
  readonly seed?: number;
  readonly drawCount?: number;
  readonly report: ReportModel;
  readonly details?: unknown;
  readonly basis?: EnquiryAnswer;
  readonly changedAt?: string | null;
  /** own library files behind it, in the order in which they were taken in */
  readonly library?: readonly { readonly id: string; readonly version: number }[];
  readonly shop?: { readonly version: number; readonly file: unknown };
}

const inputsOf = (saved: SavedAnswer): AnswerInputs => saved.inputs as unknown as AnswerInputs;

/** An answer by its id. Throws NotFound where there is none. */
export async function findAnswer(reader: StoreReader, id: string): Promise<SavedAnswer> {
  const saved = await reader.answer(id);
  if (saved === null) throw new NotFound(`there is no answer ${id.slice(0, 80)}`);
  return saved;
}

/** The answer of an enquiry that papers are written from: the one that is named, or the newest. */
export async function answerOf(reader: StoreReader, enquiry: string, id: string | undefined): Promise<SavedAnswer> {
  const lines = await reader.answers(enquiry);
  const line = id === undefined ? lines[0] : lines.find((a) => a.id === id);
  if (line === undefined)
    throw new NotFound(
      id === undefined
        ? `enquiry ${enquiry.slice(0, 80)} has no answer yet: write the report first`
        : `enquiry ${enquiry.slice(0, 80)} has no answer ${id.slice(0, 80)}`,
    );
  return findAnswer(reader, line.id);
}

/** The own library files that an answer was worked out with, as they were then; none for an answer of an earlier version. */
export async function libraryOf(reader: StoreReader, saved: SavedAnswer): Promise<LibraryFile[]> {
  const files: LibraryFile[] = [];
  for (const { id, version } of inputsOf(saved).library ?? []) {
    const kept = await reader.version("library", id, version);
    if (kept === null) throw new NotFound(`own library file ${id}, version ${version}, behind ${saved.id} is not kept`);
    files.push(kept.record.file);
  }
  return files;
}

/** When anything that an answer stands on had last been saved; null where it was not kept. */
export const changeOf = (saved: SavedAnswer): string | null => inputsOf(saved).changedAt ?? null;

/** Seed and number of the draws behind an answer; null where they were not kept. */
export function drawsOf(saved: SavedAnswer): { readonly seed: number | null; readonly draws: number | null } {
  const { seed = null, drawCount = null } = inputsOf(saved);
  return { seed, draws: drawCount };
}

export const reportOf = (saved: SavedAnswer): ReportModel => inputsOf(saved).report;

const older = (saved: SavedAnswer): never => {
  throw new NotFound(`${saved.id} was kept by an earlier version without this: write the report again`);
};

/** Delivery, time, cost, hazards and evidence as they were kept. Throws NotFound for an answer of an earlier version. */
export function detailsOf(saved: SavedAnswer): DetailsWire {
  const { details } = inputsOf(saved);
  return details === undefined ? older(saved) : validatePublished("details", details, `details of ${saved.id}`);
}

/** What papers are written from. Throws NotFound for an answer of an earlier version. */
export const basisOf = (saved: SavedAnswer): EnquiryAnswer => inputsOf(saved).basis ?? older(saved);

/** The shop figures that an answer was reckoned with. */
export function shopOf(saved: SavedAnswer): { readonly version: number; readonly file: ShopFile } {
  const { shop } = inputsOf(saved);
  return shop === undefined
    ? { version: 0, file: {} }
    : { version: shop.version, file: validate(shopSchema, shop.file, `shop figures of ${saved.id}`) };
}
