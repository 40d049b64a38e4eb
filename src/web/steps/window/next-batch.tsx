import { Button } from "@mantine/core";
import { useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import type { Acceptance, NextPatch, Outcome, Trial } from "#terms";
import { putTrial } from "../../api/trials.ts";
import { goTo, linkTo } from "../../app/route.ts";
import { useLongWork } from "../../live/use-long-work.ts";
import { LongWorkBar } from "../../show/long-work.tsx";
import { words } from "../../words/index.ts";
import { TrialView } from "../trial/trial-view.tsx";

interface Props {
  readonly enquiryId: string;
  readonly partId: string;
  /** tells one description of the part from another */
  readonly partKey: string;
  readonly trial: Trial;
  readonly outcomes: readonly Outcome[];
  readonly next: readonly NextPatch[];
  readonly acceptance: Acceptance;
  readonly cautions: readonly string[];
  readonly drawCount: number;
}

/** The patches that the window asks for, laid out on further coupons of the same trial: looked at, then kept. */
export function NextBatch(props: Props) {
  const { enquiryId, partId, partKey, trial, outcomes, next, acceptance, cautions, drawCount } = props;
  const queries = useQueryClient();
  const [line, setLine] = useState<string | null>(null);
  const work = useLongWork("batch", JSON.stringify([enquiryId, partKey, trial, next]));
  if (next.length === 0) return null;
  const keep = async () => {
    if (!work.answer) return;
    try {
      await putTrial(work.answer, cautions);
      await queries.invalidateQueries({ queryKey: ["trials", enquiryId] });
      goTo(linkTo({ enquiryId, step: "trial", query: { part: partId } }));
    } catch (error) {
      setLine(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <section className="stack">
      <div className="row middle">
        <Button
          variant="default"
          onClick={() => work.start({ partId, trial, next, seed: trial.seed, drawCount })}
          disabled={work.state === "working"}
        >
          {words.window.layOut}
        </Button>
        <span className="small quiet">{words.window.layOutLead}</span>
      </div>
      {work.state === "working" ? (
        <LongWorkBar label={words.window.layingOut} share={work.share} onCancel={work.cancel} />
      ) : null}
      {(work.line ?? line) ? (
        <p className="note bad" role="alert">
          {work.line ?? line}
        </p>
      ) : null}
      {work.answer && work.state !== "working" ? (
        <section className="stack" aria-label={words.window.batch}>
          <div className="row apart middle">
            <h2>{words.window.batch}</h2>
            <Button onClick={keep}>{words.window.keepBatch}</Button>
          </div>
          <TrialView
            trial={work.answer}
            outcomes={outcomes}
            acceptance={acceptance}
            cautions={cautions}
            stored={false}
          />
        </section>
      ) : null}
    </section>
  );
}
