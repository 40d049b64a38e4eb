import type { StoreReader, StoreTransaction } from "#store";
import { invalid } from "#units";
import type { ArchivedAnswer, ArchivedPhoto, ArchivedRecord, TrialBundle } from "./bundle.ts";
import { canonical } from "./canonical.ts";
import { inOrder, type Step, together, type Write } from "./writes.ts";

export interface AddedCounts {
  /** versions of records */
  readonly versions: number;
  readonly outcomes: number;
  readonly answers: number;
  readonly photos: number;
}

/** What an archive has and a store lacks, in the order in which it was first saved. */
export interface Additions {
  readonly writes: readonly Write[];
  readonly photos: readonly ArchivedPhoto[];
  readonly counts: AddedCounts;
}

/**
 * What stands after a common beginning. Histories only grow: two of one thing are the same, one goes on from the other,
 * or they contradict each other; `conflict` then says so.
 */
function lacking<T>(
  held: readonly unknown[],
  archived: readonly T[],
  of: (one: T) => unknown,
  conflict: () => never,
): T[] {
  const common = Math.min(held.length, archived.length);
  for (let i = 0; i < common; i++) if (canonical(held[i]) !== canonical(of(archived[i]!))) conflict();
  return archived.slice(common);
}

async function recordSteps(reader: StoreReader, { kind, id, versions }: ArchivedRecord): Promise<Step[]> {
  const held: unknown[] = [];
  for (const line of (await reader.history(kind, id)).toReversed())
    held.push((await reader.version(kind, id, line.version))!.record);
  const missing = lacking(
    held,
    versions,
    (v) => v.record,
    () => invalid(kind, id, "", "another one is kept under this name in the data folder; nothing was imported"),
  );
  return missing.map(({ savedAt, version, record }) => ({
    savedAt,
    apply: (transaction) => transaction.put(kind, record, version - 1),
  }));
}

async function outcomeSteps(reader: StoreReader, { trialId, outcomes }: TrialBundle): Promise<Step[]> {
  const held = (await reader.outcomeHistory(trialId)).map((o) => o.outcome);
  const missing = lacking(
    held,
    outcomes,
    (o) => o.outcome,
    () => invalid("outcomes", trialId, "", "others are kept of this trial in the data folder; nothing was imported"),
  );
  return missing.map(({ savedAt, outcome }) => ({ savedAt, outcome }));
}

/** Answers are rows of their own and contradict nothing: as many of each are added as the archive has more. */
async function answerSteps(reader: StoreReader, answers: readonly ArchivedAnswer[]): Promise<Step[]> {
  const key = ({ enquiry, enquiryVersion, shape, modelVersion, inputs, result }: ArchivedAnswer) =>
    canonical({ enquiry, enquiryVersion, shape, modelVersion, inputs, result });
  const held = new Map<string, number>();
  for (const enquiry of new Set(answers.map((a) => a.enquiry)))
    for (const line of await reader.answers(enquiry)) {
      const found = key((await reader.answer(line.id))!);
      held.set(found, (held.get(found) ?? 0) + 1);
    }
  return answers.flatMap((answer) => {
    const left = held.get(key(answer)) ?? 0;
    held.set(key(answer), left - 1);
    const { savedAt, ...row } = answer;
    return left > 0 ? [] : [{ savedAt, apply: (transaction: StoreTransaction) => transaction.addAnswer(row) }];
  });
}

/** Throws InvalidInput where the store holds something else under a name that the archive brings. */
export async function additionsTo(reader: StoreReader, bundle: TrialBundle): Promise<Additions> {
  const records: Step[][] = [];
  for (const record of bundle.records) records.push(await recordSteps(reader, record));
  const outcomes = await outcomeSteps(reader, bundle);
  const answers = await answerSteps(reader, bundle.answers);
  const known = new Set((await reader.photos()).map((p) => p.sha256));
  const photos = bundle.photos.filter((p) => !known.has(p.sha256));
  return {
    writes: together(inOrder([...records, outcomes, answers]), bundle.trialId),
    photos,
    counts: {
      versions: records.flat().length,
      outcomes: outcomes.length,
      answers: answers.length,
      photos: photos.length,
    },
  };
}
