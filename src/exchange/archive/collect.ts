import type { TrialWire } from "#contract";
import type { PhotoLine, RecordKind, Store, StoreReader } from "#store";
import { invalid } from "#units";
import { answerBelongs, belongs, namedSums, recordKinds, usedLibrary } from "./belongs.ts";
import type { ArchivedAnswer, ArchivedPhoto, ArchivedRecord, TrialBundle } from "./bundle.ts";
import { textsIn } from "./canonical.ts";

async function withHistory(reader: StoreReader, kind: RecordKind, id: string): Promise<ArchivedRecord> {
  const lines = (await reader.history(kind, id)).toReversed();
  const versions = [];
  for (const line of lines) {
    const saved = await reader.version(kind, id, line.version);
    versions.push({ version: saved!.version, savedAt: saved!.savedAt, record: saved!.record });
  }
  return { kind, id, versions };
}

async function recordsOf(reader: StoreReader, trial: TrialWire): Promise<ArchivedRecord[]> {
  const found: ArchivedRecord[] = [];
  for (const kind of recordKinds) {
    const ids = (await reader.list(kind)).filter((s) => belongs(kind, s.record, trial)).map((s) => s.id);
    for (const id of ids.sort()) found.push(await withHistory(reader, kind, id));
  }
  return found;
}

async function answersOf(reader: StoreReader, trial: TrialWire): Promise<ArchivedAnswer[]> {
  const found: ArchivedAnswer[] = [];
  for (const line of (await reader.answers(trial.enquiry)).toReversed()) {
    const { id: _, ...answer } = (await reader.answer(line.id))!;
    if (answerBelongs(answer, trial)) found.push(answer);
  }
  return found;
}

async function libraryOf(reader: StoreReader, texts: ReadonlySet<string>): Promise<ArchivedRecord[]> {
  const files = (await reader.list("library")).map((s) => s.record);
  const ids = usedLibrary(files, texts).map((file) => file.id);
  return Promise.all(ids.sort().map((id) => withHistory(reader, "library", id)));
}

const byPlace = (a: ArchivedRecord, b: ArchivedRecord): number =>
  recordKinds.indexOf(a.kind) - recordKinds.indexOf(b.kind);

export interface Collected {
  readonly bundle: TrialBundle;
  /** sums that records name and whose photo is not in the folder */
  readonly photosMissing: readonly string[];
}

/**
 * Everything that a store holds of one trial: its records with all their versions, every grading, answers with inputs
 * and model version, library files that are named and photos that are named. Throws InvalidInput for a trial that is not
 * there and for a photo whose file has been damaged.
 */
export async function collectTrial(store: Store, trialId: string): Promise<Collected> {
  const { photoLines, sums, ...rest } = await store.read(async (reader) => {
    const saved = await reader.latest("trial", trialId);
    if (saved === null) return invalid("trial", trialId, "", "is not in the data folder");
    const trial = saved.record;
    const own = await recordsOf(reader, trial);
    const outcomes = (await reader.outcomeHistory(trialId)).map(({ savedAt, outcome }) => ({ savedAt, outcome }));
    const answers = await answersOf(reader, trial);
    const texts = textsIn({ own, outcomes, answers });
    const records = [...own, ...(await libraryOf(reader, texts))].sort(byPlace);
    const sums = namedSums(texts);
    const photoLines = (await reader.photos()).filter((p) => sums.has(p.sha256));
    return { records, outcomes, answers, photoLines, sums };
  });
  const photos: ArchivedPhoto[] = [];
  for (const line of photoLines.sort(bySum)) {
    const content = await store.photo(line.sha256);
    if (content !== null) photos.push({ ...line, content: new Uint8Array(content) });
  }
  const there = new Set(photos.map((p) => p.sha256));
  return { bundle: { trialId, ...rest, photos }, photosMissing: [...sums].filter((sum) => !there.has(sum)).sort() };
}

const bySum = (a: PhotoLine, b: PhotoLine): number => (a.sha256 < b.sha256 ? -1 : 1);
