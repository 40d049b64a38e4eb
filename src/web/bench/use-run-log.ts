import { useQuery } from "@tanstack/react-query";
import type { RunEntry } from "#terms";
import { patchesToRun, patchRun, standingEntries } from "#trial";
import type { Trial } from "#terms";
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

/** Patches that were skipped at the machine, in the order of the run: nobody can grade them. */
export function skippedPatches(trial: Trial, entries: readonly RunEntry[]): number[] {
  const standing = standingEntries(entries);
  return patchesToRun(trial)
    .map((p) => p.patch)
    .filter((patch) => patchRun(standing, patch).state === "skipped");
}
