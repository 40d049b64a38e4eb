import { trialToWire, windowToWire } from "#contract";
import { MODEL_VERSION, nextBatch, partCautions } from "#workflows";
import { type Evaluated, type EvaluateFlags, evaluateFiles } from "./evaluate.ts";
import { carriedNotes } from "./known.ts";
import { readMapAxes } from "./map-axes.ts";
import { mapLines } from "./map-text.ts";
import { remember } from "./remember.ts";
import { cautionLines, json } from "./show.ts";
import { nextLines, windowLines } from "./window-show.ts";
import { type Sheets, writeSheets } from "./write-sheets.ts";

export interface WindowFlags extends EvaluateFlags {
  readonly map?: string;
  /** folder for the trial with the next patches laid out and their sheets */
  readonly sheets?: string;
  /** data folder that keeps what the trial taught */
  readonly remember?: string;
}

/** The next patches on further coupons of the same trial, with their sheets. */
async function layOut(folder: string, { model, setup, trial, part, enquiry, evaluation }: Evaluated): Promise<Sheets> {
  const { next } = evaluation.result;
  const later = nextBatch(model, setup, trial, next, { seed: trial.seed });
  const cautions = partCautions(part, setup, next[0]?.setting ?? null);
  return writeSheets(
    folder,
    later,
    setup,
    part,
    cautions,
    trialToWire(later, cautions),
    { customer: enquiry.customer, invented: enquiry.invented },
    trial.coupons.length + 1,
  );
}

/** `window` and `next`: outcomes and physics joined. */
export async function windowVerb(flags: WindowFlags, focus: "window" | "next"): Promise<string> {
  const { map } = flags;
  const found = await evaluateFiles(flags, map === undefined ? undefined : (setup) => readMapAxes(map, setup));
  const { part, setup, trial, recorded, model, evaluation, kept } = found;
  const { result } = evaluation;
  // The window says itself what was carried; only that nothing was has to be added.
  const window = { ...result, caveats: [...new Set([...result.caveats, ...carriedNotes(flags.known, model)])] };
  const remembered = flags.remember === undefined ? null : await remember(flags.remember, flags.enquiry, found);
  const batch = flags.sheets === undefined ? null : await layOut(flags.sheets, found);
  const shown = window.recommended?.setting ?? window.next[0]?.setting ?? null;
  const cautions = partCautions(part, setup, shown);
  if (flags.json)
    return json(windowToWire(window, { laser: setup.id, trial: trial.id, modelVersion: MODEL_VERSION }, cautions));
  const refused = recorded.refused.map((r) => `refused line ${r.line}: ${r.message}`);
  return [
    `${part.name} with ${setup.name}, trial ${trial.id}`,
    ...refused,
    "",
    ...(focus === "next" ? [] : [...windowLines(window), ""]),
    ...(map !== undefined && window.map ? [...mapLines(window.map), ""] : []),
    ...nextLines(window),
    "",
    ...(batch === null ? [] : [...batch.words, ...batch.files.map((f) => `wrote ${f}`), ""]),
    ...cautionLines(cautions),
    ...(remembered === null ? [] : ["", remembered]),
    ...(kept === null ? [] : ["", `Edges kept in ${kept}, so that the next look is quick; the file may be deleted`]),
  ].join("\n");
}
