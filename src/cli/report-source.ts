import { outcomeFromWire, parseEnquiry, resolveEnquiry, seenReadings, type ShopFile, trialFromWire } from "#contract";
import { leastWrongShare, wrongReadings } from "#grading";
import { createLibrary, type Library } from "#library";
import type { GradedFigure } from "#report";
import type { Enquiry } from "#terms";
import { invalid } from "#units";
import { gradedFigure, type TrialEvidence } from "#workflows";
import { isFolder, readJson } from "./files.ts";
import { jpegAddress } from "./graded-picture.ts";
import { gradedFigures, loadGradings } from "./gradings.ts";
import { type LapseFlags, lapseOf } from "./lapse.ts";
import { loadLibrary, loadOutcomes, loadTrial, partOf } from "./load.ts";
import { withStore } from "./with-store.ts";

export interface SourceFlags extends LapseFlags {
  /** a file; with `data` the name of an enquiry that is kept there */
  readonly enquiry: string;
  readonly data?: string;
  readonly library?: readonly string[];
  readonly trial?: readonly string[];
  readonly outcomes?: readonly string[];
}

/** Everything that a report rests on besides physics and money. */
export interface ReportSource {
  readonly library: Library;
  readonly enquiry: Enquiry;
  readonly evidence: readonly TrialEvidence[];
  readonly graded: readonly GradedFigure[];
  readonly lapse: { readonly lapse?: number };
  /** the shop figures that are kept of the enquiry; none where it comes from files */
  readonly shop: ShopFile;
}

/** What a report rests on, from files or from a data folder. */
export function reportSource(flags: SourceFlags): Promise<ReportSource> {
  return flags.data === undefined ? fromFiles(flags) : fromFolder(flags, flags.data);
}

async function fromFiles(flags: SourceFlags): Promise<ReportSource> {
  const library = await loadLibrary(flags.library);
  const enquiry = parseEnquiry(await readJson(flags.enquiry, "enquiry"), library);
  const trials = flags.trial ?? [];
  const outcomes = flags.outcomes ?? [];
  if (outcomes.length > trials.length)
    invalid("outcomes", outcomes.length, "files", "one trial file for each outcomes file");
  const evidence: TrialEvidence[] = [];
  for (const [i, file] of trials.entries()) {
    const trial = await loadTrial(file);
    const part = partOf(enquiry, trial);
    evidence.push({
      trial,
      outcomes: outcomes[i] === undefined ? [] : (await loadOutcomes(outcomes[i], trial, part)).accepted,
    });
  }
  const graded = gradedFigures(
    await loadGradings(flags.gradings),
    evidence.map((e) => e.trial),
  );
  // One share for all trials of the report: limits are those of the gradings themselves.
  return { library, enquiry, evidence, graded, lapse: await lapseOf(flags), shop: {} };
}

/** Trials in the order of their names, so that the same records give the same report wherever they came from. */
async function fromFolder(flags: SourceFlags, folder: string): Promise<ReportSource> {
  if (flags.trial !== undefined || flags.outcomes !== undefined || flags.gradings !== undefined)
    invalid("data", folder, "", "trials, outcomes and gradings come from this folder: leave them out");
  if (!(await isFolder(folder))) invalid("data", folder, "", "there is no such folder");
  return withStore(folder, async (store) => {
    const kept = await store.read(async (r) => {
      const enquiry = await r.latest("enquiry", flags.enquiry);
      if (enquiry === null) return null;
      const trials = (await r.list("trial", flags.enquiry)).map((s) => s.record).sort((a, b) => (a.id < b.id ? -1 : 1));
      return {
        file: enquiry.record,
        shop: (await r.latest("shop-record", flags.enquiry))?.record.shop ?? {},
        libraries: (await r.list("library")).map((s) => s.record.file),
        gradings: (await r.list("grading", flags.enquiry)).map((s) => s.record).sort((a, b) => (a.id < b.id ? -1 : 1)),
        trials: await Promise.all(trials.map(async (trial) => ({ trial, outcomes: await r.outcomes(trial.id) }))),
      };
    });
    if (kept === null) return invalid("enquiry", flags.enquiry, "", "is not kept in this data folder");
    const library = flags.library === undefined ? createLibrary(kept.libraries) : await loadLibrary(flags.library);
    const evidence = kept.trials.map(({ trial, outcomes }) => ({
      trial: trialFromWire(trial),
      outcomes: outcomes.map(outcomeFromWire),
    }));
    const graded: GradedFigure[] = [];
    for (const grading of kept.gradings) {
      const trial = evidence.find((e) => e.trial.id === grading.trial)?.trial;
      const flat = grading.flat === null ? null : await store.photo(grading.flat);
      const figure = trial && gradedFigure(trial, grading, flat === null ? null : jpegAddress(flat));
      if (figure) graded.push(figure);
    }
    const seen = kept.gradings.map(seenReadings);
    const { looked, rate } = wrongReadings(seen);
    const learnt = looked > 0 && flags.wrongGrades === undefined ? { lapse: Math.max(leastWrongShare, rate) } : null;
    return {
      library,
      enquiry: resolveEnquiry(kept.file, library),
      evidence,
      graded,
      shop: kept.shop,
      lapse:
        learnt ?? (await lapseOf({ ...(flags.wrongGrades === undefined ? {} : { wrongGrades: flags.wrongGrades }) })),
    };
  });
}
