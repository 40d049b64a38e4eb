import { Anchor, Button } from "@mantine/core";
import { linkTo } from "../../app/route.ts";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { useAnswer } from "../../enquiry/use-answer.ts";
import { surveyKey } from "../../live/survey-key.ts";
import { useLongWork } from "../../live/use-long-work.ts";
import { LongWorkBar } from "../../show/long-work.tsx";
import { words } from "../../words/index.ts";
import { ComparisonBlock } from "../lasers/comparison-block.tsx";
import { ofModel, ofWire } from "../lasers/compared.ts";
import { BurnedPictures } from "./burned-pictures.tsx";
import { EvidenceBlock } from "./evidence-block.tsx";
import "./comparison.css";

const say = words.comparison;
const drawCount = 64;

/** Pulsed against continuous on one part: by what was burned, as photographed, and by prediction. */
export function ComparisonStep({ enquiryId, doc, draft, part, partId, partEnquiry, problem, trials }: StepProps) {
  const answer = useAnswer(enquiryId, partId);
  const survey = useLongWork("survey", surveyKey(enquiryId, part, doc));
  const evidence = answer.part?.evidence ?? null;
  const shown = evidence !== null && (evidence.pulsed !== null || evidence.continuous !== null);
  const burned = trials.some((t) => t.outcomes.length > 0);
  const kept = answer.part?.comparison ?? null;
  const predicted = survey.answer?.comparison ? ofModel(survey.answer.comparison) : kept && ofWire(kept);
  useCautions(evidence?.cautions ?? answer.part?.cautions ?? survey.answer?.cautions);
  const at = (step: "trial" | "report") => linkTo({ enquiryId, step, query: { part: partId } });
  const older = answer.outdated || (answer.line != null && draft.version > answer.line.enquiryVersion);
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{say.title}</h1>
        <p className="lead">{say.lead}</p>
      </header>
      {problem ? <p className="note bad">{problem}</p> : null}
      {shown && older ? <p className="note warn">{say.older}</p> : null}
      {shown ? (
        <>
          <EvidenceBlock found={evidence} />
          <BurnedPictures
            enquiryId={enquiryId}
            partId={partId}
            trials={trials}
            pulsed={evidence.pulsed}
            continuous={evidence.continuous}
          />
        </>
      ) : answer.line === undefined ? null : (
        <section className="empty">
          <h2>{burned ? say.unansweredTitle : say.emptyTitle}</h2>
          <p className="quiet">{burned ? say.unanswered : say.empty}</p>
          <Anchor href={at(burned ? "report" : "trial")}>{burned ? say.toAnswer : say.toTrial}</Anchor>
        </section>
      )}
      <header className="row apart">
        <div className="stack tight grow">
          <h2>{say.predicted}</h2>
          <p className="quiet small">{say.predictedLead}</p>
        </div>
        <Button
          variant={predicted === null ? "filled" : "default"}
          onClick={() => survey.start({ partId, drawCount })}
          disabled={!partEnquiry || survey.state === "working"}
        >
          {predicted === null ? words.lasers.start : words.lasers.again}
        </Button>
      </header>
      {survey.state === "working" ? (
        <LongWorkBar label={words.lasers.working} share={survey.share} onCancel={survey.cancel} />
      ) : null}
      {survey.line ? (
        <p className="note bad" role="alert">
          {survey.line}
        </p>
      ) : null}
      {predicted === null && survey.state !== "working" ? <p className="quiet">{say.predictedEmpty}</p> : null}
      {predicted ? (
        <>
          {survey.answer === null ? <p className="quiet small">{say.predictedFrom}</p> : null}
          <ComparisonBlock compared={predicted} />
        </>
      ) : null}
    </div>
  );
}
