import type { Place } from "../app/route.ts";
import { words } from "../words/index.ts";

/** Trials of all enquiries, by likeness. */
export function ArchivePage(_: { readonly place: Place }) {
  return (
    <main id="work" tabIndex={-1} className="page">
      <h1>{words.archive.title}</h1>
    </main>
  );
}
