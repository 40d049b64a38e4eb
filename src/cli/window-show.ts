import { nextRows, settingLine, stopHeadlines } from "#report";
import type { NextPatch, Recommendation, WindowResult } from "#terms";
import { formatQuantity } from "#units";
import { perHundred } from "#window";
import { learntLines } from "./learnt-lines.ts";

/** A window in sections: what to set, whether to stop, what was learnt and how far it may be trusted. */
export function windowLines(window: WindowResult): string[] {
  const { recommended, stop, learnt } = window;
  // What the stopping rule says stands under its own heading.
  const own = window.words.filter((line) => !stop.words.includes(line));
  // A check that failed is a caveat too: said once, where it warns.
  const checks = learnt.words.filter((line) => !window.caveats.includes(line));
  return [
    ...(recommended ? recommendedLines(recommended, own) : ["No recommendation", ...indented(own)]),
    "",
    ...stopLines(window),
    "",
    ...learntLines(learnt),
    ...(checks.length > 0 ? ["", "Checks", ...indented(checks)] : []),
    "",
    "Notes",
    ...indented([window.diagnostics.priorMatters, ...window.caveats]),
  ];
}

function recommendedLines(r: Recommendation, words: readonly string[]): string[] {
  const rate = formatQuantity(r.areaRate, "m2/h", 2);
  return [
    `Recommended, ${r.proven ? "proven" : "not yet proven"}: ${rate}, burned ${r.repeats} times, ${r.repeatsGood} clean and undamaged`,
    `  ${settingLine(r.setting)}`,
    ...indented(words),
  ];
}

function stopLines({ stop, recommended, diagnostics: d }: WindowResult): string[] {
  const gain =
    stop.expectedGain === null
      ? ""
      : `, expected gain of going on ${Math.max(0, Math.round(100 * stop.expectedGain))} % of the rate`;
  return [
    `Stop: ${stopHeadlines[stop.verdict]}`,
    `  ${d.patches} patches graded, ${d.clean} clean, ${d.damaged} damaged; best setting kept by ${perHundred(stop.bestShare)} versions${gain}`,
    // Beside a recommendation the gain is all that an open verdict says.
    ...indented(stop.words.filter((line) => recommended === null || !line.includes("expected gain"))),
  ];
}

export function nextLines(window: WindowResult): string[] {
  return window.next.length === 0
    ? ["Next patches: none needed by this rule"]
    : patchLines("Next patches", window.next);
}

/** Patches to burn, numbered in their order; equal ones that follow each other stand together. */
export function patchLines(head: string, patches: readonly NextPatch[]): string[] {
  let at = 0;
  return [
    head,
    ...nextRows(patches).flatMap(({ setting, reason, patches: many }) => {
      const from = at + 1;
      at += many;
      return [`  ${from === at ? from : `${from} to ${at}`}. ${settingLine(setting)}`, `     ${reason}`];
    }),
  ];
}

const indented = (lines: readonly string[]): string[] => lines.map((line) => `  ${line}`);
