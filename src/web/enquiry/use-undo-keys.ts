import { useEffect } from "react";
import type { Draft } from "./use-draft.ts";

/** Ctrl or Cmd with Z and Y; inside a text field the field's own undo comes first. */
export function useUndoKeys(draft: Draft): void {
  const { undo, redo } = draft;
  useEffect(() => {
    function onKey(event: KeyboardEvent): void {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const target = event.target;
      if (target instanceof HTMLElement && target.matches("input[type=text], input:not([type]), textarea")) return;
      const key = event.key.toLowerCase();
      const again = key === "y" || (key === "z" && event.shiftKey);
      if (key !== "z" && !again) return;
      event.preventDefault();
      if (again) redo();
      else undo();
    }
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [undo, redo]);
}
