import { join } from "node:path";
import { answerOnThreads } from "#compute";
import { parseEnquiry, parseShop } from "#contract";
import { reportPdf } from "#papers";
import { reportHtml, requireLanguage } from "#report";
import { invalid } from "#units";
import { papersOf, reportAnswer, type TrialEvidence } from "#workflows";
import { gradedFigures, loadGradings } from "./gradings.ts";
import { lapseOf } from "./lapse.ts";
import { readJson, writeWhole } from "./files.ts";
import { knownBeliefs } from "./known.ts";
import { loadLibrary, loadOutcomes, loadTrial, partOf, type PhysicsFlags } from "./load.ts";
import { type SweepFlags, withProgress } from "./progress.ts";
import { json } from "./show.ts";
import { day } from "./today.ts";
import { writePapers } from "./write-papers.ts";

export interface ReportFlags extends PhysicsFlags, SweepFlags {
  readonly trial?: readonly string[];
  readonly outcomes?: readonly string[];
  /** also procedure, commissioning sheet and offer */
  readonly papers?: boolean;
  readonly language?: string;
  readonly revision?: string;
  readonly validUntil?: string;
  /** file of the shop's own figures */
  readonly shop?: string;
  readonly approver?: string;
  readonly date?: string;
  /** per cent */
  readonly wrongGrades?: number;
  /** files of graded coupons */
  readonly gradings?: readonly string[];
  readonly out: string;
}

/** `report`: the whole answer as PDF and HTML. */
export async function reportVerb(flags: ReportFlags): Promise<string> {
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
  const shop = parseShop(flags.shop === undefined ? {} : await readJson(flags.shop, "shop"));
  const beliefs = await knownBeliefs(
    flags.known,
    evidence.map((e) => e.trial.id),
  );
  // One share for all trials of the report: limits are those of the gradings themselves.
  const lapse = await lapseOf(flags);
  const graded = gradedFigures(
    await loadGradings(flags.gradings),
    evidence.map((e) => e.trial),
  );
  const answer = await withProgress(flags, (run) =>
    answerOnThreads(
      enquiry,
      {
        seed: flags.seed,
        drawCount: flags.draws,
        setups: library.setups,
        trials: evidence,
        beliefs,
        ...lapse,
      },
      run,
    ),
  );
  const dateText = day(flags.date);
  const model = reportAnswer(answer, {
    setups: library.setups,
    dateText,
    documentId: `${enquiry.id}-${dateText}`,
    approver: flags.approver ?? null,
    shop,
    graded,
  });
  const files = [join(flags.out, `${enquiry.id}.report.html`), join(flags.out, `${enquiry.id}.report.pdf`)];
  await writeWhole(files[0], reportHtml(model));
  await writeWhole(files[1], await reportPdf(model));
  const words: string[] = [];
  if (flags.papers) {
    const papers = papersOf(answer, {
      setups: library.setups,
      language: requireLanguage(flags.language ?? "en"),
      revision: flags.revision ?? "1",
      dateText,
      approver: flags.approver ?? null,
      validUntil: flags.validUntil === undefined ? null : day(flags.validUntil),
      shop,
    });
    files.push(...(await writePapers(flags.out, enquiry.id, papers)));
    words.push(...papers.flatMap((p) => p.words));
  }
  return flags.json ? json({ files, model }) : [...words, ...files.map((f) => `wrote ${f}`)].join("\n");
}
