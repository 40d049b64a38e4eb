import { useEffect, useState } from "react";
import type { KeptFile, ShelfKey } from "../api/library.ts";
import { goTo, linkTo, type Place } from "../app/route.ts";
import { words } from "../words/index.ts";
import { EntryForm } from "./entry-form.tsx";
import { EntryPage } from "./entry-page.tsx";
import { type Notice, NoticeBar } from "./notice-bar.tsx";
import { entriesOf, shelfKeys } from "./origins.ts";
import { usePutFile } from "./put-version.ts";
import { ShelfPage } from "./shelf-page.tsx";
import { useLibrary, useLibraryFiles } from "./use-library.ts";
import "./library.css";

const say = words.library;

/** What the predictions rest on: ours, and what this store keeps of its own. `#/library/<shelf>/<entry>?do=copy` */
export function LibraryPage({ place }: { readonly place: Place }) {
  const library = useLibrary();
  const { data: kept, isPending, error } = useLibraryFiles();
  const { put, putBack } = usePutFile();
  const [notice, setNotice] = useState<Notice | null>(null);
  const [key, id] = place.path;
  const shelf: ShelfKey = shelfKeys.find((s) => s === key) ?? "metals";
  const entry = id === undefined ? undefined : entriesOf(library, shelf).find((e) => e.id === id);
  const doing = place.query.do === "edit" || place.query.do === "copy" ? place.query.do : null;
  const title = entry?.name ?? say.title;
  useEffect(() => {
    document.title = `${title} · ${words.frame.name}`;
    return () => {
      document.title = words.frame.name;
    };
  }, [title]);

  /** The version before is put back; before the first there was nothing. */
  const before = (saved: KeptFile) => () =>
    saved.version > 1
      ? putBack(saved.id, saved.version, saved.version - 1)
      : put(saved.id, saved.version, {
          source: saved.file.source,
          citation: saved.file.citation ?? saved.file.source,
          fromMemory: saved.file.fromMemory,
          note: saved.file.note,
        });
  const told = (saved: KeptFile, text: string, path: readonly string[]) => {
    setNotice({ text, back: before(saved) });
    goTo(linkTo({ page: "library", path }));
  };
  const at = entry === undefined ? [shelf] : [shelf, entry.id];

  return (
    <main id="work" tabIndex={-1} className="page library">
      {error ? <p className="note warn">{error.message}</p> : null}
      {notice !== null && doing === null ? (
        <NoticeBar notice={notice} onDone={(text) => setNotice({ text, back: null })} />
      ) : null}
      {id === undefined ? (
        <ShelfPage
          shelf={shelf}
          library={library}
          kept={kept}
          onBack={(name) => setNotice({ text: say.after.back(name), back: null })}
          onRead={(saved) => told(saved, say.files.kept(saved.id, saved.version), [shelf])}
        />
      ) : entry === undefined ? (
        <section className="empty">
          <h1>{isPending ? say.wait : say.notFoundTitle}</h1>
          {isPending ? null : <p className="quiet">{say.notFound(id)}</p>}
          <a href={linkTo({ page: "library", path: [shelf] })}>{say.back}</a>
        </section>
      ) : doing !== null && kept !== undefined ? (
        <EntryForm
          key={`${doing} ${shelf} ${id}`}
          shelf={shelf}
          entry={entry}
          library={library}
          kept={kept}
          doing={doing}
          onLeave={() => goTo(linkTo({ page: "library", path: at }))}
          onSaved={(saved, draft) =>
            told(saved, say.after.saved(String(draft.entry.name), saved.version), [shelf, String(draft.entry.id)])
          }
        />
      ) : (
        <EntryPage
          shelf={shelf}
          entry={entry}
          library={library}
          kept={kept}
          onSaved={(saved, what) =>
            what === "out"
              ? told(saved, say.after.out(entry.name), [shelf])
              : told(saved, say.after.saved(entry.name, saved.version), at)
          }
        />
      )}
    </main>
  );
}
