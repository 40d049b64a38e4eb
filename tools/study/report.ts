import { writeFileSync } from "node:fs";
import { percent, plain, reachedText } from "./goals.ts";
import type { Figures, GroupFigures, PlannerScore, StudyScore } from "./scoring.ts";
import { definitions, howMade, limits, repeating } from "./report-text.ts";

export interface StudyRun {
  /** invented worlds in the run */
  readonly truths: number;
  /** s that this run took, null where it is not known */
  readonly seconds: number | null;
  /** where the page goes */
  readonly file: string;
}

/** Writes the page of the study. */
export function writeStudyReport(score: StudyScore, run: StudyRun): void {
  writeFileSync(run.file, studyReport(score, run));
}

type Shares = { [K in keyof Figures]: K extends `${infer S}_interval` ? S : never }[keyof Figures];

/** "96.2 (94.8-97.3)", per cent. */
function shown(figures: Figures, key: Shares): string {
  const value = figures[key];
  const interval = figures[`${key}_interval`];
  if (value === null || interval === null) return "-";
  const digits = (v: number) => (100 * v).toFixed(1);
  return `${digits(value)} (${digits(interval[0])}-${digits(interval[1])})`;
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const row = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [row(head), `|${"---|".repeat(head.length)}`, ...rows.map(row)];
}

/** The page as Markdown; the same score gives the same page. */
export function studyReport(score: StudyScore, run: Omit<StudyRun, "file">): string {
  const scores = score.json;
  const own = scores.find((s) => s.planner === "physics-guided");
  const sections: readonly (readonly string[])[] = [
    ["# How many patches a trial needs: a study on invented plates"],
    [
      `Written by \`npm run study\`. Truths: ${run.truths}; planners: ${score.planners.length}${run.seconds === null ? "" : `; time taken: ${run.seconds} s`}.`,
    ],
    howMade,
    ["## What the figures mean"],
    definitions,
    ["## Planners", "", "Shares in per cent; in brackets the 95 % interval (Wilson)."],
    stops(scores),
    answers(scores),
    early(scores),
    coverage(scores),
    ...(own === undefined ? [] : goals(score)),
    ...(own === undefined ? [] : groups("kind of truth", own.by_kind)),
    ...(own === undefined ? [] : groups("scenario", own.by_scenario)),
    ...reliability(scores),
    ["## Limits"],
    limits,
    ["## How to repeat"],
    repeating,
  ];
  return `${sections.map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

function stops(scores: readonly PlannerScore[]): string[] {
  return table(
    ["planner", "cases", "stopped", "median patches", "p90 patches", "wrong", "wrong below (95 %)"],
    scores.map((s) => [
      s.planner,
      String(s.cases),
      shown(s, "stopped_share"),
      plain(s.median_patches),
      plain(s.p90_patches),
      shown(s, "wrong_share"),
      percent(s.wrong_upper95),
    ]),
  );
}

function answers(scores: readonly PlannerScore[]): string[] {
  return table(
    ["planner", "good, within 25 %", "nothing works: found", "said falsely", "chance below 0.8"],
    scores.map((s) => [
      s.planner,
      shown(s, "within25_share"),
      shown(s, "nothing_works_found"),
      shown(s, "nothing_works_false"),
      shown(s, "wrong_share_at_0_8"),
    ]),
  );
}

function early(scores: readonly PlannerScore[]): string[] {
  return table(
    ["planner", "good at 12", "and within 25 %", "good at 24", "and within 25 %"],
    scores.map((s) => [
      s.planner,
      shown(s, "good_at12"),
      shown(s, "good25_at12"),
      shown(s, "good_at24"),
      shown(s, "good25_at24"),
    ]),
  );
}

function coverage(scores: readonly PlannerScore[]): string[] {
  return table(
    ["planner", "edges in their 90 % interval", "edge of clean", "edge of damage"],
    scores.map((s) => [s.planner, shown(s, "coverage90"), shown(s, "coverage90_clean"), shown(s, "coverage90_damage")]),
  );
}

function goals({ goals: all }: StudyScore): string[][] {
  const missed = all.filter((g) => g.reached === false);
  return [
    ["## What the physics-guided planner must reach"],
    table(
      ["what", "wanted", "found", ""],
      all.map((g) => [g.what, g.wanted, g.got, reachedText(g.reached)]),
    ),
    [`Missed: ${missed.length} of ${all.filter((g) => g.reached !== null).length} that this run can tell.`],
  ];
}

/** The core figures of the physics-guided planner over parts of the worlds, in two tables for their width. */
function groups(name: string, parts: readonly GroupFigures[]): string[][] {
  return [
    [`## By ${name}, physics-guided`],
    table(
      [name, "cases", "stopped", "median", "p90", "wrong"],
      parts.map((g) => [
        g.group,
        String(g.cases),
        shown(g, "stopped_share"),
        plain(g.median_patches),
        plain(g.p90_patches),
        shown(g, "wrong_share"),
      ]),
    ),
    table(
      [name, "within 25 %", "none found", "falsely", "coverage"],
      parts.map((g) => [
        g.group,
        shown(g, "within25_share"),
        percent(g.nothing_works_found),
        percent(g.nothing_works_false),
        shown(g, "coverage90"),
      ]),
    ),
  ];
}

function reliability(scores: readonly PlannerScore[]): string[][] {
  const text = (value: number | null) => (value === null ? "-" : value.toFixed(2));
  const bins = scores[0]?.reliability ?? [];
  return [
    [
      "## Stated against true chance",
      "",
      "Mean stated chance, mean true chance and number of settings, of settings sampled at the stop without sight of the truth.",
    ],
    table(
      ["stated", ...scores.map((s) => s.planner)],
      bins.map(({ from, to }, k) => [
        `${from.toFixed(1)}-${to.toFixed(1)}`,
        ...scores.map(({ reliability: own }) => {
          const bin = own[k]!;
          return bin.n === 0 ? "-" : `${text(bin.mean_stated)}, ${text(bin.mean_true)} (${bin.n})`;
        }),
      ]),
    ),
  ];
}
