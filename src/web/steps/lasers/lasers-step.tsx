import { Button, SegmentedControl } from "@mantine/core";
import { useState } from "react";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { surveyKey } from "../../live/survey-key.ts";
import { useLongWork } from "../../live/use-long-work.ts";
import { LongWorkBar } from "../../show/long-work.tsx";
import { words } from "../../words/index.ts";
import { ofModel } from "./compared.ts";
import { ComparisonBlock } from "./comparison-block.tsx";
import { VerdictRow } from "./verdict-row.tsx";

const drawCount = 64;
type Kind = "all" | "pulsed" | "continuous";

export function LasersStep({ enquiryId, doc, part, partId, partEnquiry, problem }: StepProps) {
  const survey = useLongWork("survey", surveyKey(enquiryId, part, doc));
  const [kind, setKind] = useState<Kind>("all");
  useCautions(survey.answer?.cautions);
  const answer = survey.answer;
  const shown = (answer?.verdicts ?? []).filter((v) => kind === "all" || v.kind === kind);
  const start = () => survey.start({ partId, drawCount });
  return (
    <div className="stack">
      <header className="row apart">
        <div className="stack tight grow">
          <h1>{words.lasers.title}</h1>
          <p className="lead">{words.lasers.lead}</p>
        </div>
        {answer && survey.state !== "working" ? (
          <Button variant="default" onClick={start} disabled={!partEnquiry}>
            {words.lasers.again}
          </Button>
        ) : null}
      </header>
      {problem ? <p className="note bad">{problem}</p> : null}
      {survey.state === "working" ? (
        <LongWorkBar label={words.lasers.working} share={survey.share} onCancel={survey.cancel} />
      ) : null}
      {survey.line ? (
        <p className="note bad" role="alert">
          {survey.line}
        </p>
      ) : null}
      {!answer && survey.state !== "working" ? (
        <section className="empty">
          <h2>{words.lasers.emptyTitle}</h2>
          <p className="quiet">{words.lasers.empty}</p>
          <Button onClick={start} disabled={!partEnquiry}>
            {words.lasers.start}
          </Button>
        </section>
      ) : null}
      {answer ? (
        <>
          <div
            className={`note ${answer.triage.verdict === "declined" ? "bad" : answer.triage.verdict === "likely" ? "good" : "warn"}`}
          >
            <p>
              {words.lasers.triage}: <strong>{words.verdicts[answer.triage.verdict]}</strong>.{" "}
              {words.lasers.predictedOnly}
            </p>
            {answer.triage.reasons.length > 0 ? (
              <ul>
                {answer.triage.reasons.map((reason) => (
                  <li key={reason}>{reason}</li>
                ))}
              </ul>
            ) : null}
          </div>
          {answer.verdicts.length > 0 ? (
            <SegmentedControl
              aria-label={words.lasers.filter}
              value={kind}
              onChange={(value) => setKind(value as Kind)}
              data={[
                { value: "all", label: words.lasers.all },
                { value: "pulsed", label: words.lasers.pulsed },
                { value: "continuous", label: words.lasers.continuous },
              ]}
              style={{ justifySelf: "start" }}
            />
          ) : null}
          {shown.length > 0 ? (
            <div className="sheet flush">
              {shown.map((verdict) => (
                <VerdictRow key={verdict.setupId} verdict={verdict} enquiryId={enquiryId} partId={partId} />
              ))}
            </div>
          ) : answer.verdicts.length > 0 ? (
            <p className="quiet">{words.lasers.none}</p>
          ) : null}
          {answer.comparison ? <ComparisonBlock compared={ofModel(answer.comparison)} /> : null}
          {answer.advice.length > 0 ? (
            <section className="sheet stack tight">
              <h2>{words.lasers.advice}</h2>
              <ul className="plain">
                {answer.advice.map((item) => (
                  <li key={item.measurement}>
                    <strong>{item.measurement}</strong>{" "}
                    {words.lasers.spreadRemoved(`${Math.round(item.spreadRemoved * 100)} %`)}. {item.why}
                  </li>
                ))}
              </ul>
            </section>
          ) : null}
        </>
      ) : null}
    </div>
  );
}
