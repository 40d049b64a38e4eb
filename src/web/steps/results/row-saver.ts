import { useEffect, useRef } from "react";
import type { Outcome } from "#terms";

type Save = (outcome: Outcome, before: Outcome) => Promise<string | null>;

/**
 * Saves the rows of outcomes, the entries of one patch one after the other: an entry builds on the one before it even
 * where the server has not answered yet, so that a fast hand loses none. Resolves to a line when the row was refused.
 * now: the outcome of a patch as the page has it; onSave: tells the server and reads the outcomes again.
 */
export function rowSaver(now: (patch: number) => Outcome, onSave: Save) {
  const running = new Map<number, Promise<unknown>>();
  const sent = new Map<number, Outcome>();
  return {
    save(patch: number, change: (before: Outcome) => Outcome): Promise<string | null> {
      const mine = (running.get(patch) ?? Promise.resolve()).then(async () => {
        const before = sent.get(patch) ?? now(patch);
        const next = change(before);
        if (JSON.stringify(next) === JSON.stringify(before)) return null;
        const refused = await onSave(next, before).catch((error: Error) => error.message);
        if (refused === null) sent.set(patch, next);
        return refused;
      });
      running.set(patch, mine);
      void mine.finally(() => running.get(patch) === mine && running.delete(patch));
      return mine;
    },
    /** The page has new outcomes: they count again wherever nothing is on its way. */
    renewed(): void {
      for (const patch of sent.keys()) if (!running.has(patch)) sent.delete(patch);
    },
  };
}

/** A saver that lives as long as the table and always asks for what the page shows last. */
export function useRowSaver(outcomes: readonly Outcome[], now: (patch: number) => Outcome, onSave: Save) {
  const last = useRef({ now, onSave });
  last.current = { now, onSave };
  const saver = useRef<ReturnType<typeof rowSaver> | null>(null);
  saver.current ??= rowSaver(
    (patch) => last.current.now(patch),
    (outcome, before) => last.current.onSave(outcome, before),
  );
  const mine = saver.current;
  useEffect(() => mine.renewed(), [outcomes, mine]);
  return mine;
}
