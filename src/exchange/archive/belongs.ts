import type { TrialWire } from "#contract";
import { publishedSchemas } from "#contract";
import type { AnswerRecord, LibraryRecord, RecordKind } from "#store";
import { textsIn } from "./canonical.ts";

/**
 * Every kind of record that a store may hold: those with a published shape, and library files. Asked by name and not
 * listed one by one, so that a kind that comes later is archived without a change here.
 */
export const recordKinds: readonly RecordKind[] = ["library", ...publishedSchemas].sort() as RecordKind[];

/**
 * Whether a record belongs to a trial: the trial and its enquiry by name, whatever names the trial, and whatever names
 * the enquiry and no other part or trial. Library files are looked at apart.
 */
export function belongs(kind: RecordKind, record: object, trial: TrialWire): boolean {
  const { id, trial: ofTrial, enquiry, part } = record as Partial<Record<"id" | "trial" | "enquiry" | "part", unknown>>;
  if (kind === "library") return false;
  if (kind === "trial") return id === trial.id;
  if (kind === "enquiry") return id === trial.enquiry;
  if (ofTrial !== undefined) return ofTrial === trial.id;
  return enquiry === trial.enquiry && (part === undefined || part === trial.part);
}

/** Answers to the enquiry, less those that say that they are about another part or trial. */
export function answerBelongs({ inputs }: Pick<AnswerRecord, "inputs">, trial: TrialWire): boolean {
  const other = (name: "trial" | "part", own: string) => typeof inputs[name] === "string" && inputs[name] !== own;
  return !other("trial", trial.id) && !other("part", trial.part);
}

const entryIds = ({ file }: LibraryRecord): string[] =>
  [file.metals, file.layers, file.setups, file.fume].flatMap((list) => (list ?? []).map((entry) => entry.id));

/**
 * The library files with an entry that the texts name, and those that these name in turn (fume of a layer). An entry is
 * named by its id: a text that is the same by chance takes a file along that would not be needed, never leaves one out.
 */
export function usedLibrary(files: readonly LibraryRecord[], texts: ReadonlySet<string>): LibraryRecord[] {
  const named = new Set(texts);
  const used = new Set<LibraryRecord>();
  for (let before = -1; before !== used.size; ) {
    before = used.size;
    for (const file of files) {
      if (used.has(file) || !entryIds(file).some((id) => named.has(id))) continue;
      used.add(file);
      textsIn(file, named);
    }
  }
  return files.filter((file) => used.has(file));
}

/** The sha256 sums that the texts name, alone or inside a sentence. */
export function namedSums(texts: ReadonlySet<string>): Set<string> {
  return new Set([...texts].flatMap((text) => text.match(/(?<![0-9a-f])[0-9a-f]{64}(?![0-9a-f])/g) ?? []));
}
