import { Button } from "@mantine/core";
import { useState } from "react";
import { useUndoKeys, useUndoTarget } from "../undo/undo-target.ts";
import { words } from "../words/index.ts";

/** What was just done to the library, and how to take it back; `back` is null where it cannot be. */
export interface Notice {
  readonly text: string;
  readonly back: (() => Promise<unknown>) | null;
}

const say = words.library.after;

/** Says what was saved, and takes it back by a button or Ctrl+Z: the version before becomes the newest. */
export function NoticeBar({ notice, onDone }: { readonly notice: Notice; readonly onDone: (text: string) => void }) {
  const [line, setLine] = useState<string | null>(null);
  const { back } = notice;
  const undo = () =>
    void back?.().then(
      () => onDone(say.undone),
      (error: Error) => setLine(error.message),
    );
  useUndoTarget(
    back === null ? null : { name: say.undoName, canUndo: true, canRedo: false, undo, redo: () => undefined },
  );
  useUndoKeys();
  return (
    <div className="note good lib-notice" role="status">
      <span>{notice.text}</span>
      {back === null ? null : (
        <Button variant="default" size="compact-sm" onClick={undo} title="Ctrl+Z">
          {say.undo}
        </Button>
      )}
      {line === null ? null : <p>{line}</p>}
    </div>
  );
}
