import { beliefToWire, parseEnquiryFile } from "#contract";
import type { Belief } from "#terms";
import { invalid } from "#units";
import { beliefOf, carried, versionsBehind, withSamplingError } from "#workflows";
import type { Evaluated } from "./evaluate.ts";
import { readJson } from "./files.ts";
import { keepEnquiry } from "./known.ts";
import { withStore } from "./with-store.ts";

/**
 * Keeps what a trial taught, and its enquiry, so that the next job can start from it. A trial has one belief: what is kept
 * later takes the place of what was kept before, and trials that this one started from are named, so that nothing counts
 * twice. Throws InvalidInput for another enquiry's trial and where nothing was graded.
 */
export async function remember(folder: string, enquiryFile: string, evaluated: Evaluated): Promise<string> {
  const belief = beliefToKeep(evaluated);
  const enquiry = parseEnquiryFile(await readJson(enquiryFile, "enquiry"));
  if (enquiry.id !== belief.enquiryId)
    invalid("enquiry", enquiry.id, "", `the trial belongs to enquiry ${belief.enquiryId}`);
  if (belief.patches === 0) invalid("outcomes", 0, "patches", "nothing was graded: there is nothing to remember");
  await withStore(folder, (store) =>
    store.write(async (tx) => {
      await keepEnquiry(tx, enquiry);
      await tx.put("belief", beliefToWire(belief));
    }),
  );
  const versions = Math.round(versionsBehind(evaluated.evaluation.posterior));
  const few = versions < FEW ? `; that is few, and more --draws make it surer` : "";
  return `Remembered in ${folder}: what ${belief.patches} patches of trial ${belief.trialId} taught, weighed over about ${versions} versions of the physics${few}`;
}

/** Fewer versions than this tell of a property by chance as much as by the patches: own choice. */
const FEW = 20;

function beliefToKeep({ setup, trial, evaluation }: Evaluated): Belief {
  const { model, posterior, result } = evaluation;
  const r = result.recommended;
  const learnt = beliefOf(model, setup, trial, posterior, r && { setting: r.setting, proven: r.proven });
  const belief = withSamplingError(learnt, versionsBehind(posterior));
  // Shifts belong to a source: only with the set-up is it known which trials lent theirs.
  const builtOn = carried(model.beliefs, model.part, { setup }).from;
  return { ...belief, id: trial.id, ...(builtOn.length > 0 ? { builtOn } : {}) };
}
