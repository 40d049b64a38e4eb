import { stat } from "node:fs/promises";
import { join } from "node:path";
import { beliefFromWire, type EnquiryFile } from "#contract";
import type { StoreReader, StoreTransaction } from "#store";
import type { Belief } from "#terms";
import { invalid } from "#units";
import { beliefsWithout, type PartModel } from "#workflows";
import { isFolder } from "./files.ts";
import { withStore } from "./with-store.ts";

/** Reads a data folder that has to be there already; asking must not make one. */
export async function readKept<T>(folder: string, name: string, work: (reader: StoreReader) => Promise<T>): Promise<T> {
  if (!(await isFolder(folder))) invalid(name, folder, "", "there is no such folder");
  await stat(join(folder, "scourlight.db")).catch(() => invalid(name, folder, "", "holds no records of this program"));
  return withStore(folder, (store) => store.read(work));
}

/** Beliefs kept in a data folder, less those that already hold the outcomes of these trials. None without a folder. */
export async function knownBeliefs(folder: string | undefined, trials: readonly string[] = []): Promise<Belief[]> {
  if (folder === undefined) return [];
  const kept = await readKept(folder, "known", (r) => r.list("belief"));
  return beliefsWithout(kept.map((s) => beliefFromWire(s.record)).reverse(), trials);
}

/** What of earlier trials stands behind an answer, one sentence each; empty where nobody asked for it. */
export function carriedNotes(folder: string | undefined, { carried }: Pick<PartModel, "carried">): readonly string[] {
  if (folder === undefined) return [];
  return carried.words.length > 0 ? carried.words : ["Earlier trials: none of them speaks of this coat or metal."];
}

/** The same under a heading, as the verbs print it. */
export function carriedLines(folder: string | undefined, model: Pick<PartModel, "carried">): string[] {
  const notes = carriedNotes(folder, model);
  return notes.length === 0 ? [] : ["", "Carried over from earlier trials", ...notes.map((note) => `  ${note}`)];
}

/** Keeps the enquiry that a trial belongs to, so that the trial is found by its stack later. */
export async function keepEnquiry(tx: StoreTransaction, file: EnquiryFile): Promise<void> {
  const before = await tx.latest("enquiry", file.id);
  if (JSON.stringify(before?.record) !== JSON.stringify(file)) await tx.put("enquiry", file);
}
