import { Button } from "@mantine/core";
import { words } from "../words/index.ts";
import { fieldKey, groupsOf } from "./fields.ts";
import { placeName } from "./tree.ts";
import type { Editing } from "./use-entry-draft.ts";

interface Props {
  readonly edit: Editing;
  readonly isNew: boolean;
  readonly onSettle: (choice: "theirs" | "mine") => void;
  readonly onLeave: () => void;
}

const say = words.library.form;
const heads: Readonly<Record<string, string>> = {
  "head.citation": say.citation,
  "head.note": say.note,
  "head.source": say.id,
  id: say.id,
  name: say.name,
};

/** What a place is called on the page. */
function placeLabel({ draft }: Editing, place: string): string {
  const known = heads[place];
  if (known !== undefined) return known;
  const field = groupsOf(draft.shelf, draft.entry)
    .flatMap((g) => g.fields)
    .find((f) => place === placeName(f.path) || place.startsWith(`${placeName(f.path)}.`));
  const key = field === undefined ? place : fieldKey(field.path);
  return words.library.fields[key] ?? words.library.groups[key] ?? key;
}

/** The field of a place, or the nearest one that it lies in. */
function lead(place: string): void {
  for (let at = place; at !== ""; at = at.slice(0, Math.max(0, at.lastIndexOf(".")))) {
    const field = document.querySelector<HTMLElement>(`[data-place="${CSS.escape(at)}"]`);
    if (field === null) continue;
    field.scrollIntoView({ block: "center" });
    field.focus({ preventScroll: true });
    return;
  }
}

/** Saving, with whatever stands against it, and the way back. */
export function FormEnd({ edit, isNew, onSettle, onLeave }: Props) {
  const wrong = Object.entries(edit.problems);
  return (
    <section className="sheet stack tight lib-end">
      {wrong.length > 0 ? (
        <div className="note bad" role="alert">
          <p>{say.problems(wrong.length)}</p>
          <ul>
            {wrong.map(([place, sentence]) => (
              <li key={place}>
                {place === "" ? (
                  sentence
                ) : (
                  <button type="button" className="lib-goto" title={say.goTo} onClick={() => lead(place)}>
                    {`${placeLabel(edit, place)}: ${sentence}`}
                  </button>
                )}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      {edit.line === null ? null : (
        <div className={`note ${edit.conflict ? "warn" : "bad"}`} role="alert">
          <p>{edit.conflict ? say.movedOn : edit.line}</p>
          {edit.conflict ? (
            <div className="row">
              <Button size="compact-sm" variant="default" onClick={() => onSettle("theirs")}>
                {say.theirs}
              </Button>
              <Button size="compact-sm" onClick={() => onSettle("mine")}>
                {say.mineAgain}
              </Button>
            </div>
          ) : null}
        </div>
      )}
      <div className="row middle">
        <Button onClick={edit.save} loading={edit.saving} disabled={!isNew && !edit.touched}>
          {isNew ? say.saveNew : say.save}
        </Button>
        <Button variant="subtle" color="gray" onClick={edit.undo} disabled={!edit.canUndo} title="Ctrl+Z">
          {say.undo}
        </Button>
        <Button variant="subtle" color="gray" onClick={edit.redo} disabled={!edit.canRedo} title="Ctrl+Y">
          {say.redo}
        </Button>
        <Button variant="subtle" color="gray" onClick={onLeave}>
          {say.discard}
        </Button>
        <span className="small quiet" role="status">
          {edit.touched ? say.kept : isNew ? "" : say.nothing}
        </span>
      </div>
    </section>
  );
}
