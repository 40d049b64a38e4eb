import { useEffect, useState } from "react";
import { waitText } from "#report";
import type { PlannedPatch, RunEntry } from "#terms";
import { words } from "../words/index.ts";
import { waitLeft } from "./run-view.ts";

const say = words.bench.wait;

/** s that are left of the wait before a patch, counted while there are any. */
export function useWaitLeft(patch: PlannedPatch, last: RunEntry | null): number {
  const [now, setNow] = useState(() => Date.now());
  const left = waitLeft(patch, last, now);
  const over = left <= 0;
  useEffect(() => {
    setNow(Date.now());
    if (waitLeft(patch, last, Date.now()) <= 0) return;
    const timer = setInterval(() => setNow(Date.now()), 250);
    return () => clearInterval(timer);
  }, [patch, last?.id, over]);
  return left;
}

/** The wait before the current patch: a clock that runs down, then that it is over. Nothing where there is no wait. */
export function WaitClock({ wait, left }: { readonly wait: number | undefined; readonly left: number }) {
  if (wait === undefined || wait <= 0) return null;
  return (
    <div className={`wait-clock${left > 0 ? " running" : ""}`}>
      {left > 0 ? <p role="timer">{say.running(waitText(left))}</p> : null}
      <p role="status" className={left > 0 ? "unseen" : ""}>
        {left > 0 ? "" : say.over}
      </p>
    </div>
  );
}
