import { Button } from "@mantine/core";
import type { RunEntry, Trial } from "#terms";
import { standingEntries } from "#trial";
import { photoUrl } from "../api/photographs.ts";
import { words } from "../words/index.ts";
import { timeText } from "./entry-text.ts";
import { useRunLog } from "./use-run-log.ts";

interface Props {
  readonly trial: Trial;
  /** sha256 of photographs that are read or being read already */
  readonly known: ReadonlySet<string>;
  readonly disabled: boolean;
  readonly onRead: (files: readonly { readonly name: string; readonly sha256: string }[]) => void;
}

const say = words.bench.atDesk;

/** Photographs that were taken at the machine: those of whole coupons are read by one click, close ones are looked at. */
export function PhotosWaiting({ trial, known, disabled, onRead }: Props) {
  const taken = standingEntries(useRunLog(trial.id) ?? []).flatMap((entry) =>
    entry.kind === "photo" && entry.photo !== null
      ? [{ name: nameOf(trial, entry), sha256: entry.photo, patch: entry.patch }]
      : [],
  );
  const fresh = taken.filter(
    ({ patch, sha256 }, i) => patch === null && !known.has(sha256) && taken.findIndex((t) => t.sha256 === sha256) === i,
  );
  const close = taken.filter(({ patch }) => patch !== null);
  if (fresh.length === 0 && close.length === 0) return null;
  return (
    <section className="sheet stack tight">
      <h3>{say.title}</h3>
      {fresh.length === 0 ? null : (
        <>
          <PhotoLinks photos={fresh} />
          <div>
            <Button disabled={disabled} onClick={() => onRead(fresh.map(({ name, sha256 }) => ({ name, sha256 })))}>
              {say.read(fresh.length)}
            </Button>
          </div>
        </>
      )}
      {close.length === 0 ? null : (
        <>
          <p className="small quiet">{say.close}</p>
          <PhotoLinks photos={close} />
        </>
      )}
    </section>
  );
}

function PhotoLinks({ photos }: { readonly photos: readonly { readonly name: string; readonly sha256: string }[] }) {
  return (
    <ul className="plain">
      {photos.map(({ name, sha256 }, i) => (
        <li key={`${sha256} ${i}`}>
          <a href={photoUrl(sha256)} target="_blank" rel="noopener">
            {name}
          </a>
        </li>
      ))}
    </ul>
  );
}

/** A name by which a person knows the photograph again among others. */
function nameOf(trial: Trial, { coupon, patch, at }: RunEntry): string {
  const label = trial.coupons.find((c) => c.coupon === coupon)?.label ?? String(coupon);
  return say.name(label, patch, timeText(at));
}
