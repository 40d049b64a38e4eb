import { Button } from "@mantine/core";
import { useState } from "react";
import { rulerLength } from "#drawing";
import { couponPlans } from "#grading";
import type { PartEnquiry, Trial } from "#terms";
import { formatNumber, InvalidInput } from "#units";
import { type GradingRecord, putGrading } from "../api/photographs.ts";
import { linkTo } from "../app/route.ts";
import { PhotosWaiting } from "../bench/photos-waiting.tsx";
import { LongWorkBar } from "../show/long-work.tsx";
import { words } from "../words/index.ts";
import { GradedCouponView } from "./graded-coupon.tsx";
import { keepSheet, readSheet } from "./kept-here.ts";
import "./photographs.css";
import type { IntakeState } from "./photo-intake.ts";
import { PathNote } from "./path-note.tsx";
import { RefusedPhotos } from "./refused-photos.tsx";
import { PhotoDrop } from "./photo-drop.tsx";
import { sheetAsPrinted } from "./sheet-as-printed.ts";
import { SheetForm } from "./sheet-form.tsx";
import { learntOf, useGradings } from "./use-gradings.ts";
import { usePhotoIntake } from "./use-photo-intake.ts";

interface Props {
  readonly enquiryId: string;
  readonly trial: Trial;
  readonly part: PartEnquiry | null;
  readonly cautions: readonly string[];
  readonly grader: string;
  readonly onGrader: (name: string) => void;
}

const say = words.photographs;

/** Photographs of a trial's coupons: sent, read, looked at, and what they teach of wrong readings. */
export function PhotographsSection({ enquiryId, trial, part, cautions, grader, onGrader }: Props) {
  const records = useGradings(trial.id);
  const { intake, state, refresh } = usePhotoIntake(trial.id, enquiryId);
  const [typed, setTyped] = useState(() => readSheet(trial.id));
  const nominal = rulerOf(trial);
  const sheet = sheetAsPrinted(typed, typeof nominal === "number" ? nominal : 1);
  if (nominal === null || typeof nominal === "string")
    return (
      <section className="stack tight">
        <h2>{say.title}</h2>
        <p className="note warn">{nominal ?? say.frames.noMarkers(31)}</p>
      </section>
    );
  const ask = part === null || "wrong" in sheet ? null : { trial, part, cautions, ...sheet };
  const busy = state.busy !== null;
  const save = async (...[grading, version]: Parameters<typeof putGrading>): Promise<string | null> => {
    try {
      await putGrading(grading, version);
      return null;
    } catch (error) {
      return error instanceof Error ? error.message : String(error);
    } finally {
      await refresh();
    }
  };
  return (
    <section className="stack" aria-label={say.title}>
      <header className="stack tight">
        <h2>{say.title}</h2>
        <p className="lead">{say.lead}</p>
      </header>
      <PathNote part={part} />
      <div className="sheet stack">
        <PhotoDrop disabled={busy || ask === null} onFiles={(files) => ask && void intake.add(files, ask)} />
        <SheetForm
          typed={typed}
          read={sheet}
          nominal={nominal}
          onType={(next) => {
            setTyped(next);
            keepSheet(trial.id, next);
          }}
          onReadAgain={busy || ask === null || (records ?? []).length === 0 ? null : () => void intake.readAgain(ask)}
        />
      </div>
      <PhotosWaiting
        trial={trial}
        known={knownPhotos(records ?? [], state)}
        disabled={busy || ask === null}
        onRead={(photos) => ask && void intake.addKept(photos, ask)}
      />
      {state.busy === null ? null : (
        <LongWorkBar label={state.busy.words} share={state.busy.share} onCancel={() => intake.cancel()} />
      )}
      {state.cancelled ? <p className="quiet">{say.cancelled}</p> : null}
      {!busy && state.pending.length > 0 ? (
        <div className="row middle">
          <span>{say.pending(state.pending.length)}</span>
          <Button variant="default" disabled={ask === null} onClick={() => ask && void intake.readPending(ask)}>
            {say.readNow}
          </Button>
        </div>
      ) : null}
      {state.failure === null ? null : (
        <p className="note bad" role="alert">
          {state.failure}
        </p>
      )}
      <RefusedPhotos refused={state.refused} onDismiss={(name) => intake.dismiss(name)} />
      {records?.length === 0 && !busy ? (
        <p className="small quiet">
          {say.none} <a href={linkTo({ enquiryId, step: "trial", query: { part: trial.partId } })}>{say.toSheets}</a>
        </p>
      ) : null}
      {(records ?? []).map((record) => (
        <GradedCouponView
          key={record.grading.id}
          trial={trial}
          record={record}
          acceptance={part?.acceptance ?? null}
          grader={grader}
          onGrader={onGrader}
          onSave={save}
        />
      ))}
      {records !== undefined && records.length > 0 ? <LearntLine records={records} /> : null}
    </section>
  );
}

/** Photographs that are read or wait for it: they are not offered again. */
function knownPhotos(records: readonly GradingRecord[], { pending }: IntakeState): ReadonlySet<string> {
  const read = records.flatMap(({ grading }) => grading.photos);
  return new Set([...read, ...pending].map((p) => p.sha256));
}

/** mm of the ruler on the first sheet; the reason where no coupon has one. */
function rulerOf(trial: Trial): number | string | null {
  try {
    const [first] = couponPlans(trial);
    return first === undefined ? null : Math.round(rulerLength(first.frame) * 1000);
  } catch (error) {
    if (error instanceof InvalidInput) return error.message;
    throw error;
  }
}

function LearntLine({ records }: { readonly records: readonly GradingRecord[] }) {
  const { looked, wrong, rate, low, high } = learntOf(records);
  const percent = (share: number): string => `${formatNumber(100 * share, 2)} %`;
  return (
    <p className="small quiet">
      {looked === 0 ? say.learnt.none : say.learnt.said(looked, wrong, percent(rate), percent(low), percent(high))}
    </p>
  );
}
