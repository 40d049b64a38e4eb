import { useEffect, useRef, useSyncExternalStore } from "react";

/** Something whose last change can be taken back. */
export interface UndoTarget {
  /** what is undone, for the buttons: "setting", "shop figures" */
  readonly name: string;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly undo: () => void;
  readonly redo: () => void;
}

interface Entry {
  target: UndoTarget;
}

/** The last one that was opened is asked: a step lies over the enquiry that it belongs to. */
let stack: readonly Entry[] = [];
let version = 0;
const listeners = new Set<() => void>();

function tell(): void {
  version++;
  for (const listener of listeners) listener();
}

/** Takes part in undo for as long as the component lives. `null` takes no part. */
export function useUndoTarget(target: UndoTarget | null): void {
  const entry = useRef<Entry | null>(null);
  const there = target !== null;
  useEffect(() => {
    if (!there) return;
    const mine: Entry = { target: nothing };
    entry.current = mine;
    stack = [...stack, mine];
    tell();
    return () => {
      stack = stack.filter((e) => e !== mine);
      entry.current = null;
      tell();
    };
  }, [there]);
  useEffect(() => {
    if (entry.current === null || target === null) return;
    const before = entry.current.target;
    entry.current.target = target;
    if (before.name !== target.name || before.canUndo !== target.canUndo || before.canRedo !== target.canRedo) tell();
  });
}

const nothing: UndoTarget = {
  name: "",
  canUndo: false,
  canRedo: false,
  undo: () => undefined,
  redo: () => undefined,
};

/** What an undo would take back now: the innermost that has something to take back. */
function undoable(): UndoTarget | null {
  return stack.findLast((e) => e.target.canUndo)?.target ?? null;
}

function redoable(): UndoTarget | null {
  return stack.findLast((e) => e.target.canRedo)?.target ?? null;
}

/** The buttons' view of it. */
export function useUndo(): { readonly undo: UndoTarget | null; readonly redo: UndoTarget | null } {
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => version,
  );
  return { undo: undoable(), redo: redoable() };
}

/** Ctrl or Cmd with Z and Y; inside a text field the field's own undo comes first. */
export function useUndoKeys(): void {
  useEffect(() => {
    function onKey(event: KeyboardEvent): void {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const { target } = event;
      if (target instanceof HTMLElement && target.matches("input[type=text], input:not([type]), textarea")) return;
      const key = event.key.toLowerCase();
      const again = key === "y" || (key === "z" && event.shiftKey);
      if (key !== "z" && !again) return;
      event.preventDefault();
      if (again) redoable()?.redo();
      else undoable()?.undo();
    }
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, []);
}
