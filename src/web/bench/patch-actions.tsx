import { Button } from "@mantine/core";
import { useState } from "react";
import { standingEntries } from "#trial";
import { words } from "../words/index.ts";
import { EntryForm, type FormKind } from "./entry-form.tsx";
import { entryText } from "./entry-text.ts";
import type { RunLine } from "./run-view.ts";
import { TakePhoto } from "./take-photo.tsx";
import type { Bench } from "./use-bench.ts";

interface Props {
  readonly line: RunLine;
  /** s of the wait that are left */
  readonly left: number;
  readonly bench: Bench;
  /** false for a moment after a tick, so that a second touch does not tick the next patch */
  readonly armed: boolean;
}

const say = words.bench;

/** A key that is held down would tick one patch after the other. */
const notHeld = (event: React.KeyboardEvent): void => {
  if (event.repeat) event.preventDefault();
};

/** What can be noted of one patch, and what was. */
export function PatchActions({ line, left, bench, armed }: Props) {
  const [form, setForm] = useState<FormKind | null>(null);
  const { patch, run } = line;
  const number = patch.patch;
  const tick = (kind: "burned" | "repeated") => {
    if (!armed) return;
    const note = kind === "burned" && left > 0 ? say.wait.early(Math.ceil(left)) : "";
    void bench.note({ kind, patch: number, note });
  };
  const noted = standingEntries(run.entries);
  return (
    <div className="stack tight">
      {run.state === "burned" ? (
        <Button size="md" variant="default" onClick={() => tick("repeated")}>
          {say.repeated}
        </Button>
      ) : (
        <Button
          size="xl"
          fullWidth
          variant={left > 0 ? "default" : "filled"}
          className="tick"
          onKeyDown={notHeld}
          onClick={() => tick("burned")}
        >
          {left > 0 ? say.burnedEarly : say.burned}
        </Button>
      )}
      {form === null ? (
        <div className="row actions">
          {run.state === "open" ? (
            <Button size="md" variant="default" onClick={() => setForm("skip")}>
              {say.skip}
            </Button>
          ) : null}
          <Button size="md" variant="default" onClick={() => setForm("note")}>
            {say.note}
          </Button>
          <TakePhoto label={say.photoShort} coupon={patch.coupon} patch={number} bench={bench} />
          <Button size="md" variant="default" onClick={() => setForm("temperature")}>
            {say.temperature}
          </Button>
        </div>
      ) : (
        <EntryForm key={form} kind={form} patch={number} onKeep={bench.note} onClose={() => setForm(null)} />
      )}
      {run.repeats > 0 ? <p className="note warn">{say.twice}</p> : null}
      {noted.length > 0 ? (
        <ul className="noted">
          {noted.map((entry) => (
            <li key={entry.id}>
              <span>{entryText(entry)}</span>
              <Button
                size="md"
                variant="subtle"
                aria-label={say.takeBackOf(entryText(entry))}
                onClick={() => void bench.note({ kind: "undo-of", patch: entry.patch, of: entry.id })}
              >
                {say.takeBack}
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  );
}
