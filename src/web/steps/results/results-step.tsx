import { Button, NativeSelect, TextInput } from "@mantine/core";
import { useQueryClient } from "@tanstack/react-query";
import { lazy, Suspense, useState } from "react";
import type { Outcome } from "#terms";
import type { TrialRecord } from "../../api/trials.ts";
import { goTo, linkTo } from "../../app/route.ts";
import { BenchLink } from "../../bench/bench-link.tsx";
import { burnedAgain, skippedPatches, useRunLog } from "../../bench/use-run-log.ts";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { useLibrary } from "../../library/use-library.ts";
import { keepGrader, readGrader } from "../../photographs/kept-here.ts";
import { words } from "../../words/index.ts";
import { cautionsOfPart } from "../trial/part-cautions.ts";
import { CouponResults } from "./coupon-results.tsx";
import { CsvPanel } from "./csv-panel.tsx";
import { OutcomeTable } from "./outcome-table.tsx";
import { useRecorded } from "./use-recorded.ts";

const PhotographsSection = lazy(() =>
  import("../../photographs/photographs-section.tsx").then((m) => ({ default: m.PhotographsSection })),
);

/** The trials with a row that was just kept: the newest of its grader on its patch. */
function withOutcome(trials: readonly TrialRecord[], outcome: Outcome): readonly TrialRecord[] {
  const other = (o: Outcome) => o.patch !== outcome.patch || o.grader !== outcome.grader;
  return trials.map((record) =>
    record.trial.id === outcome.trialId ? { ...record, outcomes: [...record.outcomes.filter(other), outcome] } : record,
  );
}

/** What was seen, patch by patch, by keyboard or from a table. */
export function ResultsStep({ enquiryId, place, partId, partEnquiry, trials }: StepProps) {
  const queries = useQueryClient();
  const [chosen, setChosen] = useState(place.query.trial ?? "");
  const [grader, setGraderName] = useState(readGrader);
  const setGrader = (name: string) => {
    setGraderName(name);
    keepGrader(name);
  };
  const library = useLibrary();
  const record = trials.find((t) => t.trial.id === chosen) ?? trials[0];
  const cautions = partEnquiry && record ? cautionsOfPart(partEnquiry, library.setup(record.trial.setupId)) : [];
  useCautions(cautions);
  const refresh = () => queries.invalidateQueries({ queryKey: ["trials", enquiryId] });
  // The page has the row at once; a reading that was under way before it does not take it back.
  const onSaved = (outcome: Outcome) => {
    queries.setQueryData<readonly TrialRecord[]>(["trials", enquiryId], (now) => now && withOutcome(now, outcome));
    return refresh();
  };
  const recorded = useRecorded(record?.trial.id ?? "", grader, onSaved);
  const log = useRunLog(record?.trial.id ?? "");
  if (!record)
    return (
      <div className="stack">
        <h1>{words.results.title}</h1>
        <section className="empty">
          <h2>{words.results.emptyTitle}</h2>
          <p className="quiet">{words.results.empty}</p>
          <Button onClick={() => goTo(linkTo({ enquiryId, step: "trial", query: { part: partId } }))}>
            {words.results.toTrial}
          </Button>
        </section>
      </div>
    );
  const { trial, outcomes } = record;
  // What was skipped at the machine is not asked for, unless somebody said something of it.
  const skipped = skippedPatches(trial, log ?? []).filter((patch) => !outcomes.some((o) => o.patch === patch));
  const again = burnedAgain(trial, log ?? []);
  const burned = trial.patches.filter((p) => p.setting !== null && !skipped.includes(p.patch));
  const graded = burned.filter((p) =>
    outcomes.some((o) => o.patch === p.patch && (o.residueFraction !== null || o.metalCondition !== null)),
  );
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{words.results.title}</h1>
        <p className="lead">{words.results.lead}</p>
      </header>
      <div className="row middle">
        <NativeSelect
          label={words.trial.choose}
          value={trial.id}
          onChange={(e) => setChosen(e.currentTarget.value)}
          data={trials.map((t) => t.trial.id)}
        />
        <TextInput
          label={words.results.grader}
          value={grader}
          onChange={(e) => setGrader(e.currentTarget.value)}
          maxLength={80}
        />
        <span className="small quiet" style={{ alignSelf: "end" }}>
          {words.results.progress(graded.length, burned.length)}
        </span>
        <Button
          style={{ alignSelf: "end" }}
          onClick={() => goTo(linkTo({ enquiryId, step: "window", query: { part: partId, trial: trial.id } }))}
          disabled={graded.length === 0}
        >
          {words.results.toWindow}
        </Button>
      </div>
      <BenchLink trial={trial} />
      <Suspense fallback={<p className="quiet">{words.frame.opening}</p>}>
        <PhotographsSection
          key={`photographs ${trial.id}`}
          enquiryId={enquiryId}
          trial={trial}
          part={partEnquiry}
          cautions={cautions}
          grader={grader}
          onGrader={setGrader}
        />
      </Suspense>
      <CouponResults trial={trial} outcomes={outcomes} acceptance={partEnquiry?.acceptance ?? null} />
      {recorded.line ? (
        <p className="note bad" role="alert">
          {recorded.line}
        </p>
      ) : null}
      {again.length > 0 ? <p className="note warn">{words.bench.atDesk.burnedAgain(again.join(", "))}</p> : null}
      {skipped.length > 0 ? <p className="note">{words.bench.atDesk.skippedPatches(skipped.join(", "))}</p> : null}
      <OutcomeTable
        key={trial.id}
        trial={trial}
        outcomes={outcomes}
        skipped={new Set(skipped)}
        onSave={recorded.save}
      />
      <CsvPanel trialId={trial.id} onRead={refresh} />
    </div>
  );
}
