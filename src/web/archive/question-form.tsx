import { NativeSelect, TextInput } from "@mantine/core";
import { useEffect, useRef, useState } from "react";
import { goTo, linkTo, type Place } from "../app/route.ts";
import { useLibrary } from "../library/use-library.ts";
import { words } from "../words/index.ts";
import { Examples } from "./examples.tsx";

const say = words.archive;

/** ms after the last key before the question goes out: keys that come in one go are one question. */
const REST = 20;

interface Props {
  readonly place: Place;
  /** as the server understood it */
  readonly question: string | null;
}

/** The question: words that are sent as they are typed, or a part that a link brought along. */
export function QuestionForm({ place, question }: Props) {
  const { text = "", enquiry, part, laser } = place.query;
  const { setups } = useLibrary();
  const [typed, setTyped] = useState(text);
  const sent = useRef(text);
  // The address is the question: a link or the way back sets the field.
  if (sent.current !== text) {
    sent.current = text;
    if (typed.trim() !== text) setTyped(text);
  }
  useEffect(() => {
    const wanted = typed.trim();
    if (wanted === sent.current) return;
    const timer = setTimeout(() => {
      sent.current = wanted;
      goTo(linkTo({ page: "archive", query: { text: wanted, laser } }), true);
    }, REST);
    return () => clearTimeout(timer);
  }, [typed, laser]);
  const change = (query: Record<string, string | undefined>) => goTo(linkTo({ page: "archive", query }), true);
  return (
    <div className="stack tight">
      <div className="row question">
        {enquiry ? (
          <div className="grow stack tight">
            <span className="small quiet">{say.likePart}</span>
            <strong>{question ?? `${part ?? ""} ${enquiry}`}</strong>
          </div>
        ) : (
          <TextInput
            className="grow"
            label={say.ask}
            placeholder={say.askHint}
            value={typed}
            maxLength={400}
            type="search"
            onChange={(event) => setTyped(event.currentTarget.value)}
          />
        )}
        <NativeSelect
          label={say.setup}
          value={laser ?? ""}
          onChange={(event) => change({ text: typed.trim(), enquiry, part, laser: event.currentTarget.value })}
          data={[{ value: "", label: say.anySetup }, ...setups.map((s) => ({ value: s.id, label: s.name }))]}
        />
      </div>
      {enquiry ? (
        <p className="small">
          <a href={linkTo({ page: "archive", query: { laser } })}>{say.askInWords}</a>
        </p>
      ) : (
        <>
          {question && text ? <p className="small quiet">{say.understood(question)}</p> : null}
          {typed.trim() === "" ? <Examples /> : null}
        </>
      )}
    </div>
  );
}
