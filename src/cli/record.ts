import { type OutcomeWire, outcomeToWire, parseEnquiryFile, recordToWire, samePlan, trialFromWire } from "#contract";
import type { EnquiryFile, EnquiryRecordWire, RecordedWire, TrialWire } from "#contract";
import { isLaterStage } from "#trial";
import type { StoreTransaction } from "#store";
import { invalid } from "#units";
import { readJson } from "./files.ts";
import { keepEnquiry } from "./known.ts";
import { loadOutcomes, loadTrialWire } from "./load.ts";
import { onFolder } from "./on-folder.ts";
import { askIfThere, askServer, at, type Door } from "./server-api.ts";
import { json } from "./show.ts";
import { withStore } from "./with-store.ts";

export interface RecordFlags {
  readonly trial: string;
  readonly outcomes: string;
  readonly data: string;
  readonly enquiry?: string;
  readonly json?: boolean;
}

/** What `record` needs of whoever keeps the records. */
interface Keeper {
  trial(id: string): Promise<TrialWire | null>;
  putTrial(wire: TrialWire): Promise<unknown>;
  keepEnquiry(file: EnquiryFile): Promise<unknown>;
  addOutcomes(trial: string, rows: readonly OutcomeWire[]): Promise<unknown>;
}

/** `record`: keeps the rows that fit and names the lines that do not. */
export async function recordVerb(flags: RecordFlags): Promise<string> {
  const wire = await loadTrialWire(flags.trial);
  const trial = trialFromWire(wire);
  const recorded = await loadOutcomes(flags.outcomes, trial);
  if (recorded.accepted.length === 0 && recorded.refused.length > 0) {
    invalid(
      "outcomes file",
      `${recorded.refused.length} rows`,
      "",
      `no row fits; line ${recorded.refused[0].line}: ${recorded.refused[0].message}`,
    );
  }
  const enquiry = flags.enquiry === undefined ? null : parseEnquiryFile(await readJson(flags.enquiry, "enquiry"));
  if (enquiry !== null && enquiry.id !== trial.enquiryId)
    invalid("enquiry", enquiry.id, "", `the trial belongs to enquiry ${trial.enquiryId}`);
  const keep = (keeper: Keeper) => keepAll(keeper, wire, enquiry, recorded.accepted.map(outcomeToWire));
  await onFolder(flags.data, {
    server: (door) => keep(byServer(door)),
    here: () => withStore(flags.data, (store) => store.write((tx) => keep(inStore(tx)))),
  });
  if (flags.json) return json(recordToWire(trial.id, recorded));
  return [
    `Trial ${trial.id}: ${recorded.accepted.length} outcomes kept, ${recorded.refused.length} rows refused`,
    ...recorded.refused.map((r) => `  line ${r.line}: ${r.message}`),
  ].join("\n");
}

async function keepAll(
  keeper: Keeper,
  wire: TrialWire,
  enquiry: EnquiryFile | null,
  rows: readonly OutcomeWire[],
): Promise<void> {
  const kept = await keeper.trial(wire.id);
  // Outcomes speak of patches by number: under another plan they would speak of other settings.
  const same = kept !== null && samePlan(kept, wire);
  if (kept !== null && !same && !isLaterStage(trialFromWire(kept), trialFromWire(wire)))
    invalid("trial", wire.id, "", "another plan is kept under this name; give the new one another id");
  if (!same) await keeper.putTrial(wire);
  if (enquiry !== null) await keeper.keepEnquiry(enquiry);
  await keeper.addOutcomes(wire.id, rows);
}

const inStore = (tx: StoreTransaction): Keeper => ({
  trial: async (id) => (await tx.latest("trial", id))?.record ?? null,
  putTrial: (wire) => tx.put("trial", wire),
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
