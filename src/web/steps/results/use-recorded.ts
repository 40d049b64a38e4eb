import { useRef, useState } from "react";
import type { Outcome } from "#terms";
import { putOutcomes } from "../../api/trials.ts";
import { useUndoTarget } from "../../undo/undo-target.ts";
import { words } from "../../words/index.ts";
import { noChanges, withRedone, withSaved, withUndone } from "./change-line.ts";

/**
 * Saves rows of outcomes and takes them back. Nothing is erased: the row as it was is recorded again, as the newest.
 * `onSaved` is called after each row that the server has, with the row.
 */
export function useRecorded(trialId: string, grader: string, onSaved: (outcome: Outcome) => Promise<unknown>) {
  const [{ past, future }, setChanges] = useState(noChanges);
  const [line, setLine] = useState<string | null>(null);
  const stepping = useRef(false);
  const send = async (outcome: Outcome): Promise<string | null> => {
    const answer = await putOutcomes(trialId, [outcome]);
    const refused = answer.refused[0]?.error ?? null;
    if (refused === null) await onSaved(outcome);
    return refused;
  };
  const save = async (outcome: Outcome, before: Outcome): Promise<string | null> => {
    const by = outcome.grader || grader;
    const after = { ...outcome, grader: by };
    const refused = await send(after);
    if (refused === null) setChanges((now) => withSaved(now, { before: { ...before, grader: by }, after }));
    return refused;
  };
  /** One step back or on; what does not get through stays where it was and says why. */
  const step = (way: "undo" | "redo") => {
    const change = way === "undo" ? past.at(-1) : future[0];
    // A key that is held down would send the same step again before the server has it.
    if (change === undefined || stepping.current) return;
    stepping.current = true;
    send(way === "undo" ? change.before : change.after)
      .then(
        (refused) => {
          setLine(refused);
          if (refused === null) setChanges((now) => (way === "undo" ? withUndone : withRedone)(now, change));
        },
        (error: Error) => setLine(error.message),
      )
      .finally(() => {
        stepping.current = false;
      });
  };
  useUndoTarget({
    name: words.save.undoNames.outcomes,
    canUndo: past.length > 0,
    canRedo: future.length > 0,
    undo: () => step("undo"),
    redo: () => step("redo"),
  });
  return { save, line };
}
