import "./archive.css";
import { Button } from "@mantine/core";
import { useEffect } from "react";
import { linkTo, type Place } from "../app/route.ts";
import { rowKeys } from "../enquiries/row-keys.ts";
import { words } from "../words/index.ts";
import { EmptyArchive } from "./empty-archive.tsx";
import { HitRow } from "./hit-row.tsx";
import { QuestionForm } from "./question-form.tsx";
import { useArchive } from "./use-archive.ts";

const say = words.archive;

/** Trials of all enquiries, by likeness. */
export function ArchivePage({ place }: { readonly place: Place }) {
  const { text, enquiry, part, laser } = place.query;
  const ask = { text: enquiry ? undefined : text, enquiry, part: enquiry ? part : undefined, laser };
  const view = useArchive(ask);
  const { page, hits } = view;
  const asked = Boolean(ask.text || enquiry || laser);
  useEffect(() => {
    document.title = `${say.title} · ${words.frame.name}`;
    return () => {
      document.title = words.frame.name;
    };
  }, []);
  const goal = enquiry ? { enquiryId: enquiry, partId: part ?? null } : null;
  const lost = view.line !== null && !view.searching;
  const unread = page !== null && page.question === null && Boolean(ask.text);
  return (
    <main id="work" tabIndex={-1} className="page archive" onKeyDown={rowKeys}>
      <div className="stack">
        <header className="stack tight">
          <h1>{say.title}</h1>
          <p className="lead">{say.lead}</p>
        </header>
        <QuestionForm place={place} question={page?.question ?? null} />
        <div className="row middle apart archive-state">
          <p className="small" role="status">
            {lost || page === null || unread ? "" : asked ? say.count(page.near, page.compared) : say.newest(page.near)}
          </p>
          {view.searching ? (
            <span className="row middle small quiet">
              {say.searching}
              <Button variant="subtle" size="compact-sm" onClick={view.cancel}>
                {say.cancel}
              </Button>
            </span>
          ) : null}
        </div>
        {view.cancelled ? (
          <p className="note row middle">
            {say.cancelled}
            <Button variant="subtle" size="compact-sm" onClick={view.again}>
              {say.again}
            </Button>
          </p>
        ) : null}
        {!lost && page !== null && page.ignored.length > 0 && !unread ? (
          <p className="note warn small">{say.notUnderstood(page.ignored)}</p>
        ) : null}
        {!lost && page !== null && page.notCompared > 0 ? (
          <p className="small quiet">{say.notCompared(page.notCompared)}</p>
        ) : null}
        {lost ? (
          <p className="note bad" role="alert">
            {view.line}
          </p>
        ) : page !== null && hits.length === 0 ? (
          <EmptyArchive why={page.compared + page.notCompared === 0 ? "none" : unread ? "unread" : "nothing"} />
        ) : null}
        {!lost && hits.length > 0 ? (
          <ol className="sheet flush hits" aria-busy={view.searching}>
            {hits.map((hit, i) => (
              <HitRow key={`${hit.trial} ${i}`} hit={hit} goal={goal} />
            ))}
          </ol>
        ) : null}
        {!lost && view.left > 0 ? (
          <div>
            <Button variant="default" onClick={view.more} disabled={view.searching}>
              {say.more(view.left)}
            </Button>
          </div>
        ) : null}
      </div>
      <aside className="panel" aria-label={say.about}>
        <div className="stick">
          <section>
            <h2>{say.about}</h2>
            <ul>
              <li>{say.beginning}</li>
              <li>{say.aboutLikeness}</li>
            </ul>
            {goal ? (
              <p className="small">
                <a href={linkTo({ enquiryId: goal.enquiryId, step: "trial", query: { part: goal.partId } })}>
                  {say.back}
                </a>
              </p>
            ) : null}
          </section>
          <section className="cautions">
            <h2>{say.cautions}</h2>
            <ul>
              {[...new Set([...(page?.cautions ?? []), ...hits.flatMap((h) => h.cautions)]), words.panel.officer].map(
                (line) => (
                  <li key={line}>{line}</li>
                ),
              )}
            </ul>
          </section>
        </div>
      </aside>
    </main>
  );
}
