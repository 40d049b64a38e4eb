import type { LibraryFile } from "#library";
import { isSource } from "#sources";
import type { ShelfKey } from "../api/library.ts";
import { readTyped } from "./panel-numbers.ts";
import { isTree, type Path, placeName, readAt, type Tree, writeAt, writeTree } from "./tree.ts";

/** An own entry while it is edited: the entry in SI, the head of its file, and texts that are no numbers yet. */
export interface EntryDraft {
  readonly shelf: ShelfKey;
  readonly fileId: string;
  /** the file as it is kept; null for a new one */
  readonly base: LibraryFile | null;
  /** place of the entry among those of its shelf in the file */
  readonly index: number;
  readonly head: Head;
  readonly entry: Tree;
  /** by place: what was typed and cannot be read as a number */
  readonly typed: Readonly<Record<string, string>>;
}

export interface Head {
  readonly source: string;
  readonly citation: string;
  readonly fromMemory: boolean;
  readonly note: string;
}

const ID_MAX = 60;

/** Short name of an entry from the name that a person gave: "Alloy 5083, our heat" as "alloy-5083-our-heat". */
export function shortName(name: string): string {
  const plain = name
    .normalize("NFKD")
    .replace(/[\u0300-\u036f]/g, "")
    .toLowerCase();
  return (
    plain
      .match(/[a-z0-9]+/g)
      ?.join("-")
      .slice(0, ID_MAX)
      .replace(/-$/, "") ?? ""
  );
}

const sourceOf = (shelf: ShelfKey, id: string): string => `own-${shelf}-${id}`.slice(0, ID_MAX).replace(/-$/, "");

/** True where a figure takes its source from the head of the file. */
const isOwn = (figure: Tree, draft: EntryDraft): boolean =>
  figure.source === undefined || figure.source === draft.head.source;

/** Figures of another own file are cited by nobody but that file: in a copy they are the copy's own. */
function citable(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(citable);
  if (!isTree(value)) return value;
  const { source, ...rest } = value;
  const inner = Object.fromEntries(Object.entries(rest).map(([key, v]) => [key, citable(v)]));
  return typeof source === "string" && isSource(source) ? { ...inner, source } : inner;
}

/**
 * A draft of a copy. As a new entry it gets a name and id of its own; in place of ours it keeps them and says that it
 * replaces. Every figure keeps the source that it had until somebody changes the figure.
 */
export function copyOf(
  shelf: ShelfKey,
  entry: object,
  as: { readonly id: string; readonly name: string } | "in place",
): EntryDraft {
  const from = citable(entry) as Tree;
  const { source: _source, fromMemory: _fromMemory, ...rest } = from;
  const id = as === "in place" ? String(from.id) : as.id;
  return {
    shelf,
    fileId: `${shelf}.${id}`,
    base: null,
    index: 0,
    head: { source: sourceOf(shelf, id), citation: "", fromMemory: false, note: "" },
    entry: {
      ...rest,
      id,
      name: as === "in place" ? from.name : as.name,
      ...(as === "in place" ? { replaces: true } : {}),
    },
    typed: {},
  };
}

/** A draft of an own entry as it is kept, or null where the file does not hold it. */
export function draftOf(shelf: ShelfKey, fileId: string, file: LibraryFile, id: string): EntryDraft | null {
  const entries = (file[shelf] ?? []) as readonly { readonly id: string }[];
  const index = entries.findIndex((e) => e.id === id);
  if (index < 0) return null;
  const { source, citation = "", fromMemory, note } = file;
  const entry = entries[index] as unknown as Tree;
  return { shelf, fileId, base: file, index, head: { source, citation, fromMemory, note }, entry, typed: {} };
}

/** Another id for an entry that was not kept yet; file and source follow it. */
export function withId(draft: EntryDraft, id: string): EntryDraft {
  const source = sourceOf(draft.shelf, id);
  return { ...draft, fileId: `${draft.shelf}.${id}`, head: { ...draft.head, source }, entry: { ...draft.entry, id } };
}

export const withHead = (draft: EntryDraft, change: Partial<Head>): EntryDraft => ({
  ...draft,
  head: { ...draft.head, ...change },
});

function forget(typed: EntryDraft["typed"], place: string): EntryDraft["typed"] {
  return Object.fromEntries(Object.entries(typed).filter(([at]) => at !== place && !at.startsWith(`${place}.`)));
}

export function withValue(draft: EntryDraft, path: Path, value: unknown): EntryDraft {
  return { ...draft, entry: writeTree(draft.entry, path, value), typed: forget(draft.typed, placeName(path)) };
}

