import { Button } from "@mantine/core";
import { useState } from "react";
import type { Library, LibraryFile } from "#library";
import type { LaserSetup } from "#terms";
import type { KeptFile, KeptFiles, ShelfKey } from "../api/library.ts";
import { linkTo } from "../app/route.ts";
import { whenText } from "../show/when.ts";
import { words } from "../words/index.ts";
import { briefOf } from "./brief.ts";
import { draftOf, fileWithout } from "./entry-draft.ts";
import { EntryFigures } from "./entry-figures.tsx";
import { machineWords } from "./machine-words.ts";
import { Moves } from "./moves.tsx";
import { type Entry, fileOfEntry, standingOf } from "./origins.ts";
import { usePutFile } from "./put-version.ts";
import type { Tree } from "./tree.ts";
import { UsedBy } from "./used-by.tsx";
import { VersionsDrawer } from "./versions-drawer.tsx";

interface Props {
  readonly shelf: ShelfKey;
  readonly entry: Entry;
  readonly library: Library;
  readonly kept: KeptFiles | undefined;
  /** an own file was saved: what was done to the entry of this name */
  readonly onSaved: (saved: KeptFile, what: "saved" | "out") => void;
}

const say = words.library;

/** One entry: every figure with where it comes from, what uses it, and the way to change it. */
export function EntryPage({ shelf, entry, library, kept, onSaved }: Props) {
  const file = fileOfEntry(kept, shelf, entry.id);
  const standing = standingOf(kept, shelf, entry.id);
  const at = (what: "edit" | "copy") => linkTo({ page: "library", path: [shelf, entry.id], query: { do: what } });
  return (
    <div className="stack">
      <p className="small">
        <a href={linkTo({ page: "library", path: [shelf] })}>{`${say.shelves[shelf]}: ${say.back.toLowerCase()}`}</a>
      </p>
      <header className="row apart">
        <div className="stack tight grow">
          <h1>
            {entry.name} <span className="tag">{say.standing[standing]}</span>
          </h1>
          <p className="lead">{briefOf(shelf, entry)}</p>
          <p className="small quiet">
            {entry.id}
            {file === null ? "" : ` · ${say.saved(whenText(file.savedAt), file.version)}`}
          </p>
        </div>
        <div className="row">
          {file === null ? null : (
            <Button component="a" href={at("edit")}>
              {say.edit}
            </Button>
          )}
          <Button component="a" href={at("copy")} variant={file === null ? "filled" : "default"}>
            {say.copy}
          </Button>
          {file === null ? null : <OwnTools {...{ shelf, entry, file, onSaved }} />}
        </div>
      </header>
      {standing === "in place" ? <Moves shelf={shelf} id={entry.id} /> : null}
      {shelf === "setups" ? <Machine setup={entry as LaserSetup} /> : null}
      <EntryFigures shelf={shelf} entry={entry as unknown as Tree} library={library} />
      {standing === "in place" ? null : (
        <section className="sheet stack tight">
          <h2>{say.used.title}</h2>
          <UsedBy shelf={shelf} id={entry.id} />
        </section>
      )}
    </div>
  );
}

function Machine({ setup }: { readonly setup: LaserSetup }) {
  return (
    <section className="sheet stack tight">
      <h2>{say.machine.title}</h2>
      <ul>
        {machineWords(setup).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p className="small quiet">{say.machine.level}</p>
    </section>
  );
}

type ToolsProps = Pick<Props, "shelf" | "entry" | "onSaved"> & { readonly file: KeptFile };

/** History of an own entry, and taking it out. */
function OwnTools({ shelf, entry, file, onSaved }: ToolsProps) {
  const { put } = usePutFile();
  const [opened, setOpened] = useState(false);
  const [line, setLine] = useState<string | null>(null);
  const takeOut = () => {
    const draft = draftOf(shelf, file.id, file.file, entry.id);
    if (draft === null) return;
    // The kept file without one of its entries: the server judges it as any other.
    void put(file.id, file.version, fileWithout(draft) as LibraryFile).then(
      (saved) => onSaved(saved, "out"),
      (error: Error) => setLine(error.message),
    );
  };
  return (
    <>
      <Button variant="default" onClick={() => setOpened(true)}>
        {say.history}
      </Button>
      <Button variant="subtle" color="gray" onClick={takeOut}>
        {say.out}
      </Button>
      {line === null ? null : (
        <p className="note bad" role="alert">
          {line}
        </p>
      )}
      <VersionsDrawer
        shelf={shelf}
        id={entry.id}
        name={entry.name}
        file={file}
        opened={opened}
        onClose={() => setOpened(false)}
        onBack={(saved) => {
          setOpened(false);
          onSaved(saved, "saved");
        }}
      />
    </>
  );
}
