import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { outcomeToWire, parseEnquiryFile, parseJsonText, parseOutcomesCsv, parseTrial, trialToWire } from "#contract";
import type { Store } from "#store";
import { wantedTests } from "./wanted-tests.ts";

/** Trials of the example, each with its outcomes. */
export const exampleTrials = [
  "hatch-covers.pulsed",
  "hatch-covers.continuous",
  "brackets.pulsed",
  "brackets.continuous",
] as const;
const CAUTION = "Class 4 laser work: local law and the laser safety officer decide.";

/** Puts the example into the store: the enquiry as it is in its file, trials and outcomes once. */
export async function loadExample(store: Store, folder: string): Promise<string> {
  const text = (name: string) => readFile(join(folder, name), "utf8");
  const enquiry = parseEnquiryFile(parseJsonText(await text("enquiry.json"), "enquiry"));
  const trials = await Promise.all(
    exampleTrials.map(async (name) => {
      const trial = parseTrial(parseJsonText(await text(`${name}.trial.json`), "trial"));
      return {
        trial,
        outcomes: parseOutcomesCsv(await text(`${name}.outcomes.csv`), trial, wantedTests(enquiry, trial.partId))
          .accepted,
      };
    }),
  );
  return store.write(async (tx) => {
    const before = await tx.latest("enquiry", enquiry.id);
    if (JSON.stringify(before?.record) !== JSON.stringify(enquiry)) await tx.put("enquiry", enquiry);
    for (const { trial, outcomes } of trials) {
      if ((await tx.latest("trial", trial.id)) !== null) continue;
      await tx.put("trial", trialToWire(trial, [CAUTION]));
      await tx.addOutcomes(trial.id, outcomes.map(outcomeToWire));
    }
    return enquiry.id;
  });
}
