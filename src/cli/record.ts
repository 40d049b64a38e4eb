import { outcomeToWire, parseEnquiryFile, recordToWire, samePlan, trialFromWire } from "#contract";
import { isLaterStage } from "#trial";
import { invalid } from "#units";
import { readJson } from "./files.ts";
import { keepEnquiry } from "./known.ts";
import { loadOutcomes, loadTrialWire } from "./load.ts";
import { json } from "./show.ts";
import { withStore } from "./with-store.ts";

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
  await withStore(flags.data, (store) =>
    store.write(async (tx) => {
      const kept = await tx.latest("trial", trial.id);
      // Outcomes speak of patches by number: under another plan they would speak of other settings.
      const same = kept !== null && samePlan(kept.record, wire);
      if (kept !== null && !same && !isLaterStage(trialFromWire(kept.record), trial))
        invalid("trial", trial.id, "", "another plan is kept under this name; give the new one another id");
      if (!same) await tx.put("trial", wire);
      if (enquiry !== null) await keepEnquiry(tx, enquiry);
      await tx.addOutcomes(trial.id, recorded.accepted.map(outcomeToWire));
    }),
  );
  if (flags.json) return json(recordToWire(trial.id, recorded));
  return [
    `Trial ${trial.id}: ${recorded.accepted.length} outcomes kept, ${recorded.refused.length} rows refused`,
    ...recorded.refused.map((r) => `  line ${r.line}: ${r.message}`),
  ].join("\n");
}
