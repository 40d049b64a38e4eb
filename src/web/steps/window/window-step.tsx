import { Button, NativeSelect, SegmentedControl } from "@mantine/core";
import { useState } from "react";
import { formatNumber } from "#units";
import { goTo, linkTo } from "../../app/route.ts";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { useLibrary } from "../../library/use-library.ts";
import { useLongWork } from "../../live/use-long-work.ts";
import { lapseOf, learntOf, useGradings } from "../../photographs/use-gradings.ts";
import { LongWorkBar } from "../../show/long-work.tsx";
import { words } from "../../words/index.ts";
import { cautionsOfPart } from "../trial/part-cautions.ts";
import { usualPercent, windowKey } from "./kept-window.ts";
import { NextBatch } from "./next-batch.tsx";
import { WindowAnswerView } from "./window-answer.tsx";

/** As many versions of the physics as the report and the terminal take, so that all three say the same. */
const drawCount = 64;

/** Outcomes and physics joined: map, recommended setting, margin, what to burn next. */
export function WindowStep({ enquiryId, place, part, partId, partEnquiry, trials }: StepProps) {
  const library = useLibrary();
  const graded = trials.filter((t) => t.outcomes.some((o) => o.residueFraction !== null || o.metalCondition !== null));
  const [chosen, setChosen] = useState(place.query.trial ?? "");
  const usual = usualPercent(partEnquiry?.acceptance ?? null);
  const [sure, setSure] = useState<number | null>(null);
  const percent = sure ?? usual;
  const record = graded.find((t) => t.trial.id === chosen) ?? graded[0];
  const records = useGradings(record?.trial.id ?? "");
  const lapse = lapseOf(records ?? []);
  const work = useLongWork("window", windowKey(enquiryId, part, record, percent, lapse));
  const cautions = partEnquiry && record ? cautionsOfPart(partEnquiry, library.setup(record.trial.setupId)) : [];
  useCautions(cautions);
  if (!record)
    return (
      <div className="stack">
        <h1>{words.window.title}</h1>
        <section className="empty">
          <h2>{words.window.emptyTitle}</h2>
          <p className="quiet">{words.window.empty}</p>
          <Button onClick={() => goTo(linkTo({ enquiryId, step: "results", query: { part: partId } }))}>
            {words.window.toResults}
          </Button>
        </section>
      </div>
    );
  const start = () =>
    work.start({
      partId,
      trial: record.trial,
      outcomes: record.outcomes,
      confidence: percent / 100,
      drawCount,
      ...(lapse === undefined ? {} : { lapse }),
    });
  const { answer } = work;
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{words.window.title}</h1>
        <p className="lead">{words.window.lead}</p>
      </header>
      <div className="row middle">
        <NativeSelect
          label={words.trial.choose}
          value={record.trial.id}
          onChange={(e) => setChosen(e.currentTarget.value)}
          data={graded.map((t) => t.trial.id)}
        />
        <div className="stack tight">
          <span className="small">{words.window.sure}</span>
          <SegmentedControl
            aria-label={words.window.sure}
            value={String(percent)}
            onChange={(v) => setSure(Number(v))}
            data={[...new Set([70, 80, 90, 95, usual])]
              .sort((a, b) => a - b)
              .map((v) => ({ value: String(v), label: `${v} %` }))}
          />
        </div>
        <Button
          style={{ alignSelf: "end" }}
          onClick={start}
          disabled={!partEnquiry || records === undefined || work.state === "working"}
        >
          {answer ? words.window.again : words.window.fit}
        </Button>
      </div>
      {lapse === undefined ? null : (
        <p className="small quiet">
          {words.photographs.learnt.window(`${formatNumber(100 * lapse, 2)} %`, learntOf(records ?? []).looked)}
        </p>
      )}
      {work.state === "working" ? (
        <LongWorkBar label={words.window.working} share={work.share} onCancel={work.cancel} />
      ) : null}
      {work.line ? (
        <p className="note bad" role="alert">
          {work.line}
        </p>
      ) : null}
      {answer && partEnquiry ? (
        <>
          <WindowAnswerView answer={answer} outcomes={record.outcomes} acceptance={partEnquiry.acceptance} />
          <NextBatch
            enquiryId={enquiryId}
            partId={partId}
            partKey={JSON.stringify(part)}
            trial={record.trial}
            outcomes={record.outcomes}
            next={answer.window.next}
            acceptance={partEnquiry.acceptance}
            cautions={cautions}
            drawCount={drawCount}
          />
          <div className="row">
            <Button onClick={() => goTo(linkTo({ enquiryId, step: "report", query: { part: partId } }))}>
              {words.window.toReport}
            </Button>
          </div>
        </>
      ) : null}
    </div>
  );
}
