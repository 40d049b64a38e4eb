import { Button, NativeSelect } from "@mantine/core";
import { useState } from "react";
import type { GradingWire, RulingWire } from "#contract";
import type { Acceptance, Trial } from "#terms";
import { formatNumber, fromSI } from "#units";
import { type GradingRecord, photoUrl } from "../api/photographs.ts";
import { whenText } from "../show/when.ts";
import { words } from "../words/index.ts";
import { noteKeptFlat, useFlat } from "./flat-pictures.ts";
import { GradedPicture } from "./graded-picture.tsx";
import type { SheetAsPrinted } from "./protocol.ts";
import { ReadingCard } from "./reading-card.tsx";
import { bestPhoto, toLook } from "./reading-text.ts";
import { ReadingsTable } from "./readings-table.tsx";
import { acceptPlain, isReference, plainReadings, ruleOn, type WirePatch } from "./rulings.ts";

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
      <Together
        grading={grading}
        saving={saving}
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
          saving={saving}
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

/** The coupon laid flat, from the photograph that shows it best or another one. */
function ShownPicture({
  trial,
  grading,
  sheet,
  opened,
  onOpen,
}: Pick<Props, "trial"> & {
  readonly grading: GradingWire;
  readonly sheet: SheetAsPrinted;
  readonly opened: number | null;
  readonly onOpen: (patch: number) => void;
}) {
  const placed = grading.photos.filter((p) => p.scale_px_per_mm !== null);
  const best = bestPhoto(grading);
  const [chosen, setChosen] = useState<string | null>(null);
  const shown = placed.find((p) => p.name === chosen) ?? best;
  const flat = useFlat(shown === null ? null : { trial, photo: shown, ...sheet });
  const kept = grading.flat === null ? null : photoUrl(grading.flat);
  const photo = flat === "none" ? kept : flat;
  const another = flat === "none" && kept !== null && shown?.name !== best?.name;
  return (
    <figure className="sheet stack tight">
      <GradedPicture trial={trial} grading={grading} photo={photo} opened={opened} onOpen={onOpen} />
      <figcaption className="row middle">
        {placed.length > 1 ? (
          <NativeSelect
            label={say.shown}
            value={shown?.name ?? ""}
            onChange={(e) => setChosen(e.currentTarget.value)}
            data={placed.map((p) => p.name)}
          />
        ) : null}
        {another ? <span className="small quiet">{say.card.cropOther(best?.name ?? "")}</span> : null}
        {photo === null ? (
          <span className="small quiet" role="status">
            {shown === null || flat === "none" ? say.noPicture : say.pictureComing}
          </span>
        ) : null}
      </figcaption>
    </figure>
  );
}

/** What is done with many readings at once, and the way back. */
function Together({
  grading,
  saving,
  onAcceptAll,
  onUndo,
}: {
  readonly grading: GradingWire;
  readonly saving: boolean;
  readonly onAcceptAll: () => void;
  readonly onUndo: (() => void) | null;
}) {
  const plain = plainReadings(grading).length;
  const left = grading.patches.filter(toLook).length;
  const open = grading.patches.some((p) => !isReference(p) && p.ruling === null);
  return (
    <div className="stack tight">
      <p>
        {verdictCounts(grading.patches)}
        {"; "}
        {open ? say.all.toLook(left) : say.all.allSeen}
      </p>
      <div className="row middle">
        {plain > 0 ? (
          <Button onClick={onAcceptAll} disabled={saving}>
            {plain === 1 ? say.all.acceptOne : say.all.accept(plain)}
          </Button>
        ) : null}
        <Button variant="default" onClick={onUndo ?? undefined} disabled={saving || onUndo === null}>
          {say.all.undo}
        </Button>
      </div>
      <p className="small quiet">{plain === 0 && open ? say.all.none : say.all.help}</p>
    </div>
  );
}

function verdictCounts(patches: readonly WirePatch[]): string {
  const own = patches.filter((p) => !isReference(p));
  return (Object.keys(say.verdicts) as WirePatch["verdict"][])
    .map((v) => `${own.filter((p) => p.verdict === v).length} ${say.verdicts[v]}`)
    .join(", ");
}

/** Each photograph, and why nothing was read from it where nothing was. */
function PhotoLines({ grading }: { readonly grading: GradingWire }) {
  const { photos } = grading;
  return (
    <details open={photos.some((p) => !p.read)}>
      <summary className="small">{say.read(photos.filter((p) => p.read).length, photos.length)}</summary>
      <ul className="plain small">
        {photos.map((p) => (
          <li key={p.name}>
            <a href={photoUrl(p.sha256)} target="_blank" rel="noreferrer">
              {p.name}
            </a>
            {": "}
            {p.read
              ? say.photoRead(p.patches, `${formatNumber(p.scale_px_per_mm ?? 0, 2)} px/mm`)
              : `${say.photoNotRead}. ${p.gates.map((g) => g.sentence).join(" ")}`}
          </li>
        ))}
      </ul>
    </details>
  );
}
