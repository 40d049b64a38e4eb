import { join } from "node:path";
import { answerOnThreads } from "#compute";
import { parseShop } from "#contract";
import { reportPdf } from "#papers";
import { reportHtml, requireLanguage } from "#report";
import { papersOf, reportAnswer } from "#workflows";
import { readJson, writeWhole } from "./files.ts";
import { knownBeliefs } from "./known.ts";
import { withProgress } from "./progress.ts";
import { onFolder } from "./on-folder.ts";
import { reportByServer } from "./report-by-server.ts";
import type { ReportFlags } from "./report-flags.ts";
import { reportSource } from "./report-source.ts";
import { json } from "./show.ts";
import { day } from "./today.ts";
import { writePapers } from "./write-papers.ts";

/** `report`: the whole answer as PDF and HTML. */
export function reportVerb(flags: ReportFlags): Promise<string> {
  const { data } = flags;
  // What only files or this command line know is worked out here, whoever has the folder.
  if (data === undefined || ownFlags.some((name) => flags[name] !== undefined)) return reportHere(flags);
  return onFolder(data, { server: (door) => reportByServer(door, flags), here: () => reportHere(flags) });
}

const ownFlags = ["library", "known", "wrongGrades", "shop", "json", "trial", "outcomes", "gradings"] as const;

async function reportHere(flags: ReportFlags): Promise<string> {
  const { library, enquiry, evidence, graded, lapse, shop: kept } = await reportSource(flags);
  const shop = parseShop(flags.shop === undefined ? kept : await readJson(flags.shop, "shop"));
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