/** A number as typed in a panel's unit. What cannot be read is kept as it was typed, and refused on saving. */
export function withNumber(draft: EntryDraft, path: Path, panel: string, text: string): EntryDraft {
  const value = readTyped(text, panel);
  if (value === null) return { ...draft, typed: { ...draft.typed, [placeName(path)]: text } };
  return withValue(draft, path, value);
}

/** One of the three numbers of a figure. A figure that somebody changed is theirs: its source is that of the entry. */
export function withFigure(
  draft: EntryDraft,
  path: Path,
  which: "value" | "low" | "high",
  panel: string,
  text: string,
): EntryDraft {
  const before = readAt(draft.entry, path);
  const next = withNumber(draft, [...path, which], panel, text);
  const figure = readAt(next.entry, path);
  if (!isTree(before) || !isTree(figure) || before[which] === figure[which]) return next;
  const fixed = before.distribution === "fixed" && which === "value";
  const { source: _source, fromMemory: _fromMemory, note: _note, ...own } = figure;
  const kept = isOwn(before, draft) ? figure : own;
  const moved = fixed ? { low: figure.value, high: figure.value } : {};
  const spread = before.distribution === "fixed" && !fixed ? { distribution: "normal" } : {};
  return { ...next, entry: writeTree(next.entry, path, { ...kept, ...moved, ...spread }) };
}

/** Points of a table as they are typed, one pair a line; the table is theirs from then on. */
export function withPoints(draft: EntryDraft, path: Path, points: readonly (readonly [number, number])[]): EntryDraft {
  const table = readAt(draft.entry, path);
  if (!isTree(table)) return draft;
  const { source: _source, fromMemory: _fromMemory, note: _note, ...own } = table;
  const kept = isOwn(table, draft) ? table : own;
  const next = { ...kept, temperature: points.map(([t]) => t), value: points.map(([, v]) => v) };
  return { ...draft, entry: writeTree(draft.entry, path, next), typed: forget(draft.typed, placeName(path)) };
}

/** Whose figure it is: the source of the entry (null), or another by its id. */
export function withSource(draft: EntryDraft, path: Path, source: string | null): EntryDraft {
  const figure = readAt(draft.entry, path);
  if (!isTree(figure)) return draft;
  const { source: _source, ...own } = figure;
  return { ...draft, entry: writeTree(draft.entry, path, source === null ? own : { ...own, source }) };
}

/** Another shape of the spread; a fixed figure has none, so its low and high become its value. */
export function withShape(draft: EntryDraft, path: Path, distribution: string): EntryDraft {
  const figure = readAt(draft.entry, path);
  if (!isTree(figure)) return draft;
  const ends = distribution === "fixed" ? { low: figure.value, high: figure.value } : {};
  return { ...draft, entry: writeTree(draft.entry, path, { ...figure, distribution, ...ends }) };
}

/** A figure that nobody knows yet: three empty fields, which a person has to fill. */
export function withEmptyFigure(draft: EntryDraft, path: Path, unit: string, validRange: string): EntryDraft {
  const entry = writeTree(draft.entry, path, { value: 0, low: 0, high: 0, distribution: "normal", unit, validRange });
  const empty = Object.fromEntries(["value", "low", "high"].map((which) => [placeName([...path, which]), ""]));
  return { ...draft, entry, typed: { ...draft.typed, ...empty } };
}

/** The draft as a change of another version of its file: in the place of the entry there, else behind the last one. */
export function onFile(draft: EntryDraft, file: LibraryFile): EntryDraft {
  const entries = (file[draft.shelf] ?? []) as readonly { readonly id: string }[];
  const index = entries.findIndex((e) => e.id === draft.entry.id);
  return { ...draft, base: file, index: index < 0 ? entries.length : index };
}

/** The file that the draft says, with the other entries of its file as they are. Nobody has checked it yet. */
export function fileOf(draft: EntryDraft): unknown {
  const { base, shelf, index, head, entry } = draft;
  const entries = [...((base?.[shelf] ?? []) as readonly unknown[])];
  entries[index] = entry;
  const { citation, ...rest } = head;
  const { citation: _citation, ...others } = base ?? {};
  return { ...others, ...rest, ...(citation.trim() === "" ? {} : { citation: citation.trim() }), [shelf]: entries };
}

/** The file without the entry. Its versions stay, and so the entry can be put back. */
export function fileWithout(draft: EntryDraft): unknown {
  return writeAt(draft.base, [draft.shelf, draft.index], undefined);
}
