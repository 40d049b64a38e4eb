import { transferToWire } from "#contract";
import { settingLine } from "#report";
import type { LaserSetup } from "#terms";
import { formatQuantity, invalid } from "#units";
import { perHundred } from "#window";
import { MODEL_VERSION, partCautions, type Transfer, transferWindow } from "#workflows";
import { type EvaluateFlags, type Evaluated, evaluateFiles, looksFor } from "./evaluate.ts";
import { carriedNotes } from "./known.ts";
import { loadLibrary } from "./load.ts";
import { progressLine } from "./progress.ts";
import { cautionLines, json } from "./show.ts";
import { patchLines } from "./window-show.ts";

export interface TransferFlags extends Omit<EvaluateFlags, "enquiry"> {
  readonly enquiry?: string;
  readonly laser: string;
  readonly lens?: string;
}

/** `transfer`: what a trial on one set-up says of another, and the patches that verify it there. */
export async function transferVerb(given: string | undefined, flags: TransferFlags): Promise<string> {
  if (given !== undefined && flags.enquiry !== undefined)
    invalid("enquiry", given, "", "either as the first word or by --enquiry, not both");
  const enquiry = given ?? flags.enquiry ?? invalid("enquiry", "missing", "", "the enquiry file of the trial");
  // Refused before the long work.
  const to = (await loadLibrary(flags.library)).setup(flags.laser);
  if (flags.lens !== undefined && !to.lenses.some((l) => l.id === flags.lens))
    invalid("lens", flags.lens, "", `${to.id} has ${to.lenses.map((l) => l.id).join(", ")}`);
  const found = await evaluateFiles({ ...flags, enquiry });
  const carried = carryOver(found, to, flags);
  const { part, setup, trial, recorded, model } = found;
  const shown = carried.setting ?? carried.verification[0]?.setting ?? null;
  const cautions = partCautions(part, to, shown);
  const caveats = [...carriedNotes(flags.known, model)];
  if (recorded.accepted.length === 0)
    caveats.push("Nothing was graded on the trial: all of this is physics and its spreads.");
  if (flags.json) {
    const about = { trial: trial.id, from: setup.id, laser: to.id, lens: flags.lens ?? null };
    return json(transferToWire({ ...about, ...carried, caveats, modelVersion: MODEL_VERSION }, cautions));
  }
  return [
    `${part.name}: trial ${trial.id} on ${setup.name}, carried to ${to.name}`,
    ...recorded.refused.map((r) => `refused line ${r.line}: ${r.message}`),
    "",
    ...settingLines(carried),
    ...[...carried.words, ...caveats].map((line) => `  ${line}`),
    "",
    ...patchLines("Patches that verify it there, in this order", carried.verification),
    "",
    ...cautionLines(cautions),
    ...(found.kept === null ? [] : ["", `Edges kept in ${found.kept}; the file may be deleted`]),
  ].join("\n");
}

function carryOver({ part, setup, evaluation }: Evaluated, to: LaserSetup, flags: TransferFlags): Transfer {
  const progress = progressLine(flags);
  try {
    return transferWindow(evaluation, setup, to, {
      seed: flags.seed,
      ...(flags.rays === undefined ? {} : { rays: flags.rays }),
      ...looksFor(flags.rays),
      ...(flags.lens === undefined ? {} : { lens: flags.lens }),
      onProgress: (done, of) => progress.say(`${part.name}, ${to.name}: edges of setting ${done} of ${of}`),
    });
  } finally {
    progress.clear();
  }
}

function settingLines({ setting, areaRate, share }: Transfer): string[] {
  if (setting === null) return ["No setting to promise"];
  const rate = formatQuantity(areaRate, "m2/h", 2);
  return [`Setting to verify: ${rate}, kept by ${perHundred(share)} versions so widened`, `  ${settingLine(setting)}`];
}
