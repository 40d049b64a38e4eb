import type { RunEntry, Trial } from "#terms";
import { runProgress } from "#trial";
import { linkTo } from "../app/route.ts";
import { words } from "../words/index.ts";
import { timeText } from "./entry-text.ts";
import { useRunLog } from "./use-run-log.ts";

const say = words.bench.link;

/** Link from the desk to the run list at the machine, with how far it is. Only for a trial that the server keeps. */
export function BenchLink({ trial }: { readonly trial: Trial }) {
  const entries = useRunLog(trial.id);
  return (
    <p className="row middle">
      <a href={linkTo({ page: "bench", path: [trial.id] })}>{say.open}</a>
      <span className="small quiet" role="status">
        {entries === undefined ? "" : stateText(trial, entries)}
      </span>
    </p>
  );
}

/** How far the list is, in words: "12 of 28 burned, last 14:05; 1 skipped". */
function stateText(trial: Trial, entries: readonly RunEntry[]): string {
  const { burned, skipped, of, last } = runProgress(trial, entries);
  if (last === null) return say.none;
  return say.skipped(say.state(burned, of, timeText(last.at)), skipped);
}
