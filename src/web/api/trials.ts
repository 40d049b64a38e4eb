import type { RecordedWire, TrialListWire } from "#contract";
import type { Outcome, Trial } from "#terms";
import { call } from "./client.ts";

export interface TrialRecord {
  readonly trial: Trial;
  readonly savedAt: string;
  readonly outcomes: readonly Outcome[];
}

/** How many rows are kept, and which are not. */
export type Recorded = RecordedWire;
export type RefusedRow = Recorded["refused"][number];

const at = (id: string): string => encodeURIComponent(id);

/** The schemas weigh more than the first page; they come with the first record that needs them. */
const contract = () => import("#contract");

export async function listTrials(enquiryId: string): Promise<readonly TrialRecord[]> {
  const answer = await call<TrialListWire>("GET", `/enquiries/${at(enquiryId)}/trials`);
  if (answer.trials.length === 0) return [];
  const { outcomeFromWire, trialFromWire } = await contract();
  return answer.trials.map((record) => ({
    trial: trialFromWire(record.trial),
    savedAt: record.savedAt,
    outcomes: record.outcomes.map(outcomeFromWire),
  }));
}

/** `version` 0 keeps a new trial and replaces none that somebody else named so meanwhile; left out: a later stage. */
export async function putTrial(trial: Trial, cautions: readonly string[], version?: 0): Promise<void> {
  const { trialToWire } = await contract();
  await call("PUT", `/trials/${at(trial.id)}`, {
    trial: trialToWire(trial, cautions),
    ...(version === undefined ? {} : { version }),
  });
}

export async function putOutcomes(trialId: string, outcomes: readonly Outcome[]): Promise<Recorded> {
  const { outcomeToWire } = await contract();
  return call<Recorded>("PUT", `/trials/${at(trialId)}/outcomes`, { outcomes: outcomes.map(outcomeToWire) });
}

export function sendOutcomesCsv(trialId: string, text: string): Promise<Recorded> {
  return call<Recorded>("POST", `/trials/${at(trialId)}/outcomes`, text);
}

export function emptyOutcome(trialId: string, patch: number): Outcome {
  return {
    trialId,
    patch,
    residueFraction: null,
    residueUncertainty: null,
    metalCondition: null,
    lightness: null,
    roughnessBefore: null,
    roughnessAfter: null,
    thicknessBefore: null,
    thicknessAfter: null,
    temperature: null,
    tests: [],
    grader: "",
    note: "",
  };
}
