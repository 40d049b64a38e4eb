import { useQuery } from "@tanstack/react-query";
import type { RunEntry, Trial } from "#terms";
import { type PatchRun, patchesToRun, patchRun, standingEntries } from "#trial";
import { readRunLog } from "../api/run-log.ts";

/** What was done at the machine for a trial that the server keeps, looked at anew now and then; undefined until known. */
export function useRunLog(trialId: string): readonly RunEntry[] | undefined {
  const { data } = useQuery({
    queryKey: ["run-log", trialId],
    queryFn: async () => (await readRunLog(trialId)).entries,
    enabled: trialId !== "",
    refetchInterval: 20_000,
  });
  return data;
}

function patchesWhere(trial: Trial, entries: readonly RunEntry[], holds: (run: PatchRun) => boolean): number[] {
  const standing = standingEntries(entries);
  return patchesToRun(trial)
    .map((p) => p.patch)
    .filter((patch) => holds(patchRun(standing, patch)));
}

/** Patches that were skipped at the machine, in the order of the run: nobody can grade them. */
export const skippedPatches = (trial: Trial, entries: readonly RunEntry[]): number[] =>
  patchesWhere(trial, entries, (run) => run.state === "skipped");

/** Patches that were burned more than once: what is seen on them is not what one burn makes. */
export const burnedAgain = (trial: Trial, entries: readonly RunEntry[]): number[] =>
  patchesWhere(trial, entries, (run) => run.repeats > 0);
