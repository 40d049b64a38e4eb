import { Anchor, Button, NativeSelect } from "@mantine/core";
import { useQuery, useQueryClient } from "@tanstack/react-query";
import { useRef, useState } from "react";
import { listAnswers, makeAnswer } from "../../api/enquiries.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { LongWorkBar } from "../../show/long-work.tsx";
import { whenText } from "../../show/when.ts";
import { words } from "../../words/index.ts";

/** The report as it will print, and its downloads. */
export function ReportStep({ enquiryId, draft, problem }: StepProps) {
  const queries = useQueryClient();
  const answers = useQuery({ queryKey: ["answers", enquiryId], queryFn: () => listAnswers(enquiryId) });
  const [chosen, setChosen] = useState<string | null>(null);
  const [working, setWorking] = useState(false);
  const [line, setLine] = useState<string | null>(null);
  const abort = useRef<AbortController | null>(null);
  const list = answers.data?.answers ?? [];
  const answer = list.find((a) => a.id === chosen) ?? list[0];
  const make = async () => {
    abort.current = new AbortController();
    setWorking(true);
    setLine(null);
    try {
      const made = await makeAnswer(enquiryId, abort.current.signal);
      setChosen(made.id);
      await queries.invalidateQueries({ queryKey: ["answers", enquiryId] });
    } catch (error) {
      if (!abort.current.signal.aborted) setLine(error instanceof Error ? error.message : String(error));
    }
    setWorking(false);
  };
  const path = answer ? `/api/answers/${encodeURIComponent(answer.id)}/report` : "";
  return (
    <div className="stack">
      <header className="row apart">
        <div className="stack tight grow">
          <h1>{words.report.title}</h1>
          <p className="lead">{words.report.lead}</p>
        </div>
        <Button onClick={make} disabled={working || problem !== null}>
          {answer ? words.report.again : words.report.make}
        </Button>
      </header>
      {working ? (
        <LongWorkBar label={words.report.working} share={null} onCancel={() => abort.current?.abort()} />
      ) : null}
      {line ? (
        <p className="note bad" role="alert">
          {line}
        </p>
      ) : null}
      {!answer && !working ? (
        <section className="empty">
          <h2>{words.report.emptyTitle}</h2>
          <p className="quiet">{words.report.empty}</p>
        </section>
      ) : null}
      {answer ? (
        <>
          <div className="row middle">
            <NativeSelect
              label={words.report.which}
              value={answer.id}
              onChange={(e) => setChosen(e.currentTarget.value)}
              data={list.map((a) => ({ value: a.id, label: words.report.of(whenText(a.savedAt), a.enquiryVersion) }))}
            />
            <Anchor href={`${path}.pdf`} download style={{ alignSelf: "end" }}>
              {words.report.pdf}
            </Anchor>
            <Anchor href={`${path}.html`} target="_blank" rel="noopener" style={{ alignSelf: "end" }}>
              {words.report.html}
            </Anchor>
          </div>
          {draft.version > answer.enquiryVersion ? <p className="note warn">{words.report.older}</p> : null}
          <iframe className="paperframe" title={words.report.preview} src={`${path}.html`} sandbox="" />
        </>
      ) : null}
    </div>
  );
}
