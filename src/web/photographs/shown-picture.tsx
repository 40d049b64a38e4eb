import { NativeSelect } from "@mantine/core";
import { useState } from "react";
import type { GradingWire } from "#contract";
import type { Trial } from "#terms";
import { photoUrl } from "../api/photographs.ts";
import { words } from "../words/index.ts";
import { useFlat } from "./flat-pictures.ts";
import { GradedPicture } from "./graded-picture.tsx";
import type { SheetAsPrinted } from "./protocol.ts";
import { bestPhoto } from "./reading-text.ts";

interface Props {
  readonly trial: Trial;
  readonly grading: GradingWire;
  readonly sheet: SheetAsPrinted;
  readonly opened: number | null;
  readonly onOpen: (patch: number) => void;
}

const say = words.photographs;

/** The coupon laid flat, from the photograph that shows it best or another one. */
export function ShownPicture({ trial, grading, sheet, opened, onOpen }: Props) {
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
