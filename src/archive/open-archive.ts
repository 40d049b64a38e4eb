import type { Library } from "#library";
import type { GradedPatch, StoreReader } from "#store";
import { searchLike } from "#workflows";
import { type Found, foundIn, keptWindows } from "./found.ts";
import { caseReader, type KeptCase, type KeptCases } from "./kept-cases.ts";
import type { Question } from "./question.ts";

/** Trials less like than this are counted, not shown: own choice. */
const LEAST = 0.1;

/** A kept trial with what it found, and its likeness where something was asked. */
export interface Hit<L extends number | null = number | null> {
  readonly case: KeptCase;
  readonly likeness: L;
  readonly words: readonly string[];
  readonly found: Found;
}

/** Some of the hits, with the number of all of them. */
export interface Shelf<L extends number | null> {
  readonly hits: readonly Hit<L>[];
  readonly compared: number;
  /** alike enough to be shown */
  readonly near: number;
  readonly notCompared: number;
}

export interface Page {
  readonly offset: number;
  readonly most: number;
}

/** Trials of a store against one library. What was read once is kept, and read again when it has changed. */
export interface Archive {
  /** by likeness to the question, likest first */
  search(reader: StoreReader, question: Question, page: Page): Promise<Shelf<number>>;
  /** newest first, without a question */
  newest(reader: StoreReader, page: Page): Promise<Shelf<null>>;
  /** no hits, with the number of those that there are to compare */
  nothing(reader: StoreReader): Promise<Shelf<null>>;
}

export function openArchive(library: Library): Archive {
  const read = caseReader(library);
  const windows = keptWindows();
  let kept: { readonly row: number; readonly cases: KeptCases } | null = null;
  let graded = { row: 0, patches: new Map<string, readonly GradedPatch[]>() };
  const casesOf = async (reader: StoreReader): Promise<KeptCases> => {
    const { records: row, outcomes } = await reader.lastRows();
    if (kept?.row !== row) kept = { row, cases: await read(reader) };
    if (graded.row !== outcomes) graded = { row: outcomes, patches: new Map() };
    return kept.cases;
  };
  /** Patches of a trial as they stood when the cases were asked for; read once while no outcome was added. */
  const patchesOf = async (reader: StoreReader, trial: string): Promise<readonly GradedPatch[]> => {
    // That of now: another question may begin a new one while this one reads.
    const { patches } = graded;
    const known = patches.get(trial) ?? (await reader.gradedPatches(trial));
    patches.set(trial, known);
    return known;
  };
  const shelf = async <L extends number | null>(
    reader: StoreReader,
    near: readonly Omit<Hit<L>, "found">[],
    { cases, notCompared }: KeptCases,
    { offset, most }: Page,
  ): Promise<Shelf<L>> => {
    const hits: Hit<L>[] = [];
    for (const one of near.slice(offset, offset + most))
      hits.push({ ...one, found: await foundIn(reader, { windows, patchesOf }, one.case) });
    return { hits, compared: cases.length, near: near.length, notCompared };
  };
  return {
    async search(reader, question, page) {
      const all = await casesOf(reader);
      const near = searchLike(question.queries, all.cases).filter((f) => f.likeness >= LEAST);
      return shelf(reader, near, all, page);
    },
    nothing: async (reader) => shelf<null>(reader, [], await casesOf(reader), { offset: 0, most: 0 }),
    async newest(reader, page) {
      const all = await casesOf(reader);
      return shelf(
        reader,
        all.cases.map((one) => ({ case: one, likeness: null, words: [] })),
        all,
        page,
      );
    },
  };
}
