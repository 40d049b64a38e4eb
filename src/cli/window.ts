import { parseEnquiry, windowToWire } from "#contract";
import { settingLine } from "#report";
import type { WindowResult } from "#terms";
import { formatQuantity } from "#units";
import { evaluateWindow, MODEL_VERSION, partCautions } from "#workflows";
import { readJson } from "./files.ts";
import { carriedNotes, knownBeliefs } from "./known.ts";
import { loadLibrary, loadOutcomes, loadTrial, modelOf, partOf, type PhysicsFlags } from "./load.ts";
import { cautionLines, json } from "./show.ts";

export interface WindowFlags extends PhysicsFlags {
  readonly trial: string;
  readonly outcomes: string;
  readonly json?: boolean;
}

/** `window` and `next`: outcomes and physics joined. */
export async function windowVerb(flags: WindowFlags, focus: "window" | "next"): Promise<string> {
  const library = await loadLibrary(flags.library);
  const enquiry = parseEnquiry(await readJson(flags.enquiry, "enquiry"), library);
  const trial = await loadTrial(flags.trial);
  const part = partOf(enquiry, trial);
  const setup = library.setup(trial.setupId);
  const recorded = await loadOutcomes(flags.outcomes, trial, part);
  const model = modelOf(part, flags, await knownBeliefs(flags.known, [trial.id]));
  const found = evaluateWindow(model, setup, trial, recorded.accepted, { seed: flags.seed });
  // The window says itself what was carried; only that nothing was has to be added.
  const window = { ...found, caveats: [...new Set([...found.caveats, ...carriedNotes(flags.known, model)])] };
  const cautions = partCautions(part, setup, window.recommended?.setting ?? null);
  if (flags.json)
    return json(windowToWire(window, { laser: setup.id, trial: trial.id, modelVersion: MODEL_VERSION }, cautions));
  const refused = recorded.refused.map((r) => `refused line ${r.line}: ${r.message}`);
  const lines = focus === "next" ? nextLines(window) : [...windowLines(window), "", ...nextLines(window)];
  return [
    `${part.name} with ${setup.name}, trial ${trial.id}`,
    ...refused,
    ...lines,
    "",
    ...cautionLines(cautions),
  ].join("\n");
}

export function windowLines(window: WindowResult): string[] {
  const { recommended: r } = window;
  const lines = [...window.words];
  if (r) {
    lines.unshift(
      `recommended: ${settingLine(r.setting)}`,
      `area rate ${formatQuantity(r.areaRate, "m2/h", 2)}, ${r.proven ? "proven" : "not yet proven"} (burned ${r.repeats} times, ${r.repeatsGood} clean and undamaged)`,
    );
  }
  return [...lines, ...window.caveats.map((c) => `note: ${c}`)];
}

function nextLines(window: WindowResult): string[] {
  if (window.next.length === 0) return ["next patches: none needed by this rule"];
  return ["next patches", ...window.next.map((n, i) => `  ${i + 1}. ${settingLine(n.setting)} — ${n.reason}`)];
}
