import { useQueryClient } from "@tanstack/react-query";
import { useCallback, useEffect, useRef, useState } from "react";
import type { LibraryFile } from "#library";
import { Refused } from "../api/client.ts";
import { type KeptFile, putLibraryFile } from "../api/library.ts";
import { changed, everywhere, redone, startOf, type Timeline, undone } from "../undo/timeline.ts";
import { useUndoKeys, useUndoTarget } from "../undo/undo-target.ts";
import { words } from "../words/index.ts";
import { type Problems, problemsOf, refusedAt } from "./draft-problems.ts";
import { type EntryDraft, fileOf, onFile } from "./entry-draft.ts";
import { dropDraft, keepDraft, readDraft } from "./kept-draft.ts";
import { libraryKey } from "./use-library.ts";

export interface Editing {
  readonly draft: EntryDraft;
  readonly touched: boolean;
  /** what was typed here before was found in this browser */
  readonly found: boolean;
  readonly change: (next: (draft: EntryDraft) => EntryDraft, cause: string) => void;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly problems: Problems;
  /** a refusal that belongs to no field */
  readonly line: string | null;
  readonly conflict: boolean;
  readonly saving: boolean;
  readonly save: () => void;
  readonly discard: () => void;
  /** takes a newer version of the file, with its other entries, for the one that the change is made from */
  readonly rebase: (kept: KeptFile) => void;
}

/**
 * An own entry while it is edited: undo, a copy in this browser until it is saved, and what keeps it from being saved.
 * `versionOf` gives the version of a file as it is kept; `others` are the files that this one has to fit with.
 */
export function useEntryDraft(
  key: string,
  start: EntryDraft,
  versionOf: (fileId: string) => number,
  others: (fileId: string) => readonly LibraryFile[],
  onSaved: (saved: KeptFile, draft: EntryDraft) => void,
): Editing {
  const queries = useQueryClient();
  // The version that was opened, not the newest that the pages may have read since: another's save is not passed over.
  const [kept] = useState(() => readDraft(key));
  const [from, setFrom] = useState(() => ({ id: start.fileId, version: kept?.version ?? versionOf(start.fileId) }));
  const found = kept?.draft ?? null;
  const [time, setTime] = useState<Timeline<EntryDraft>>(() =>
    found === null ? startOf(start) : changed(startOf(start), found, "", 0),
  );
  const [tried, setTried] = useState(false);
  const [refused, setRefused] = useState<{ readonly draft: EntryDraft; readonly at: Problems } | null>(null);
  const [trouble, setTrouble] = useState<{ readonly line: string; readonly conflict: boolean } | null>(null);
  const [saving, setSaving] = useState(false);
  const draft = time.now;
  const first = useRef(start);
  const touched = draft !== first.current;

  useEffect(() => {
    if (touched) keepDraft(key, from.version, draft);
    else dropDraft(key);
  }, [key, draft, touched, from]);

  const change = useCallback((next: (draft: EntryDraft) => EntryDraft, cause: string) => {
    setTime((was) => changed(was, next(was.now), cause, Date.now()));
  }, []);
  const undo = useCallback(() => setTime(undone), []);
  const redo = useCallback(() => setTime(redone), []);
  const [canUndo, canRedo] = [time.past.length > 0, time.future.length > 0];
  useUndoTarget({ name: words.library.form.undoName, canUndo, canRedo, undo, redo });
  useUndoKeys();

  const here = tried ? problemsOf(draft, others(draft.fileId)) : {};
  const problems = refused !== null && refused.draft === draft ? { ...refused.at, ...here } : here;

  const save = async () => {
    setTried(true);
    setTrouble(null);
    if (Object.keys(problemsOf(draft, others(draft.fileId))).length > 0) return;
    setSaving(true);
    try {
      // Judged a moment ago by the same rules that the server has.
      const version = from.id === draft.fileId ? from.version : versionOf(draft.fileId);
      const saved = await putLibraryFile(draft.fileId, version, fileOf(draft) as LibraryFile);
      dropDraft(key);
      await queries.invalidateQueries({ queryKey: libraryKey });
      await queries.invalidateQueries({ queryKey: ["dependants"] });
      onSaved(saved, draft);
    } catch (error) {
      if (!(error instanceof Error)) throw error;
      const at = refusedAt(draft, error.message);
      if (at !== null && at[0] !== "") setRefused({ draft, at: { [at[0]]: at[1] } });
      else setTrouble({ line: error.message, conflict: isConflict(error) });
    } finally {
      setSaving(false);
    }
  };
  return {
    draft,
    touched,
    found: found !== null && touched,
    change,
    canUndo,
    canRedo,
    undo,
    redo,
    problems,
    line: trouble?.line ?? null,
    conflict: trouble?.conflict ?? false,
    saving,
    save: () => void save(),
    discard: () => dropDraft(key),
    rebase: (newer) => {
      setFrom({ id: newer.id, version: newer.version });
      // In every step back too: an undo takes back what was typed here, never what others have saved.
      setTime((was) => everywhere(was, (state) => onFile(state, newer.file)));
      setTrouble(null);
    },
  };
}

const isConflict = (error: Error): boolean =>
  error instanceof Refused && error.status === 409 && error.message.includes("has moved on");
