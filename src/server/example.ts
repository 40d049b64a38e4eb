import { readFile } from "node:fs/promises";
import { join } from "node:path";
import {
  outcomeToWire,
  parseEnquiryFile,
  parseJsonText,
  parseOutcomesCsv,
  parseTrialWire,
  trialFromWire,
} from "#contract";
import { createLibrary } from "#library";
import type { Store } from "#store";
import { wantedTests } from "./wanted-tests.ts";

/** Trials of the example, each with its outcomes. */
export const exampleTrials = [
  "hatch-covers.pulsed",
  "hatch-covers.continuous",
  "brackets.pulsed",
  "brackets.continuous",
] as const;

/** Puts the example into the store: the enquiry as it is in its file, trials and outcomes once. */
export async function loadExample(store: Store, folder: string): Promise<string> {
  // The example was made with the library as it comes.
  const library = createLibrary([]);
  const text = (name: string) => readFile(join(folder, name), "utf8");
  const enquiry = parseEnquiryFile(parseJsonText(await text("enquiry.json"), "enquiry"));
  const trials = await Promise.all(
    exampleTrials.map(async (name) => {
      const wire = parseTrialWire(parseJsonText(await text(`${name}.trial.json`), "trial"));
      return {
        trial: wire,
        outcomes: parseOutcomesCsv(
          await text(`${name}.outcomes.csv`),
          trialFromWire(wire),
          wantedTests(enquiry, wire.part, library),
        ).accepted,
      };
    }),
  );
  return store.write(async (tx) => {
    const before = await tx.latest("enquiry", enquiry.id);
    if (JSON.stringify(before?.record) !== JSON.stringify(enquiry)) await tx.put("enquiry", enquiry);
    for (const { trial, outcomes } of trials) {
      if ((await tx.latest("trial", trial.id)) !== null) continue;
      await tx.put("trial", trial);
      await tx.addOutcomes(trial.id, outcomes.map(outcomeToWire));
    }
    return enquiry.id;
  });
}
