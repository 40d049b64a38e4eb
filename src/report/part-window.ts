import type { MapMark, OutcomeState } from "#drawing";
import type { DriftSpread, PartAnswer, WindowResult } from "#terms";
import { formatNumber } from "#units";
import { driftSentence, furtherCaveats, learntRows, nextRows, stopHeadlines } from "./learnt-rows.ts";
import { placeOnMap } from "./map-axis.ts";
import type { Block, Column } from "./model.ts";
import { settingLine } from "./setting-rows.ts";
import { chance } from "./wording.ts";

type Run = PartAnswer["trials"][number];

export interface WindowPart {
  readonly partId: string;
  readonly run: Run;
  /** what was seen, by patch number */
  readonly seen: Readonly<Record<number, OutcomeState>>;
  readonly drift: DriftSpread;
  readonly cautions: readonly string[];
}

/** Whether the trial may end, the map, what was pinned down, how far the fit may be trusted, what to burn next. */
export function windowBlocks({ partId, run, seen, drift, cautions }: WindowPart): Block[] {
  const { window, trial } = run;
  if (window === null) return [{ kind: "text", words: "No window has been worked out yet: outcomes are missing." }];
  const { stop, learnt } = window;
  const blocks: Block[] = [
    { kind: "text", words: stopHeadlines[stop.verdict] },
    { kind: "list", items: unique([...stop.words, ...window.words]) },
  ];
  if (window.map !== null) {
    const placed = placeOnMap(window.map, trial, window.recommended?.setting ?? null);
    const held = window.recommended === null ? "likeliest" : "recommended";
    blocks.push({
      kind: "figure",
      id: `${partId}-${trial.id}-map`,
      caption: `Chance that the next patch is clean and undamaged, the other values held at those of the ${held} setting. Patches are marked where these two of their values lie; what they show may come from the others.`,
      drawing: {
        kind: "window-map",
        map: placed.map,
        marks: placed.points.map((at): MapMark => ({ ...at, state: seen[at.patch] ?? "unknown" })),
        recommended: placed.recommended,
      },
    });
  }
  blocks.push({ kind: "text", words: driftSentence(drift) });
  if (learnt.pinned.length > 0) blocks.push(pinnedTable(window));
  if (learnt.words.length > 0)
    blocks.push({ kind: "text", words: "Checks of the fit:" }, { kind: "list", items: unique(learnt.words) });
  blocks.push({ kind: "facts", rows: fitFacts(window) });
  const caveats = furtherCaveats(window);
  if (caveats.length > 0)
    blocks.push({ kind: "text", words: "To be borne in mind:" }, { kind: "list", items: caveats });
  if (window.next.length > 0) blocks.push(nextTable(window.next, cautions));
  return blocks;
}

function pinnedTable({ learnt, recommended }: WindowResult): Block {
  const columns: Column[] = [
    { name: "quantity", align: "left", share: 40 },
    { name: "before the patches", align: "left", share: 24 },
    { name: "after the patches", align: "left", share: 23 },
    { name: "spread left", align: "right", share: 13 },
  ];
  const at = recommended === null ? "likeliest" : "recommended";
  return {
    kind: "table",
    caption: `What the patches pin down at the ${at} setting: median, with 90 of 100 versions of the physics in brackets`,
    columns,
    rows: learntRows(learnt.pinned).map((row) => [row.name, row.before, row.after, row.left]),
    cautions: [],
  };
}

function fitFacts({ diagnostics: d }: WindowResult) {
  return [
    { name: "patches", value: String(d.patches), note: `${d.clean} clean, ${d.damaged} damaged` },
    {
      name: "populations agree (R-hat)",
      value: formatNumber(d.rHat, 4),
      note: `effective draws ${Math.round(d.effectiveSampleSize)}`,
    },
    {
      name: "Brier score",
      value: `${formatNumber(d.brierClean, 2)} clean, ${formatNumber(d.brierUndamaged, 2)} undamaged`,
      note: "0 is perfect, 0.25 is a coin",
    },
    { name: "influence of the prior", value: d.priorMatters },
  ];
}

function nextTable(next: WindowResult["next"], cautions: readonly string[]): Block {
  const columns: Column[] = [
    { name: "patches", align: "right", share: 9 },
    { name: "setting", align: "left", share: 39 },
    { name: "clean", align: "right", share: 13 },
    { name: "undamaged", align: "right", share: 13 },
    { name: "why", align: "left", share: 26 },
  ];
  const rows = nextRows(next).map((n) => [
    String(n.patches),
    settingLine(n.setting),
    chance(n.probabilityClean),
    chance(n.probabilityUndamaged),
    n.reason,
  ]);
  return { kind: "table", caption: "Patches to burn next", columns, rows, cautions };
}

const unique = (lines: readonly string[]): string[] => [...new Set(lines)];
