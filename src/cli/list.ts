import type { EnquiryListWire, TrialListWire } from "#contract";
import type { StoreReader } from "#store";
import { readKept } from "./known.ts";
import { onFolder } from "./on-folder.ts";
import { askServer, at, type Door } from "./server-api.ts";
import { json } from "./show.ts";

export interface ListFlags {
  readonly data: string;
  readonly json?: boolean;
}

interface ListedTrial {
  readonly id: string;
  readonly part: string;
  readonly laser: string;
  readonly patches: number;
  /** patches with at least one outcome */
  readonly graded: number;
}

interface ListedEnquiry {
  readonly id: string;
  readonly title: string;
  readonly version: number;
  readonly savedAt: string;
  readonly state: "described" | "trial planned" | "outcomes recorded" | "answered";
  readonly trials: readonly ListedTrial[];
  readonly answers: number;
}

/** `list`: the enquiries of a data folder, last saved first, with their state and their trials. */
export async function listVerb(flags: ListFlags): Promise<string> {
  const enquiries = await onFolder(flags.data, {
    server: listedBy,
    here: () => readKept(flags.data, "data", listedIn),
  });
  if (flags.json) return json({ enquiries });
  if (enquiries.length === 0) return "No enquiry is kept in this data folder yet.";
  return enquiries.flatMap(lines).join("\n");
}

function lines({ id, title, version, savedAt, state, trials, answers }: ListedEnquiry): string[] {
  const many = (n: number, one: string) => `${n} ${n === 1 ? one : `${one}s`}`;
  return [
    `${id}  ${title}`,
    `  ${state}, version ${version} of ${savedAt}, ${many(trials.length, "trial")}, ${many(answers, "answer")}`,
    ...trials.map((t) => `  trial ${t.id}: part ${t.part}, ${t.laser}, ${t.graded} of ${t.patches} patches graded`),
  ];
}

type Counted = Omit<ListedEnquiry, "state">;

const withState = (one: Counted): ListedEnquiry => ({
  ...one,
  state:
    one.answers > 0
      ? "answered"
      : one.trials.some((t) => t.graded > 0)
        ? "outcomes recorded"
        : one.trials.length > 0
          ? "trial planned"
          : "described",
});

type KeptTrial = Pick<TrialListWire["trials"][number], "trial" | "outcomes">;

/** By name, so that the list reads the same whatever was saved last. */
const listedTrials = (kept: readonly KeptTrial[]): ListedTrial[] =>
  kept
    .map(({ trial, outcomes }) => ({
      id: trial.id,
      part: trial.part,
      laser: trial.laser,
      patches: trial.patches.length,
      graded: new Set(outcomes.map((o) => o.patch)).size,
    }))
    .sort((a, b) => (a.id < b.id ? -1 : 1));

async function listedBy(door: Door): Promise<ListedEnquiry[]> {
  const { enquiries } = await askServer<EnquiryListWire>(door, "GET", "/enquiries");
  const listed: ListedEnquiry[] = [];
  for (const { id, enquiry, version, savedAt, trials, answers } of enquiries) {
    const kept =
      trials === 0 ? [] : (await askServer<TrialListWire>(door, "GET", `/enquiries/${at(id)}/trials`)).trials;
    listed.push(withState({ id, title: enquiry.title, version, savedAt, trials: listedTrials(kept), answers }));
  }
  return listed;
}

async function listedIn(reader: StoreReader): Promise<ListedEnquiry[]> {
  const listed: ListedEnquiry[] = [];
  for (const { id, version, savedAt, record } of await reader.list("enquiry")) {
    const kept: KeptTrial[] = [];
    for (const { record: trial } of await reader.list("trial", id))
      kept.push({ trial, outcomes: await reader.outcomes(trial.id) });
    const answers = (await reader.answers(id)).length;
    listed.push(withState({ id, title: record.title, version, savedAt, trials: listedTrials(kept), answers }));
  }
  return listed;
}
