import { Checkbox, SegmentedControl, TextInput } from "@mantine/core";
import { useState } from "react";
import type { Library } from "#library";
import type { KeptFile, KeptFiles, ShelfKey } from "../api/library.ts";
import { goTo, linkTo } from "../app/route.ts";
import { words } from "../words/index.ts";
import { briefOf, fits, searchText } from "./brief.ts";
import { type Entry, entriesOf, shelfKeys, standingOf } from "./origins.ts";
import { OwnFiles } from "./own-files.tsx";
import { TakenOut } from "./taken-out.tsx";
import { Choice } from "./typed-input.tsx";

interface Props {
  readonly shelf: ShelfKey;
  readonly library: Library;
  readonly kept: KeptFiles | undefined;
  readonly onBack: (name: string) => void;
  readonly onRead: (saved: KeptFile) => void;
}

const say = words.library;

/** One shelf of the library: what is on it, and how to put something of one's own beside it. */
export function ShelfPage({ shelf, library, kept, onBack, onRead }: Props) {
  const [search, setSearch] = useState("");
  const [ownOnly, setOwnOnly] = useState(false);
  const wanted = (key: ShelfKey) =>
    entriesOf(library, key).filter(
      (e) => fits(searchText(key, e), search.trim()) && (!ownOnly || standingOf(kept, key, e.id) !== "ours"),
    );
  const found = wanted(shelf);
  const isOwn = (e: Entry) => standingOf(kept, shelf, e.id) === "own";
  // One's own stand first: they are few, and what one comes back for.
  const shown = [...found.filter(isOwn), ...found.filter((e) => !isOwn(e))];
  const anyOwn = shelfKeys.some((key) => entriesOf(library, key).some((e) => standingOf(kept, key, e.id) !== "ours"));
  const elsewhere = search.trim() === "" ? [] : shelfKeys.filter((key) => key !== shelf && wanted(key).length > 0);
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{say.title}</h1>
        <p className="lead">{say.lead}</p>
      </header>
      <div className="row middle">
        <SegmentedControl
          aria-label={say.title}
          value={shelf}
          onChange={(key) => goTo(linkTo({ page: "library", path: [key] }))}
          data={shelfKeys.map((key) => ({ value: key, label: say.shelves[key] }))}
        />
        <TextInput
          aria-label={say.search}
          placeholder={say.searchHelp}
          w={260}
          value={search}
          onChange={(event) => setSearch(event.currentTarget.value)}
        />
        {anyOwn ? (
          <Checkbox
            label={say.onlyOwn}
            checked={ownOnly}
            onChange={(event) => setOwnOnly(event.currentTarget.checked)}
          />
        ) : null}
      </div>
      <AddOne shelf={shelf} entries={entriesOf(library, shelf)} />
      {(kept?.refused ?? []).map((k) => (
        <p key={k.id} className="note bad">
          {say.unfit(k.id, k.error)}
        </p>
      ))}
      {kept !== undefined && !anyOwn ? (
        <section className="empty">
          <h2>{say.emptyTitle}</h2>
          <p className="quiet">{say.empty}</p>
        </section>
      ) : null}
      {shown.length > 0 ? (
        <div className="sheet flush">
          {shown.map((entry) => (
            <EntryLine key={entry.id} shelf={shelf} entry={entry} kept={kept} />
          ))}
        </div>
      ) : (
        <p className="quiet">{say.nothingFound}</p>
      )}
      {elsewhere.length > 0 ? (
        <p className="row">
          {elsewhere.map((key) => (
            <a key={key} href={linkTo({ page: "library", path: [key] })}>
              {say.elsewhere(wanted(key).length, say.shelves[key].toLowerCase())}
            </a>
          ))}
        </p>
      ) : null}
      <TakenOut shelf={shelf} kept={kept} onBack={onBack} />
      <OwnFiles kept={kept} onRead={onRead} />
    </div>
  );
}

/** The way to an entry of one's own: a copy of the one that is nearest to it. */
function AddOne({ shelf, entries }: Pick<Props, "shelf"> & { readonly entries: readonly Entry[] }) {
  return (
    <div className="lib-add">
      <Choice
        shown
        label={say.add.label[shelf]}
        value=""
        values={[["", say.add.choose] as const, ...entries.map((e) => [e.id, e.name] as const)]}
        onChange={(id) => id !== "" && goTo(linkTo({ page: "library", path: [shelf, id], query: { do: "copy" } }))}
      />
    </div>
  );
}

function EntryLine({ shelf, entry, kept }: Pick<Props, "shelf" | "kept"> & { readonly entry: Entry }) {
  const standing = standingOf(kept, shelf, entry.id);
  return (
    <a className="lib-line" href={linkTo({ page: "library", path: [shelf, entry.id] })}>
      <span className="lib-name">
        {entry.name}
        {standing === "ours" ? null : <span className="tag accent">{say.standing[standing]}</span>}
      </span>
      <span className="small quiet">{briefOf(shelf, entry)}</span>
    </a>
  );
}
