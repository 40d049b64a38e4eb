import type { RunLogAnswer, RunLogTaken, TrialWire } from "#contract";
import type { RunEntry, Trial } from "#terms";
import { KEPT_MARK } from "../bench/kept-mark.ts";
import { call } from "./client.ts";

const at = (id: string): string => encodeURIComponent(id);
/** What the list at the machine is made from, as paths. */
export const benchPaths = (trialId: string): readonly string[] => [
  `/api/trials/${at(trialId)}`,
  `/api/trials/${at(trialId)}/run-log`,
];
const contract = () => import("#contract");

/** `old`: not what the server says now, but what this browser kept from an earlier time. */
export interface MaybeOld {
  readonly old: boolean;
}

async function get<T>(path: string, signal?: AbortSignal): Promise<MaybeOld & { readonly answer: T }> {
  let old = false;
  const answer = await call<T>("GET", path, undefined, signal, (headers) => {
    old = headers.has(KEPT_MARK);
  });
  return { answer, old };
}

export async function readRunLog(
  trialId: string,
  signal?: AbortSignal,
): Promise<MaybeOld & { readonly entries: readonly RunEntry[] }> {
  const { runEntryFromWire } = await contract();
  const { answer, old } = await get<RunLogAnswer>(`/trials/${at(trialId)}/run-log`, signal);
  return { old, entries: answer.entries.map(runEntryFromWire) };
}

/** A trial with its cautions, as the machine's list needs it. */
export async function readTrial(
  trialId: string,
): Promise<MaybeOld & { readonly trial: Trial; readonly cautions: readonly string[] }> {
  const { trialFromWire } = await contract();
  const { answer, old } = await get<{ trial: TrialWire }>(`/trials/${at(trialId)}`);
  return { old, trial: trialFromWire(answer.trial), cautions: answer.trial.cautions };
}

export async function sendRunEntries(
  trialId: string,
  entries: readonly RunEntry[],
  signal?: AbortSignal,
): Promise<RunLogTaken> {
  const { runEntryToWire } = await contract();
  return call<RunLogTaken>("POST", `/trials/${at(trialId)}/run-log`, { entries: entries.map(runEntryToWire) }, signal);
}
