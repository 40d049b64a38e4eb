import {
  type EnquiryFile,
  type OutcomeWire,
  outcomeToWire,
  parseEnquiryFile,
  recordToWire,
  goesOn,
  samePlan,
  type TrialWire,
  trialFromWire,
} from "#contract";
import { invalid } from "#units";
import { readJson } from "./files.ts";
import { type Keeper, keepIn } from "./keeper.ts";
import { loadOutcomes, loadTrialWire } from "./load.ts";
import { json } from "./show.ts";

export interface RecordFlags {
  readonly trial: string;
  readonly outcomes: string;
  readonly data: string;
  readonly enquiry?: string;
  readonly json?: boolean;
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
  await keepIn(flags.data, keep);
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
  if (kept !== null && !goesOn(kept, wire))
    invalid("trial", wire.id, "", "another plan is kept under this name; give the new one another id");
  if (!same) await keeper.putTrial(wire);
  if (enquiry !== null) await keeper.keepEnquiry(enquiry);
  await keeper.addOutcomes(wire.id, rows);
}
