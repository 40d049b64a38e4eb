import { Button, TextInput } from "@mantine/core";
import { useQuery, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { type EnquiryLine, listEnquiries, loadExample, putEnquiry } from "../api/enquiries.ts";
import { goTo, linkTo, type StepId } from "../app/route.ts";
import { newEnquiry, partId } from "../enquiry/doc.ts";
import { whenText } from "../show/when.ts";
import { words } from "../words/index.ts";
import { SmallStack } from "./small-stack.tsx";

type State = keyof typeof words.list.states;
const nextStep: Record<State, StepId> = { described: "lasers", tried: "results", proven: "window", answered: "report" };

export function EnquiryList() {
  const queries = useQueryClient();
  const list = useQuery({ queryKey: ["enquiries"], queryFn: ({ signal }) => listEnquiries(signal) });
  const [search, setSearch] = useState("");
  const [line, setLine] = useState<string | null>(null);
  const all = list.data?.enquiries ?? [];
  const wanted = search.trim().toLowerCase().split(/\s+/).filter(Boolean);
  const found = all.filter((item) => wanted.every((word) => textOf(item).includes(word)));

  const fresh = async () => {
    const id = freshId(all.map((item) => item.id));
    await putEnquiry(id, 0, newEnquiry(id, words.list.freshTitle)).then(
      () => goTo(linkTo({ enquiryId: id })),
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
        <>
          <TextInput
            aria-label={words.list.search}
            placeholder={words.list.search}
            value={search}
            onChange={(event) => setSearch(event.currentTarget.value)}
            maw={360}
          />
          {found.length === 0 ? <p className="quiet">{words.list.nothingFound}</p> : null}
          {found.length > 0 ? (
            <div className="sheet flush">
              {found.map((item) => (
                <Line key={item.id} item={item} />
              ))}
            </div>
          ) : null}
          {all.some((item) => item.enquiry.invented) ? null : (
            <div>
              <Button variant="subtle" onClick={() => void example()}>
                {words.list.example}
              </Button>
            </div>
          )}
        </>
      ) : null}
    </main>
  );
}

function Line({ item }: { readonly item: EnquiryLine }) {
  const state = stateOf(item);
  const first = item.enquiry.parts[0] ?? {};
  return (
    <a
      className="card-link"
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
}

function stateOf(item: EnquiryLine): State {
  if (item.answers > 0) return "answered";
  if (item.outcomes > 0) return "proven";
  return item.trials > 0 ? "tried" : "described";
}

function textOf(item: EnquiryLine): string {
  const parts = item.enquiry.parts.flatMap((p) => [
    p.name,
    p.material,
    ...(p.layers ?? []).flatMap((l) => [l.kind, l.colour]),
  ]);
  return [item.id, item.enquiry.title, item.enquiry.customer, ...parts].join(" ").toLowerCase();
}

function freshId(taken: readonly string[]): string {
  const day = new Date().toISOString().slice(0, 10);
  for (let n = 1; ; n++) {
    const id = `enquiry-${day}-${n}`;
    if (!taken.includes(id)) return id;
  }
}
