import { existsSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { answerOnThreads } from "#compute";
import { answerToWire, parseEnquiry, exampleShop } from "#contract";
import { couponPlans } from "#grading";
import { createLibrary, type Library } from "#library";
import { reportPdf } from "#papers";
import { choose, reportHtml } from "#report";
import { exampleTrials, loadExample } from "#server";
import type { Enquiry, EnquiryAnswer, LaserSetup, PartAnswer, Trial } from "#terms";
import { formatQuantity, invalid } from "#units";
import { papersOf, partCautions, reportAnswer, type TrialEvidence } from "#workflows";
import { surveyLines } from "./compare.ts";
import { readJson, writeWhole } from "./files.ts";
import { gradePhotos } from "./grade-photos.ts";
import { gradedFigures, type GradingFile } from "./gradings.ts";
import { loadOutcomes, loadTrial, partOf } from "./load.ts";
import { listPhotos } from "./photo-list.ts";
import { progressLine, type SweepFlags, withProgress } from "./progress.ts";
import { cautionLines, json } from "./show.ts";
import { day } from "./today.ts";
import { windowLines } from "./window-show.ts";
import { withStore } from "./with-store.ts";
import { writePapers } from "./write-papers.ts";

export interface JobFlags extends SweepFlags {
  readonly out: string;
  readonly draws: number;
  readonly date?: string;
}

/** The seed of the physics that the pages and the server use too, so that two looks at the example agree. */
const SEED = 1;

/** The examples lie beside the package, whether it runs from source or from dist. */
export function exampleFolder(): string {
  let folder = fileURLToPath(new URL(".", import.meta.url));
  while (!existsSync(join(folder, "examples", "enquiry.json"))) {
    const above = join(folder, "..");
    if (above === folder) return invalid("examples", folder, "", "the folder of the example is missing");
    folder = above;
  }
  return join(folder, "examples");
}

/** `job`: the example from enquiry to report. */
export async function jobVerb(flags: JobFlags): Promise<string> {
  const folder = exampleFolder();
  const library = createLibrary([]);
  const enquiry = parseEnquiry(await readJson(join(folder, "enquiry.json"), "enquiry"), library);
  const evidence: TrialEvidence[] = [];
  for (const name of exampleTrials) {
    const trial = await loadTrial(join(folder, `${name}.trial.json`));
    evidence.push({
      trial,
      outcomes: (await loadOutcomes(join(folder, `${name}.outcomes.csv`), trial, partOf(enquiry, trial))).accepted,
    });
  }
  const answer = await withProgress(flags, (run) =>
    answerOnThreads(enquiry, { seed: SEED, drawCount: flags.draws, setups: library.setups, trials: evidence }, run),
  );
  const gradings = await exampleGradings(folder, evidence[0]!.trial, enquiry, library, flags);
  const dateText = day(flags.date);
  const model = reportAnswer(answer, {
    setups: library.setups,
    dateText,
    documentId: `${enquiry.id}-${dateText}`,
    approver: null,
    shop: exampleShop(),
    graded: gradedFigures(
      gradings,
      evidence.map((e) => e.trial),
    ),
  });
  const files = [join(flags.out, "report.html"), join(flags.out, "report.pdf")];
  await writeWhole(files[0], reportHtml(model));
  await writeWhole(files[1], await reportPdf(model));
  const papers = papersOf(answer, {
    setups: library.setups,
    language: "en",
    revision: "1",
    dateText,
    approver: null,
    validUntil: null,
  });
  files.push(...(await writePapers(join(flags.out, "papers"), enquiry.id, papers)));
  const wire = answerToWire(
    answer,
    (partId) => (id) => partCautions(enquiry.parts.find((p) => p.id === partId) ?? enquiry.parts[0], library.setup(id)),
  );
  await keep(join(flags.out, "data"), folder, answer, wire);
  if (flags.json) return json(wire);
  return [
    enquiry.title,
    enquiry.invented ? "(an invented example)" : "",
    ...answer.parts.flatMap((p) => partLines(p)),
    "",
    ...cautionLines(allCautions(answer, library.setup)),
    "",
    ...files.map((f) => `wrote ${f}`),
  ].join("\n");
}

/** The photographs of the example's first coupon, generated and marked as invented, read as anybody's would be. */
async function exampleGradings(
  folder: string,
  trial: Trial,
  enquiry: Enquiry,
  library: Library,
  flags: JobFlags,
): Promise<readonly GradingFile[]> {
  const part = partOf(enquiry, trial);
  const progress = progressLine(flags);
  const { gradings } = await gradePhotos({
    trial,
    part,
    plans: couponPlans(trial),
    printScale: 1,
    files: await listPhotos([join(folder, "photos", `${exampleTrials[0]}.coupon-1`)]),
    rulings: [],
    cautions: partCautions(part, library.setup(trial.setupId)),
    say: progress.say,
    keep: async () => {},
  }).finally(progress.clear);
  return gradings;
}

/** Keeps the example and its answer in a data folder, as the server would. */
async function keep(folder: string, examples: string, answer: EnquiryAnswer, wire: unknown): Promise<void> {
  await withStore(folder, async (store) => {
    const id = await loadExample(store, examples);
    await store.write(async (tx) => {
      const enquiry = await tx.latest("enquiry", id);
      await tx.addAnswer({
        enquiry: id,
        enquiryVersion: enquiry?.version ?? 1,
        shape: "answer",
        modelVersion: answer.modelVersion,
        inputs: { seed: answer.seed, drawCount: answer.drawCount },
        result: wire,
      });
    });
  });
}

/** Cautions of every part's chosen set-up, each once. */
function allCautions(answer: EnquiryAnswer, setupOf: (id: string) => LaserSetup): string[] {
  const lines = answer.parts.flatMap((p) => {
    const id = choose(p).setupId ?? p.verdicts[0]?.setupId;
    return id === undefined ? [] : partCautions(p.part, setupOf(id));
  });
  return [...new Set(lines)];
}

function partLines(part: PartAnswer): string[] {
  const chosen = choose(part);
  const lines = ["", `== ${part.part.name}`, chosen.words];
  if (chosen.setupName) lines.push(`${chosen.setupName} at ${formatQuantity(chosen.areaRate, "m2/h", 2)}`);
  for (const { trial, outcomes, window } of part.trials) {
    lines.push("", `trial ${trial.id}: ${outcomes.length} patches graded`);
    if (window) lines.push(...windowLines(window).map((l) => (l === "" ? "" : `  ${l}`)));
  }
  return [...lines, "", ...surveyLines(part.triage, part.verdicts, part.comparison, part.advice)];
}
