import { Button, NativeSelect } from "@mantine/core";
import { useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { type DesignName, designNames } from "#trial";
import { Refused } from "../../api/client.ts";
import { putTrial } from "../../api/trials.ts";
import { LikeLink } from "../../archive/like-link.tsx";
import { goTo, linkTo } from "../../app/route.ts";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { useLibrary } from "../../library/use-library.ts";
import { readWorkingSetting } from "../../live/kept-choice.ts";
import { useLongWork } from "../../live/use-long-work.ts";
import { PathNote } from "../../photographs/path-note.tsx";
import { LongWorkBar } from "../../show/long-work.tsx";
import { MaybeNumber } from "../../show/maybe-number.tsx";
import { words } from "../../words/index.ts";
import { cautionsOfPart } from "./part-cautions.ts";
import { SampleList } from "./sample-list.tsx";
import { freshTrialId } from "./trial-id.ts";
import { TrialView } from "./trial-view.tsx";

/** As many versions of the physics as the report and the terminal take, so that all three say the same. */
const drawCount = 64;
const USUAL = "pulsed-500";

/** Choose how many patches on which set-up, look at the plan, keep it, print it. */
export function TrialStep({ enquiryId, place, part, partId, partEnquiry, problem, trials }: StepProps) {
  const queries = useQueryClient();
  const library = useLibrary();
  const [setupId, setSetupId] = useState(place.query.laser ?? readWorkingSetting(enquiryId, partId)?.setupId ?? USUAL);
  const setup = library.setups.find((s) => s.id === setupId) ?? library.setup(USUAL);
  const [count, setCount] = useState(24);
  const [design, setDesign] = useState<DesignName>(designNames[0]);
  const [seed, setSeed] = useState(1);
  const [line, setLine] = useState<string | null>(null);
  const plan = useLongWork("plan", JSON.stringify([enquiryId, part, setup.id, count, design, seed]));
  const cautions = partEnquiry ? cautionsOfPart(partEnquiry, setup) : [];
  useCautions(cautions);
  const start = () =>
    plan.start({
      partId,
      setupId: setup.id,
      count,
      design,
      seed,
      trialId: freshTrialId(
        { enquiryId, partId, setupId: setup.id },
        trials.map((t) => t.trial.id),
      ),
      drawCount,
    });
  const keep = async () => {
    if (!plan.answer) return;
    try {
      await putTrial(plan.answer, cautions, 0);
      await queries.invalidateQueries({ queryKey: ["trials", enquiryId] });
      setLine(null);
      setSeed(seed + 1);
    } catch (error) {
      const taken = error instanceof Refused && error.status === 409;
      setLine(taken ? words.trial.taken : error instanceof Error ? error.message : String(error));
      // What somebody else planned meanwhile is shown, and the next plan takes another name.
      if (taken) await queries.invalidateQueries({ queryKey: ["trials", enquiryId] });
    }
  };
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{words.trial.title}</h1>
        <p className="lead">{words.trial.lead}</p>
      </header>
      {problem ? <p className="note bad">{problem}</p> : null}
      <PathNote part={partEnquiry} />
      <section className="sheet stack">
        <div className="row">
          <NativeSelect
            label={words.trial.setup}
            value={setup.id}
            onChange={(e) => setSetupId(e.currentTarget.value)}
            data={library.setups.map((s) => ({ value: s.id, label: s.name }))}
          />
          <MaybeNumber
            label={words.trial.count}
            unit=""
            value={count}
            emptyWords=""
            min={6}
            max={400}
            whole
            required
            width={110}
            onChange={(value) => value !== null && setCount(value)}
          />
          <NativeSelect
            label={words.trial.design}
            value={design}
            onChange={(e) => setDesign(e.currentTarget.value as DesignName)}
            data={designNames.map((value) => ({ value, label: words.trial.designs[value] }))}
          />
          <MaybeNumber
            label={words.trial.seed}
            unit=""
            value={seed}
            emptyWords=""
            min={1}
            max={2 ** 31}
            whole
            required
            width={110}
            onChange={(value) => value !== null && setSeed(value)}
          />
        </div>
        <p className="small quiet">{words.trial.designMeaning[design]}</p>
        <div className="row">
          <Button onClick={start} disabled={!partEnquiry || plan.state === "working"}>
            {words.trial.plan}
          </Button>
          <LikeLink enquiryId={enquiryId} partId={partId} laser={setup.id} />
        </div>
      </section>
      {plan.state === "working" ? (
        <LongWorkBar label={words.trial.working} share={plan.share} onCancel={plan.cancel} />
      ) : null}
      {(plan.line ?? line) ? (
        <p className="note bad" role="alert">
          {plan.line ?? line}
        </p>
      ) : null}
      {plan.answer && plan.state !== "working" && !trials.some((t) => t.trial.id === plan.answer?.id) ? (
        <section className="stack" aria-label={words.trial.preview}>
          <div className="row apart middle">
            <h2>{words.trial.preview}</h2>
            <Button onClick={keep}>{words.trial.keep}</Button>
          </div>
          <TrialView
            trial={plan.answer}
            outcomes={[]}
            acceptance={partEnquiry?.acceptance ?? null}
            cautions={cautions}
            stored={false}
          />
        </section>
      ) : null}
      {trials.length === 0 && !plan.answer && plan.state !== "working" ? (
        <section className="empty">
          <h2>{words.trial.emptyTitle}</h2>
          <p className="quiet">{words.trial.empty}</p>
        </section>
      ) : null}
      {trials.map(({ trial, outcomes }) => (
        <section key={trial.id} className="stack">
          <div className="row apart middle">
            <h2>{words.trial.kept(trial.id)}</h2>
            <Button
              variant="default"
              onClick={() => goTo(linkTo({ enquiryId, step: "results", query: { part: partId, trial: trial.id } }))}
            >
              {words.trial.toResults}
            </Button>
          </div>
          <TrialView
            trial={trial}
            outcomes={outcomes}
            acceptance={partEnquiry?.acceptance ?? null}
            cautions={cautions}
            stored
          />
        </section>
      ))}
      <SampleList enquiryId={enquiryId} partId={partId} />
    </div>
  );
}
