import { useQueryClient } from "@tanstack/react-query";
import { useMemo, useState } from "react";
import type { Library } from "#library";
import { isSource } from "#sources";
import type { KeptFile, KeptFiles, ShelfKey } from "../api/library.ts";
import { words } from "../words/index.ts";
import { copyOf, draftOf, type EntryDraft, shortName, withHead } from "./entry-draft.ts";
import { groupsOf } from "./fields.ts";
import { HeadFields, NameFields } from "./form-head.tsx";
import { FormEnd } from "./form-end.tsx";
import { AddColour, GroupFields } from "./group-fields.tsx";
import { Moves } from "./moves.tsx";
import { type Entry, fileOfEntry, isEmpty, sourceText, standingOf } from "./origins.ts";
import { sourcesIn } from "./sources-in.ts";
import { useEntryDraft } from "./use-entry-draft.ts";
import { libraryKey } from "./use-library.ts";

interface Props {
  readonly shelf: ShelfKey;
  readonly entry: Entry;
  readonly library: Library;
  readonly kept: KeptFiles;
  readonly doing: "edit" | "copy";
  readonly onSaved: (saved: KeptFile, draft: EntryDraft) => void;
  readonly onLeave: () => void;
}

const say = words.library.form;

/** A copy beside ours under its own name, or in place of ours. */
function copied(shelf: ShelfKey, entry: Entry, how: "new" | "in place"): EntryDraft {
  const name = say.ownName(entry.name);
  const draft = copyOf(shelf, entry, how === "new" ? { id: shortName(name), name } : "in place");
  return withHead(draft, { note: say.copiedFrom(entry.name) });
}

/** Changes an own entry, or makes one from the entry that is nearest. */
export function EntryForm({ shelf, entry, library, kept, doing, onSaved, onLeave }: Props) {
  const queries = useQueryClient();
  const standing = standingOf(kept, shelf, entry.id);
  const mine = doing === "edit" ? fileOfEntry(kept, shelf, entry.id) : null;
  const [start] = useState(() => (mine && draftOf(shelf, mine.id, mine.file, entry.id)) ?? copied(shelf, entry, "new"));
  const versionOf = (id: string) => [...kept.files, ...kept.refused].find((k) => k.id === id)?.version ?? 0;
  // A copy never takes the place of an own entry that is there; of one that was taken out it may.
  const others = (id: string) =>
    kept.files.filter((k) => k.id !== id || (doing === "copy" && !isEmpty(k.file))).map((k) => k.file);
  const edit = useEntryDraft(`${doing}.${shelf}.${entry.id}`, start, versionOf, others, onSaved);
  const { draft, change, problems } = edit;
  const inPlace = draft.entry.replaces === true;
  const fume = useMemo(() => library.fumeEntries.map((f) => [f.id, f.name] as const), [library]);
  const sources = sourcesIn([entry, draft.entry])
    .filter(isSource)
    .map((id) => [id, sourceText(library, id)] as const);
  const fields = { draft, change, problems, sources, fume };
  const groups = groupsOf(shelf, draft.entry);
  const settle = async (choice: "theirs" | "mine") => {
    await queries.invalidateQueries({ queryKey: libraryKey });
    if (choice === "theirs") {
      edit.discard();
      onLeave();
      return;
    }
    const now = queries.getQueryData<KeptFiles>(libraryKey)?.files.find((k) => k.id === draft.fileId);
    if (now === undefined) return;
    edit.rebase(now);
  };
  return (
    <form className="stack" onSubmit={(event) => event.preventDefault()} noValidate>
      <header className="stack tight">
        <h1>{doing === "copy" ? say.copyTitle(entry.name) : say.editTitle(entry.name)}</h1>
        <p className="lead">{say.lead}</p>
        {edit.found ? <p className="note">{say.found}</p> : null}
      </header>
      {doing === "copy" && standing === "ours" ? (
        <section className="sheet stack tight">
          <h2 id="lib-as">{say.as}</h2>
          <div role="radiogroup" aria-labelledby="lib-as" className="lib-ticks">
            {(["new", "in place"] as const).map((how) => (
              <label key={how} className="lib-tick">
                <input
                  type="radio"
                  name="lib-as"
                  checked={inPlace === (how === "in place")}
                  onChange={() => change((d) => turned(d, copied(shelf, entry, how)), "as")}
                />
                {how === "new" ? say.asNew : say.asInPlace}
              </label>
            ))}
          </div>
          {inPlace ? null : <NameFields draft={draft} change={change} problems={problems} />}
          {inPlace ? null : <p className="small quiet">{say.joins[shelf]}</p>}
        </section>
      ) : doing === "copy" ? (
        <section className="sheet stack tight">
          <NameFields draft={draft} change={change} problems={problems} />
        </section>
      ) : null}
      {inPlace ? <Moves shelf={shelf} id={entry.id} /> : null}
      <HeadFields draft={draft} change={change} problems={problems} />
      {groups.map((group) => (
        <GroupFields
          key={`${group.key} ${group.of ?? ""}`}
          {...fields}
          library={library}
          group={
            doing === "copy" && group.key === "name"
              ? { ...group, fields: group.fields.filter((f) => f.path[0] !== "name") }
              : group
          }
        />
      ))}
      {shelf === "layers" ? <AddColour {...fields} /> : null}
      <FormEnd
        edit={edit}
        isNew={doing === "copy"}
        onSettle={(choice) => void settle(choice)}
        onLeave={() => {
          edit.discard();
          onLeave();
        }}
      />
    </form>
  );
}

/** The figures typed so far under another name: as a new entry, or in place of ours. */
function turned(draft: EntryDraft, other: EntryDraft): EntryDraft {
  const { id, name, replaces } = other.entry;
  const { replaces: _replaces, ...entry } = draft.entry;
  return {
    ...draft,
    fileId: other.fileId,
    head: { ...draft.head, source: other.head.source },
    entry: { ...entry, id, name, ...(replaces === true ? { replaces } : {}) },
  };
}
