import { Button, TextInput } from "@mantine/core";
import { useQueryClient } from "@tanstack/react-query";
import { memo, useDeferredValue, useMemo, useState } from "react";
import { type EnquiryLine, loadExample } from "../api/enquiries.ts";
import { goTo, linkTo } from "../app/route.ts";
import { newEnquiry, partId } from "../enquiry/doc.ts";
import { whenText } from "../show/when.ts";
import { words } from "../words/index.ts";
import { nextStep, stateOf } from "./enquiry-state.ts";
import { foundLines } from "./found-lines.ts";
import { keepNew } from "./fresh-id.ts";
import { rowKeys } from "./row-keys.ts";
import { SmallStack } from "./small-stack.tsx";
import { useEnquiries } from "./use-enquiries.ts";
import { useGrowing } from "./use-growing.ts";

const none: readonly EnquiryLine[] = [];

export function EnquiryList() {
  const queries = useQueryClient();
  const list = useEnquiries();
  const [search, setSearch] = useState("");
  const [line, setLine] = useState<string | null>(null);
  // What is typed stands at once; the rows follow as soon as they can.
  const asked = useDeferredValue(search);
  const all = list.data?.enquiries ?? none;
  const found = useMemo(() => foundLines(all, asked), [all, asked]);
  const { shown, more, end } = useGrowing(found.length, asked);

  const fresh = async () => {
    await keepNew((id) => newEnquiry(id, words.list.freshTitle)).then(
      (id) => goTo(linkTo({ enquiryId: id })),
      (error: Error) => setLine(error.message),
    );
  };
  const example = async () => {
    await loadExample().then(
      (answer) => {
        void queries.invalidateQueries({ queryKey: ["enquiries"] });
        goTo(linkTo({ enquiryId: answer.id }));
      },
      (error: Error) => setLine(error.message),
    );
  };

  return (
    <main id="work" tabIndex={-1} className="page stack">
      <header className="row apart">
        <div className="stack tight">
          <h1>{words.list.title}</h1>
          <p className="lead">{words.list.lead}</p>
        </div>
        <Button onClick={() => void fresh()}>{words.list.fresh}</Button>
      </header>
      {(line ?? list.error?.message) ? (
        <p className="note bad" role="alert">
          {line ?? list.error?.message}
        </p>
      ) : null}
      {list.isPending ? <p className="quiet">{words.frame.opening}</p> : null}
      {list.data && all.length === 0 ? (
        <section className="empty">
          <h2>{words.list.noneTitle}</h2>
          <p className="quiet">{words.list.none}</p>
          <Button onClick={() => void example()}>{words.list.example}</Button>
        </section>
      ) : null}
      {all.length > 0 ? (
        <div className="stack" role="group" aria-label={words.list.title} onKeyDown={rowKeys}>
          <div className="row middle">
            <TextInput
              aria-label={words.list.search}
              placeholder={words.list.search}
              value={search}
              onChange={(event) => setSearch(event.currentTarget.value)}
              className="grow"
              maw={360}
            />
            <p className="quiet small" role="status">
              {words.archive.list.count(found.length, all.length)}
            </p>
          </div>
          {found.length === 0 ? <p className="quiet">{words.list.nothingFound}</p> : null}
          {found.length > 0 ? (
            <div className="sheet flush">
              {found.slice(0, shown).map((item) => (
                <Line key={item.id} item={item} />
              ))}
            </div>
          ) : null}
          {shown < found.length ? (
            <div ref={end}>
              <Button variant="default" onClick={more}>
                {words.archive.list.more(found.length - shown)}
              </Button>
            </div>
          ) : null}
          {all.some((item) => item.enquiry.invented) ? null : (
            <div>
              <Button variant="subtle" onClick={() => void example()}>
                {words.list.example}
              </Button>
            </div>
          )}
        </div>
      ) : null}
    </main>
  );
}

const Line = memo(function Line({ item }: { readonly item: EnquiryLine }) {
  const state = stateOf(item);
  const first = item.enquiry.parts[0] ?? {};
  return (
    <a
      className="card-link"
      data-row
      href={linkTo({ enquiryId: item.id, step: nextStep[state], query: { part: partId(first, 0) } })}
    >
      <SmallStack layers={first.layers ?? []} />
      <div className="stack" style={{ gap: 3 }}>
        <h2>{item.enquiry.title || words.list.untitled}</h2>
        <p className="quiet small">
          {[
            item.enquiry.customer,
            words.list.parts(item.enquiry.parts.length),
            item.enquiry.parts
              .map((p) => p.name)
              .filter(Boolean)
              .join(", "),
          ]
            .filter(Boolean)
            .join(" · ")}
        </p>
        <p className="row middle small" style={{ gap: 8 }}>
          <span className={state === "described" ? "tag" : "tag accent"}>{words.list.states[state]}</span>
          {item.enquiry.invented ? <span className="tag">{words.list.invented}</span> : null}
          <span className="quiet">{words.list.saved(whenText(item.savedAt))}</span>
        </p>
      </div>
      <span className="next">{words.list.next[state]}</span>
    </a>
  );
});
