import {
  type EnquiryFile,
  type EnquiryRecordWire,
  type OutcomeWire,
  type RecordedWire,
  samePlan,
  type TrialWire,
  trialFromWire,
} from "#contract";
import type { StoreTransaction } from "#store";
import { isLaterStage } from "#trial";
import { invalid } from "#units";
import { keepEnquiry } from "./known.ts";
import { onFolder } from "./on-folder.ts";
import { askIfThere, askServer, at, type Door } from "./server-api.ts";
import { withStore } from "./with-store.ts";

/** What verbs that keep a trial need of whoever keeps the records. */
export interface Keeper {
  trial(id: string): Promise<TrialWire | null>;
  /** Refuses another plan under the name of a trial that has outcomes. */
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

/** Whether a plan may take the place of a kept one whose patches speak by number of its settings. */
export const goesOn = (kept: TrialWire, wire: TrialWire): boolean =>
  samePlan(kept, wire) || isLaterStage(trialFromWire(kept), trialFromWire(wire));

const inStore = (tx: StoreTransaction): Keeper => ({
  trial: async (id) => (await tx.latest("trial", id))?.record ?? null,
  async putTrial(wire) {
    const kept = await tx.latest("trial", wire.id);
    if (kept !== null && !goesOn(kept.record, wire) && (await tx.outcomes(wire.id)).length > 0)
      invalid("trial", wire.id, "", "has outcomes already: keep another plan under another id");
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
