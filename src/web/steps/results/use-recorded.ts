import { useState } from "react";
import type { Outcome } from "#terms";
import { putOutcomes } from "../../api/trials.ts";
import { useUndoTarget } from "../../undo/undo-target.ts";
import { words } from "../../words/index.ts";

interface Change {
  readonly before: Outcome;
  readonly after: Outcome;
}

/**
 * Saves rows of outcomes and takes them back. Nothing is erased: the row as it was is recorded again, as the newest.
 * `onSaved` is called after each row that the server has.
 */
export function useRecorded(trialId: string, grader: string, onSaved: () => Promise<unknown>) {
  const [past, setPast] = useState<readonly Change[]>([]);
  const [future, setFuture] = useState<readonly Change[]>([]);
  const [line, setLine] = useState<string | null>(null);
  const send = async (outcome: Outcome): Promise<string | null> => {
    const answer = await putOutcomes(trialId, [outcome]);
    await onSaved();
    return answer.refused[0]?.error ?? null;
  };
  const save = async (outcome: Outcome, before: Outcome): Promise<string | null> => {
    const by = outcome.grader || grader;
    const after = { ...outcome, grader: by };
    const refused = await send(after);
    if (refused === null) {
      setPast((now) => [...now, { before: { ...before, grader: by }, after }]);
      setFuture([]);
    }
    return refused;
  };
  /** One step back or on; what does not get through stays where it was and says why. */
  const step = (way: "undo" | "redo") => {
    const change = way === "undo" ? past.at(-1) : future[0];
    if (change === undefined) return;
    send(way === "undo" ? change.before : change.after).then(
      (refused) => {
        setLine(refused);
        if (refused !== null) return;
        if (way === "undo") {
          setPast((now) => now.slice(0, -1));
          setFuture((now) => [change, ...now]);
        } else {
          setPast((now) => [...now, change]);
          setFuture((now) => now.slice(1));
        }
      },
      (error: Error) => setLine(error.message),
    );
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
