import type { EnquiryFile, EnquiryRecordWire, OutcomeWire, RecordedWire, TrialWire } from "#contract";
import { refusalOfPlan, type StoreTransaction } from "#store";
import { invalid } from "#units";
import { keepEnquiry } from "./known.ts";
import { onFolder } from "./on-folder.ts";
import { askIfThere, askServer, at, type Door } from "./server-api.ts";
import { withStore } from "./with-store.ts";

/** What verbs that keep a trial need of whoever keeps the records. */
export interface Keeper {
  trial(id: string): Promise<TrialWire | null>;
  /** Refuses another plan under the name of a trial that was begun or has outcomes. */
  putTrial(wire: TrialWire): Promise<unknown>;
  keepEnquiry(file: EnquiryFile): Promise<unknown>;
  addOutcomes(trial: string, rows: readonly OutcomeWire[]): Promise<unknown>;
}

/** Keeps records in a data folder: by the server that runs on it, else in one transaction of its store. */
export function keepIn<T>(folder: string, work: (keeper: Keeper) => Promise<T>): Promise<T> {
  return onFolder(folder, {
    server: (door) => work(byServer(door)),
    here: () => withStore(folder, (store) => store.write((tx) => work(inStore(tx)))),
  });
}

const inStore = (tx: StoreTransaction): Keeper => ({
  trial: async (id) => (await tx.latest("trial", id))?.record ?? null,
  async putTrial(wire) {
    const refusal = await refusalOfPlan(tx, wire);
    if (refusal !== null) invalid("trial", wire.id, "", refusal);
    return tx.put("trial", wire);
  },
  keepEnquiry: (file) => keepEnquiry(tx, file),
  addOutcomes: (trial, rows) => tx.addOutcomes(trial, rows),
});

/** Rows in one request: below what the server takes at once. */
const ROWS = 5000;

/** One request after another: what came before stays kept when a later one fails, and the same command goes on from there. */
const byServer = (door: Door): Keeper => ({
  trial: async (id) => (await askIfThere<{ trial: TrialWire }>(door, `/trials/${at(id)}`))?.trial ?? null,
  putTrial: (trial) => askServer(door, "PUT", `/trials/${at(trial.id)}`, { json: { trial } }),
  async keepEnquiry(enquiry) {
    const path = `/enquiries/${at(enquiry.id)}`;
    const before = await askIfThere<EnquiryRecordWire>(door, path);
    if (JSON.stringify(before?.enquiry) === JSON.stringify(enquiry)) return;
    await askServer(door, "PUT", path, { json: { version: before?.version ?? 0, enquiry } });
  },
  async addOutcomes(trial, rows) {
    for (let from = 0; from < rows.length; from += ROWS) {
      const outcomes = rows.slice(from, from + ROWS);
      const path = `/trials/${at(trial)}/outcomes`;
      const { refused } = await askServer<RecordedWire>(door, "PUT", path, { json: { outcomes } });
      if (refused[0]) throw new Error(`row ${from + refused[0].line} was not kept: ${refused[0].error}`);
    }
  },
});
