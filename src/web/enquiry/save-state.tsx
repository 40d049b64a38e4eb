import { Button } from "@mantine/core";
import { useUndo } from "../undo/undo-target.ts";
import { words } from "../words/index.ts";
import type { Draft } from "./use-draft.ts";

const tone: Partial<Record<Draft["save"], string>> = {
  offline: "warn",
  refused: "bad",
  conflict: "warn",
  missing: "bad",
};

/** The state of saving, in words, and the way back. */
export function SaveState({ draft, onHistory }: { readonly draft: Draft; readonly onHistory: () => void }) {
  const { undo, redo } = useUndo();
  return (
    <>
      <span className={`small ${tone[draft.save] ? `tag ${tone[draft.save]}` : "quiet"}`} role="status">
        {words.save[draft.save]}
      </span>
      <Button
        variant="subtle"
        color="gray"
        size="compact-sm"
        onClick={() => undo?.undo()}
        disabled={undo === null}
        title={undo === null ? "Ctrl+Z" : words.save.undoOf(undo.name)}
      >
        {words.save.undo}
      </Button>
      <Button
        variant="subtle"
        color="gray"
        size="compact-sm"
        onClick={() => redo?.redo()}
        disabled={redo === null}
        title={redo === null ? "Ctrl+Y" : words.save.redoOf(redo.name)}
      >
        {words.save.redo}
      </Button>
      <Button variant="subtle" color="gray" size="compact-sm" onClick={onHistory}>
        {words.save.history}
      </Button>
    </>
  );
}

/** What a person has to know or decide when a save did not go through. */
export function SaveTrouble({ draft }: { readonly draft: Draft }) {
  if (draft.save === "conflict")
    return (
      <div className="note warn" role="alert">
        <p>{words.save.conflictLine}</p>
        <div className="row" style={{ marginTop: 8 }}>
          <Button size="compact-sm" variant="default" onClick={() => draft.settle("theirs")}>
            {words.save.theirs}
          </Button>
          <Button size="compact-sm" onClick={() => draft.settle("mine")}>
            {words.save.mine}
          </Button>
        </div>
      </div>
    );
  if ((draft.save === "refused" || draft.save === "offline") && draft.line)
    return (
      <p className={`note ${draft.save === "refused" ? "bad" : "warn"}`} role="alert">
        {draft.line}
      </p>
    );
  return null;
}
