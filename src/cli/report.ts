import { join } from "node:path";
import { answerOnThreads } from "#compute";
import { parseShop } from "#contract";
import { reportPdf } from "#papers";
import { reportHtml, requireLanguage } from "#report";
import { papersOf, reportAnswer } from "#workflows";
import { readJson, writeWhole } from "./files.ts";
import { knownBeliefs } from "./known.ts";
import type { PhysicsFlags } from "./load.ts";
import { type SweepFlags, withProgress } from "./progress.ts";
import { reportSource, type SourceFlags } from "./report-source.ts";
import { json } from "./show.ts";
import { day } from "./today.ts";
import { writePapers } from "./write-papers.ts";

export interface ReportFlags extends PhysicsFlags, SweepFlags, SourceFlags {
  /** name on the paper; enquiry and day when left out */
  readonly documentId?: string;
  /** also procedure, commissioning sheet and offer */
  readonly papers?: boolean;
  readonly language?: string;
  readonly revision?: string;
  readonly validUntil?: string;
  /** file of the shop's own figures */
  readonly shop?: string;
  readonly approver?: string;
  readonly date?: string;
  readonly out: string;
}

/** `report`: the whole answer as PDF and HTML. */
export async function reportVerb(flags: ReportFlags): Promise<string> {
  const { library, enquiry, evidence, graded, lapse } = await reportSource(flags);
  const shop = parseShop(flags.shop === undefined ? {} : await readJson(flags.shop, "shop"));
  const beliefs = await knownBeliefs(
    flags.known,
    evidence.map((e) => e.trial.id),
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
    documentId: flags.documentId ?? `${enquiry.id}-${dateText}`,
    ...(flags.revision === undefined ? {} : { revision: flags.revision }),
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
