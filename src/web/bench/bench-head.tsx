import { Button } from "@mantine/core";
import { words } from "../words/index.ts";
import type { RunProgress } from "#trial";
import { entryText, timeText } from "./entry-text.ts";
import type { TimeLeft } from "./run-view.ts";
import type { Bench } from "./use-bench.ts";

interface Props {
  readonly progress: RunProgress;
  readonly left: TimeLeft;
  readonly bench: Bench;
}

const say = words.bench;

/** How far the list is, what was ticked last, and whether the server knows it: always in sight. */
export function BenchHead({ progress, left, bench }: Props) {
  const { burned, skipped, of, last } = progress;
  const done = burned + skipped;
  return (
    <div className="bench-head">
      <p className="bench-progress">
        <b>{say.progress(done, of)}</b>
        <span>{done === of ? say.allDone : leftText(left)}</span>
        {skipped > 0 ? <span className="quiet">{say.skippedToo(skipped)}</span> : null}
      </p>
      <progress value={done} max={Math.max(1, of)} aria-label={say.progress(done, of)} />
      {last === null ? null : (
        <div className="bench-last">
          <span>{say.lastTick(say.entry[last.kind](last.patch), timeText(last.at))}</span>
          <Button
            size="md"
            variant="default"
            aria-label={say.takeBackOf(entryText(last))}
            onClick={() => void bench.note({ kind: "undo-of", patch: last.patch, of: last.id })}
          >
            {say.takeBack}
          </Button>
        </div>
      )}
      <SendState bench={bench} />
    </div>
  );
}

function leftText({ seconds, by }: TimeLeft): string {
  const minutes = Math.ceil(seconds / 60);
  if (minutes <= 1) return by === "pace" ? say.left.short : say.left.shortPlan;
  return say.left[by](minutes);
}

/** In words: how many entries wait, since when, and why. */
function SendState({ bench }: { readonly bench: Bench }) {
  const { waiting, trouble, lasting, opened } = bench.state;
  if (!opened) return null;
  const since = waiting[0];
  const text =
    trouble === null
      ? since === undefined
        ? say.state.allSent
        : say.state.sending(waiting.length)
      : since === undefined
        ? say.state.away(trouble)
        : say.state.because(say.state.waiting(waiting.length, timeText(since.entry.at)), trouble);
  return (
    <div className="bench-state">
      <p role="status" className={trouble === null ? "small quiet" : "small waiting"}>
        {text} {lasting ? "" : say.state.notLasting}
      </p>
      {trouble === null ? null : (
        <Button size="md" variant="default" onClick={bench.sendNow}>
          {say.state.tryNow}
        </Button>
      )}
    </div>
  );
}
