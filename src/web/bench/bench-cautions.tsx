import { useState } from "react";
import { couponCaution } from "#drawing";
import { words } from "../words/index.ts";

const say = words.bench;
const keyOf = (trialId: string): string => `scourlight.cautions-read.${trialId}`;

/** Closed by a person it stays closed while this page is reloaded; opened anew it is open. */
function wasClosed(trialId: string): boolean {
  try {
    return sessionStorage.getItem(keyOf(trialId)) === "closed";
  } catch {
    return false;
  }
}
function noteClosed(trialId: string, open: boolean): void {
  try {
    sessionStorage.setItem(keyOf(trialId), open ? "open" : "closed");
  } catch {
    return;
  }
}

/** Cautions of the trial, open at first. What holds for every class 4 laser stands there even where a plan brought none. */
export function BenchCautions({
  trialId,
  cautions,
}: {
  readonly trialId: string;
  readonly cautions: readonly string[];
}) {
  const [open, setOpen] = useState(() => !wasClosed(trialId));
  return (
    <details
      className="sheet bench-cautions"
      open={open}
      onToggle={(event) => {
        setOpen(event.currentTarget.open);
        noteClosed(trialId, event.currentTarget.open);
      }}
    >
      <summary>
        <h2>{say.cautionsTitle}</h2>
        {open ? null : <span className="small">{say.cautionsShort}</span>}
      </summary>
      <p>{say.officer}</p>
      <ul className="plain">
        {[couponCaution, ...cautions.filter((line) => line !== couponCaution)].map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}
