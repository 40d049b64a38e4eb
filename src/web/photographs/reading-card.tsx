import { Button } from "@mantine/core";
import { useEffect, useRef } from "react";
import type { GradingWire, RulingWire } from "#contract";
import type { PlannedPatch, Trial } from "#terms";
import { photoUrl } from "../api/photographs.ts";
import { words } from "../words/index.ts";
import { useFlat } from "./flat-pictures.ts";
import { PatchCrop } from "./patch-crop.tsx";
import type { SheetAsPrinted } from "./protocol.ts";
import { ReadingFigures, readingNotes } from "./reading-figures.tsx";
import { bestPhoto } from "./reading-text.ts";
import { RulingForm } from "./ruling-form.tsx";
import { isReference, verdictOfReading, type WirePatch } from "./rulings.ts";

interface Props {
  readonly trial: Trial;
  readonly grading: GradingWire;
  readonly sheet: SheetAsPrinted;
  readonly patch: WirePatch;
  readonly grader: string;
  readonly onGrader: (name: string) => void;
  readonly onRule: (ruling: RulingWire | null) => void;
  readonly onOpen: (patch: number | null) => void;
}

const say = words.photographs;

/** One reading opened: the patch enlarged beside its references, every number with its doubt, and what a person says. */
export function ReadingCard(props: Props) {
  const { trial, grading, patch, onOpen } = props;
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    title.current?.focus();
  }, [patch.patch]);
  const order = grading.patches.map((p) => p.patch);
  const at = order.indexOf(patch.patch);
  const step = (by: number) => onOpen(order[(at + by + order.length) % order.length]!);
  const { reading } = patch;
  return (
    <section className="sheet stack reading-card" aria-label={say.card.title(patch.patch)}>
      <div className="row apart middle">
        <h3 ref={title} tabIndex={-1}>
          {say.card.title(patch.patch)}
          {": "}
          {isReference(patch) ? words.roles[patch.role] : say.verdicts[patch.verdict]}
        </h3>
        <div className="row">
          <Button variant="default" size="compact-sm" onClick={() => step(-1)}>
            {say.card.before}
          </Button>
          <Button variant="default" size="compact-sm" onClick={() => step(1)}>
            {say.card.next}
          </Button>
          <Button variant="subtle" size="compact-sm" onClick={() => onOpen(null)}>
            {say.card.close}
          </Button>
        </div>
      </div>
      {isReference(patch) ? null : <p className="small quiet">{meaningOf(patch, grading.residueMax_percent)}</p>}
      <Crops {...props} trial={trial} />
      <Lines title={say.card.refusals} items={reading.refusals} tone="bad" />
      <Lines title={say.card.flags} items={reading.flags} tone="warn" />
      {reading.photo === null ? null : <ReadingFigures patch={patch} />}
      {readingNotes(patch).map((note) => (
        <p key={note} className="note warn">
          {note}
        </p>
      ))}
      {patch.read === null ? null : <RulingForm key={patch.patch} {...props} patch={patch} />}
    </section>
  );
}

/** What the verdict means, or whose it is. */
function meaningOf(patch: WirePatch, residueMax_percent: number): string {
  const { ruling } = patch;
  if (ruling === null || ruling.residue_percent === null) return say.verdictMeaning[patch.verdict];
  return say.verdictSaid(ruling.grader, say.verdicts[verdictOfReading(patch, residueMax_percent)]);
}

/** The patch as the photograph it was read from shows it, between an untouched and a cleaned reference. */
function Crops({ trial, grading, sheet, patch }: Props) {
  const read = grading.photos.find((p) => p.name === patch.reading.photo) ?? bestPhoto(grading);
  const own = useFlat(read === null ? null : { trial, photo: read, ...sheet });
  if (read === null) return null;
  const fallback = grading.flat === null ? null : photoUrl(grading.flat);
  const photo = own === "none" ? fallback : own;
  if (photo === null) return <p className="quiet small">{say.pictureComing}</p>;
  const here = trial.patches.find((p) => p.patch === patch.patch);
  const nearest = (role: PlannedPatch["role"]): PlannedPatch | undefined =>
    trial.patches
      .filter((p) => p.coupon === grading.coupon && p.role === role && p.patch !== patch.patch)
      .sort((a, b) => distance(a, here) - distance(b, here))[0];
  const [untouched, cleaned] = [nearest("untouched"), nearest("cleaned-reference")];
  return (
    <div className="stack tight">
      <div className="crops">
        {here ? <PatchCrop trial={trial} patch={here} photo={photo} label={say.card.cropPatch(here.patch)} /> : null}
        {untouched ? <PatchCrop trial={trial} patch={untouched} photo={photo} label={say.card.cropUntouched} /> : null}
        {cleaned ? <PatchCrop trial={trial} patch={cleaned} photo={photo} label={say.card.cropCleaned} /> : null}
      </div>
      <p className="small quiet">
        {own === "none" && bestPhoto(grading)?.name !== read.name
          ? say.card.cropOther(bestPhoto(grading)?.name ?? "")
          : say.card.from(read.name)}
      </p>
    </div>
  );
}

const distance = (a: PlannedPatch, b: PlannedPatch | undefined): number =>
  b === undefined ? 0 : Math.hypot(a.x - b.x, a.y - b.y);

function Lines({
  title,
  items,
  tone,
}: {
  readonly title: string;
  readonly items: WirePatch["reading"]["flags"];
  readonly tone: "warn" | "bad";
}) {
  if (items.length === 0) return null;
  return (
    <div className={`note ${tone}`}>
      <p>
        <strong>{title}</strong>
      </p>
      <ul>
        {items.map(({ gate, sentence }) => (
          <li key={`${gate} ${sentence}`}>{sentence}</li>
        ))}
      </ul>
    </div>
  );
}
