import { words } from "../words/index.ts";
import type { Problems } from "./draft-problems.ts";
import { type EntryDraft, type Head, shortName, withHead, withId, withValue } from "./entry-draft.ts";
import { Tick, TypedInput } from "./typed-input.tsx";

interface Props {
  readonly draft: EntryDraft;
  readonly change: (next: (draft: EntryDraft) => EntryDraft, cause: string) => void;
  readonly problems: Problems;
}

const say = words.library.form;

/** Another name; the short name in files follows it for as long as nobody chose one. */
const renamed = (draft: EntryDraft, name: string): EntryDraft => {
  const follows = draft.entry.id === shortName(String(draft.entry.name));
  const next = withValue(draft, ["name"], name);
  return follows ? withId(next, shortName(name)) : next;
};

/** Name and short name of a new entry. */
export function NameFields({ draft, change, problems }: Props) {
  return (
    <div className="lib-pair">
      <TypedInput
        shown
        label={say.name}
        value={String(draft.entry.name ?? "")}
        onEnter={(text) => change((d) => renamed(d, text), "name")}
        problem={problems.name}
        place="name"
      />
      <TypedInput
        shown
        label={say.id}
        help={say.idHelp}
        value={String(draft.entry.id ?? "")}
        onEnter={(text) => change((d) => withId(d, text.trim()), "id")}
        problem={problems.id ?? problems["head.source"]}
        place="id"
      />
    </div>
  );
}

/** What the file says of all its figures: who they are from, and what they are not. */
export function HeadFields({ draft, change, problems }: Props) {
  const set = (next: Partial<Head>, cause: string) => change((d) => withHead(d, next), `head ${cause}`);
  return (
    <section className="sheet stack tight">
      <h2>{say.head}</h2>
      <TypedInput
        shown
        label={say.citation}
        help={say.citationHelp}
        value={draft.head.citation}
        onEnter={(citation) => set({ citation }, "citation")}
        problem={problems["head.citation"]}
        place="head.citation"
      />
      <TypedInput
        shown
        lines={2}
        label={say.note}
        value={draft.head.note}
        onEnter={(note) => set({ note }, "note")}
        problem={problems["head.note"]}
        place="head.note"
      />
      <Tick
        label={say.memory}
        checked={draft.head.fromMemory}
        onChange={(fromMemory) => set({ fromMemory }, "memory")}
      />
    </section>
  );
}
