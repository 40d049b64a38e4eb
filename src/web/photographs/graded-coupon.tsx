import { useState } from "react";
import type { GradingWire, RulingWire } from "#contract";
import type { Acceptance, Trial } from "#terms";
import { fromSI } from "#units";
import type { GradingRecord } from "../api/photographs.ts";
import { whenText } from "../show/when.ts";
import { words } from "../words/index.ts";
import { noteKeptFlat } from "./flat-pictures.ts";
import { PhotoLines } from "./photo-lines.tsx";
import type { SheetAsPrinted } from "./protocol.ts";
import { ReadingCard } from "./reading-card.tsx";
import { bestPhoto } from "./reading-text.ts";
import { ReadingsTable } from "./readings-table.tsx";
import { RuleTogether } from "./rule-together.tsx";
import { acceptPlain, ruleOn } from "./rulings.ts";
import { ShownPicture } from "./shown-picture.tsx";

interface Props {
  readonly trial: Trial;
  readonly record: GradingRecord;
  /** of the part as it is now; null while it is not known */
  readonly acceptance: Acceptance | null;
  readonly grader: string;
  readonly onGrader: (name: string) => void;
  /** resolves to a line when it was not saved */
  readonly onSave: (grading: GradingWire, version: number) => Promise<string | null>;
}

const say = words.photographs;

/** One coupon read from its photographs: picture, readings, and what people say of them. */
export function GradedCouponView({ trial, record, acceptance, grader, onGrader, onSave }: Props) {
  const { grading, version } = record;
  const [opened, setOpened] = useState<number | null>(null);
  const [past, setPast] = useState<readonly GradingWire[]>([]);
  const [saving, setSaving] = useState(false);
  const [line, setLine] = useState<string | null>(null);
  const sheet: SheetAsPrinted = { printScale: grading.printScale, greys: null };
  const best = bestPhoto(grading);
  if (best !== null && grading.flat !== null) noteKeptFlat(best.sha256, grading.printScale, grading.flat);
  const label = trial.coupons.find((c) => c.coupon === grading.coupon)?.label ?? String(grading.coupon);

  const save = async (next: GradingWire, before: readonly GradingWire[]) => {
    if (saving) return;
    setSaving(true);
    const refused = await onSave(next, version);
    setSaving(false);
    setLine(refused);
    if (refused === null) setPast(before);
  };
  const rule = (patch: number, ruling: RulingWire | null) => save(ruleOn(grading, patch, ruling), [...past, grading]);
  const acceptAll = () => {
    if (grader.trim() === "") setLine(say.rule.graderNeeded);
    else void save(acceptPlain(grading, grader.trim()), [...past, grading]);
  };
  const back = past.at(-1);
  const patch = grading.patches.find((p) => p.patch === opened);
  return (
    <section className="stack" aria-label={say.coupon(label)}>
      <header className="row apart middle">
        <h3>{say.coupon(label)}</h3>
        <span className="small quiet" role="status">
          {saving ? say.savingNow : say.saved(whenText(record.savedAt), version)}
        </span>
      </header>
      <PhotoLines grading={grading} />
      {acceptance !== null && limitsDiffer(grading, acceptance) ? (
        <p className="note warn">{say.limitsChanged}</p>
      ) : null}
      {grading.notes.map(({ gate, sentence }) => (
        <p key={`${gate} ${sentence}`} className="note warn">
          {sentence}
        </p>
      ))}
      <ShownPicture trial={trial} grading={grading} sheet={sheet} opened={opened} onOpen={setOpened} />
      <RuleTogether
        grading={grading}
        onAcceptAll={acceptAll}
        onUndo={back === undefined ? null : () => void save(back, past.slice(0, -1))}
      />
      {line === null ? null : (
        <p className="note bad" role="alert">
          {line}
        </p>
      )}
      {patch === undefined ? (
        <p className="small quiet">{say.card.hint}</p>
      ) : (
        <ReadingCard
          trial={trial}
          grading={grading}
          sheet={sheet}
          patch={patch}
          grader={grader}
          onGrader={onGrader}
          onRule={(ruling) => void rule(patch.patch, ruling)}
          onOpen={setOpened}
        />
      )}
      <ReadingsTable grading={grading} opened={opened} onOpen={setOpened} />
    </section>
  );
}

/** Whether a coupon was read against other limits than the part has now. */
const limitsDiffer = (grading: GradingWire, { residueMax, metalConditionMax }: Acceptance): boolean =>
  Math.abs(grading.residueMax_percent - fromSI(residueMax, "%")) > 1e-6 ||
  grading.metalConditionMax !== metalConditionMax;
