import { Button, NativeSelect } from "@mantine/core";
import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { getShop } from "../../api/answers.ts";
import { listAnswers } from "../../api/enquiries.ts";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { useAnswer } from "../../enquiry/use-answer.ts";
import { LongWorkBar } from "../../show/long-work.tsx";
import { whenText } from "../../show/when.ts";
import { words } from "../../words/index.ts";
import { missingOf } from "./missing.ts";
import { usePaperChoice } from "./paper-choice.ts";
import { PapersPanel } from "./papers-panel.tsx";
import { RunSheets } from "./run-sheets.tsx";
import { useMakeAnswer } from "./use-make-answer.ts";
import "./answer.css";

/** The answer: the report and the papers as they will print, what they still lack, and their downloads. */
export function ReportStep({ enquiryId, partId, partEnquiry, doc, draft, problem, trials }: StepProps) {
  const answers = useQuery({ queryKey: ["answers", enquiryId], queryFn: () => listAnswers(enquiryId) });
  const shop = useQuery({ queryKey: ["shop", enquiryId], queryFn: () => getShop(enquiryId) });
  const [chosen, setChosen] = useState<string | null>(null);
  const { working, line, make, cancel } = useMakeAnswer(enquiryId, setChosen);
  const answer = useAnswer(enquiryId, partId, chosen);
  const [choice, change] = usePaperChoice(enquiryId);
  const list = answers.data?.answers ?? [];
  const kept = answer.line ?? null;
  const { part } = answer;
  useCautions(part?.cautions);
  return (
    <div className="stack">
      <header className="row apart">
        <div className="stack tight grow">
          <h1>{words.papers.title}</h1>
          <p className="lead">{words.papers.lead}</p>
        </div>
        <Button onClick={() => void make()} disabled={working || problem !== null}>
          {kept ? words.report.again : words.report.make}
        </Button>
      </header>
      {working ? <LongWorkBar label={words.report.working} share={null} onCancel={cancel} /> : null}
      {line ? (
        <p className="note bad" role="alert">
          {line}
        </p>
      ) : null}
      {answer.line === null && !working ? (
        <section className="empty">
          <h2>{words.report.emptyTitle}</h2>
          <p className="quiet">{words.report.empty}</p>
        </section>
      ) : null}
      {kept ? (
        <>
          <NativeSelect
            label={words.report.which}
            value={kept.id}
            onChange={(e) => setChosen(e.currentTarget.value)}
            data={list.map((a) => ({ value: a.id, label: words.report.of(whenText(a.savedAt), a.enquiryVersion) }))}
            style={{ justifySelf: "start" }}
          />
          {answer.outdated || draft.version > kept.enquiryVersion ? (
            <p className="note warn">{words.report.older}</p>
          ) : null}
          {answer.problem ? <p className="note warn">{words.papers.oldAnswer}</p> : null}
          {part === null ? null : (
            <Missing
              lines={missingOf({
                part,
                unknowns: partEnquiry?.unknowns ?? [],
                invented: doc.invented ?? false,
                shopVersion: answer.shopVersion,
                shopNow: shop.data?.version ?? answer.shopVersion,
                approver: choice.approver,
              })}
            />
          )}
          <PapersPanel
            enquiryId={enquiryId}
            partId={partId}
            answerId={kept.id}
            part={part}
            choice={choice}
            change={change}
          />
        </>
      ) : null}
      <RunSheets trials={trials} language={choice.language} />
    </div>
  );
}

function Missing({ lines }: { readonly lines: readonly string[] }) {
  return (
    <section className={lines.length === 0 ? "note good" : "note warn"}>
      <h2>{words.papers.missing}</h2>
      {lines.length === 0 ? (
        <p>{words.papers.missingNone}</p>
      ) : (
        <ul>
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
