import { createHash } from "node:crypto";
import { join } from "node:path";
import { openStore, type RecordKind } from "#store";
import { trial } from "../../web/photographs/graded.ts";
import { enquiryIds, type Sent } from "./clients.ts";

export interface Kept {
  /** acknowledged and not there as it was sent */
  readonly lost: readonly string[];
  /** there in part only, or with a gap in its versions, or sent by nobody */
  readonly broken: readonly string[];
}

/** Opens the folder that a killed server left and looks for everything that was acknowledged. */
export async function lookFor(
  folder: string,
  log: readonly Sent[],
  photos: ReadonlyMap<string, Buffer>,
): Promise<Kept> {
  const store = openStore(join(folder, "scourlight.db"));
  const lost: string[] = [];
  const broken: string[] = [];
  const sent = new Set(log.map((s) => `${s.what} ${s.id} ${s.token}`));
  const acknowledged = (what: Sent["what"]) => log.filter((s) => s.what === what && s.acknowledged);

  const versions = async (what: Sent["what"], kind: RecordKind, ids: readonly string[], first: number) => {
    for (const id of ids) {
      const tokens = await store.read(async (r) => {
        const found = new Map<number, string>();
        for (const line of (await r.history(kind, id)).toReversed()) {
          const { record } = (await r.version(kind, id, line.version))!;
          const text = JSON.stringify(record);
          const words = [...new Set(text.match(/t-[0-9a-z]+-\d+/g) ?? [])];
          if (line.version >= first && words.length !== 1)
            broken.push(`${what} ${id} ${line.version}: ${words.join()}`);
          found.set(line.version, words[0] ?? "");
        }
        return found;
      });
      [...tokens.keys()].forEach((version, i) => {
        if (version !== i + 1) broken.push(`${what} ${id}: version ${version} stands in place ${i + 1}`);
        const token = tokens.get(version);
        if (version >= first && !sent.has(`${what} ${id} ${token}`))
          broken.push(`${what} ${id} ${version}: sent by nobody`);
      });
      for (const s of acknowledged(what))
        if (s.id === id && tokens.get(s.version ?? 0) !== s.token) lost.push(`${what} ${id} version ${s.version}`);
    }
  };
  await versions("enquiry", "enquiry", ["e1", "e2"], 1);
  await versions("enquiry", "enquiry", enquiryIds.slice(0, 1), 2);
  await versions("shop", "shop-record", ["yard"], 1);
  await versions("grading", "grading", [`${trial.id}.coupon-1`], 1);

  const { rows, entries, lines } = await store.read(async (r) => ({
    rows: (await r.outcomeHistory(trial.id)).map((o) => o.outcome.grader),
    entries: new Set((await r.latest("run-log", trial.id))?.record.entries.map((e) => e.id) ?? []),
    lines: new Set((await r.photos()).map((p) => p.sha256)),
  }));
  const perGrader = new Map<string, number>();
  for (const grader of rows) if (grader !== "photographs") perGrader.set(grader, (perGrader.get(grader) ?? 0) + 1);
  for (const [grader, n] of perGrader) if (n !== 2) broken.push(`outcomes of ${grader}: ${n} of 2`);
  for (const s of acknowledged("outcomes")) if (perGrader.get(s.token) !== 2) lost.push(`outcomes ${s.token}`);
  for (const s of acknowledged("entry")) if (!entries.has(s.token)) lost.push(`entry ${s.token}`);
  for (const sum of lines) {
    const bytes = await store.photo(sum).catch(() => null);
    const same = bytes !== null && createHash("sha256").update(bytes).digest("hex") === sum;
    if (!same || !photos.get(sum)?.equals(bytes)) broken.push(`photo ${sum}`);
  }
  for (const s of acknowledged("photo")) if (!lines.has(s.token)) lost.push(`photo ${s.token}`);
  await store.close();
  return { lost, broken };
}
