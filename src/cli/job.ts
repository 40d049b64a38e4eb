import { existsSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { answerToWire, outcomeToWire, parseEnquiry, parseEnquiryFile, trialToWire } from "#contract";
import { exampleCostInputs } from "#cost";
import { createLibrary } from "#library";
import { reportPdf } from "#papers";
import { choose, reportHtml } from "#report";
import { exampleTrials } from "#server";
import type { EnquiryAnswer, LaserSetup, PartAnswer } from "#terms";
import { formatQuantity } from "#units";
import { answerEnquiry, partCautions, reportAnswer, type TrialEvidence } from "#workflows";
import { surveyLines } from "./compare.ts";
import { readJson, readText, writeWhole } from "./files.ts";
import { loadOutcomes, loadTrial, partOf } from "./load.ts";
import { cautionLines, json } from "./show.ts";
import { day } from "./today.ts";
import { windowLines } from "./window.ts";
import { withStore } from "./with-store.ts";

export interface JobFlags {
  readonly out: string;
  readonly draws: number;
  readonly date?: string;
  readonly json?: boolean;
}

/** The examples lie beside the package, whether it runs from source or from dist. */
export function exampleFolder(): string {
  let folder = fileURLToPath(new URL(".", import.meta.url));
  while (!existsSync(join(folder, "examples", "enquiry.json"))) folder = join(folder, "..");
  return join(folder, "examples");
}

/** `job`: the example from enquiry to report. */
export async function jobVerb(flags: JobFlags): Promise<string> {
  const folder = exampleFolder();
  const library = createLibrary([]);
  const file = await readJson(join(folder, "enquiry.json"), "enquiry");
  const enquiry = parseEnquiry(file, library);
  const evidence: TrialEvidence[] = [];
  for (const name of exampleTrials) {
    const trial = await loadTrial(join(folder, `${name}.trial.json`));
    evidence.push({
      trial,
      outcomes: (await loadOutcomes(join(folder, `${name}.outcomes.csv`), trial, partOf(enquiry, trial))).accepted,
    });
  }
  const seed = exampleSeed(await readText(join(folder, "README.md"), "example notes"));
  const answer = answerEnquiry(enquiry, { seed, drawCount: flags.draws, setups: library.setups, trials: evidence });
  const dateText = day(flags.date);
  const model = reportAnswer(answer, {
    setups: library.setups,
    dateText,
    documentId: `${enquiry.id}-${dateText}`,
    approver: null,
    costInputs: exampleCostInputs,
  });
  const files = [join(flags.out, "report.html"), join(flags.out, "report.pdf")];
  await writeWhole(files[0], reportHtml(model));
  await writeWhole(files[1], await reportPdf(model));
  const wire = answerToWire(
    answer,
    (partId) => (id) => partCautions(enquiry.parts.find((p) => p.id === partId) ?? enquiry.parts[0], library.setup(id)),
  );
  await keep(join(flags.out, "data"), file, answer, wire, evidence);
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

/** The seed is written down beside the example's data, once. */
function exampleSeed(notes: string): number {
  return Number(/seed of the physics: (\d+)/.exec(notes)?.[1] ?? 1);
}

async function keep(
  folder: string,
  file: unknown,
  answer: EnquiryAnswer,
  wire: unknown,
  evidence: readonly TrialEvidence[],
): Promise<void> {
  await withStore(folder, (store) =>
    store.write(async (tx) => {
      const saved = await tx.put("enquiry", parseEnquiryFile(file));
      for (const { trial, outcomes } of evidence) {
        if ((await tx.latest("trial", trial.id)) !== null) continue;
        await tx.put(
          "trial",
          trialToWire(trial, ["Class 4 laser work: local law and the laser safety officer decide."]),
        );
        await tx.addOutcomes(trial.id, outcomes.map(outcomeToWire));
      }
      await tx.addAnswer({
        enquiry: answer.enquiry.id,
        enquiryVersion: saved.version,
        shape: "answer",
        modelVersion: answer.modelVersion,
        inputs: { seed: answer.seed, drawCount: answer.drawCount },
        result: wire,
      });
    }),
  );
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
    if (window) lines.push(...windowLines(window).map((l) => `  ${l}`));
  }
  return [...lines, "", ...surveyLines(part.triage, part.verdicts, part.comparison, part.advice)];
}
