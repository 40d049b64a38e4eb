import { buildReport, driftSentence, learntRows, type ReportInput, stopHeadlines } from "#report";
import type { PlannedPatch, WindowResult } from "#terms";
import { productionDrift } from "#window";
import { describe, expect, it } from "vitest";
import { answer, reportInput } from "./fixture.ts";
import { windowResult } from "./fixture-trial.ts";
import { allBlocks, allText } from "./walk.ts";

const [first] = answer.parts;
const run = first!.trials[0]!;

function sectionOf(window: WindowResult, more: Partial<ReportInput> = {}) {
  const parts = [{ ...first!, trials: [{ ...run, window }] }];
  const model = buildReport({ ...reportInput, ...more, answer: { ...answer, parts } });
  return model.details.find((s) => s.id === "hatch-covers-window-0")!;
}

const texts = (window: WindowResult, more?: Partial<ReportInput>) =>
  sectionOf(window, more).blocks.flatMap((b) => (b.kind === "figure" ? [b.caption] : allText(b)));

describe("window of a trial in the report", () => {
  it("says first whether the trial may end, then why, each sentence once", () => {
    const [head, why] = sectionOf({
      ...windowResult,
      words: [...windowResult.words, ...windowResult.stop.words],
    }).blocks;
    expect(head).toEqual({ kind: "text", words: "The trial is not finished: more patches are worth burning." });
    expect(why).toEqual({
      kind: "list",
      items: ["A faster setting may exist: expected gain 12 %.", "Clean needs level over root speed above 0.42."],
    });
    for (const verdict of ["recommend", "nothing found"] as const) {
      const stop = { ...windowResult.stop, verdict };
      expect(texts({ ...windowResult, stop })[1]).toBe(stopHeadlines[verdict]);
    }
    expect(stopHeadlines["nothing found"]).toContain("no window found among the settings tried");
  });

  it("tables what was pinned down, before and after, with 90 % ranges, units and the spread left", () => {
    const table = sectionOf(windowResult).blocks.find((b) => b.kind === "table" && b.caption.includes("pin down"))!;
    if (table.kind !== "table") throw new Error("no table");
    expect(table.rows).toEqual([
      ["peak fluence from which the layer is off", "2 J/cm² (1 to 4)", "2.1 J/cm² (1.8 to 2.4)", "20 %"],
      ["damage edge over removal edge", "1.9 (1.1 to 3.3)", "1.85 (1.12 to 3.2)", "all of it"],
    ]);
    expect(table.caption).toContain("at the recommended setting");
    expect(table.caption).toContain("90 of 100");
  });

  it("names the likeliest setting where none is recommended", () => {
    const none = texts({ ...windowResult, recommended: null }).join("\n");
    expect(none).toContain("pin down at the likeliest setting");
    expect(none).toContain("held at those of the likeliest setting");
    expect(none).not.toMatch(/recommended setting/);
  });

  it("states the drift with its numbers and keeps the scatter of coupons apart, once", () => {
    const said = texts(windowResult);
    expect(said).toContain(driftSentence(productionDrift));
    expect(driftSentence(productionDrift)).toContain("±4 % power, ±4 % spot, ±2 % speed and ±10 % layer thickness");
    expect(said.filter((t) => /scatter from coupon to coupon/i.test(t))).toHaveLength(1);
    const wide = { power: 0.03, spot: 0.015, speed: 0.01, thickness: 0.1 };
    expect(texts(windowResult, { drift: wide }).join(" ")).toContain(
      "±6 % power, ±3 % spot, ±2 % speed and ±20 % layer",
    );
  });

  it("says how the fit was checked, and nothing of it twice", () => {
    const odd = "Patch 7 came out damaged, which the others gave 1 of 100: look at it again, or burn it once more.";
    const learnt = { ...windowResult.learnt, words: [...windowResult.learnt.words, odd] };
    const said = texts({ ...windowResult, learnt, caveats: [...windowResult.caveats, odd] });
    expect(said).toContain("Checks of the fit:");
    expect(said).toContain(windowResult.learnt.words[0]);
    expect(said.filter((t) => t === odd)).toHaveLength(1);
    expect(said).toContain("Coupons were flat; the rims were not tried.");
  });

  it("draws the conservative window on the map of the report", () => {
    const figure = sectionOf(windowResult).blocks.find((b) => b.kind === "figure")!;
    if (figure.kind !== "figure" || figure.drawing.kind !== "window-map") throw new Error("no map");
    expect(figure.drawing.map.conservative).toEqual(windowResult.map!.conservative);
  });

  it("counts patches to burn next that are the same", () => {
    const [one] = windowResult.next;
    const other = { ...one!, setting: { ...one!.setting, speed: 2 } };
    const table = sectionOf({ ...windowResult, next: [one!, other, one!, one!] }).blocks.at(-1)!;
    if (table.kind !== "table") throw new Error("no table");
    expect(table.rows.map((r) => r[0])).toEqual(["3", "1"]);
    expect(table.rows[1]![1]).toContain("scan speed 2000 mm/s");
    expect(table.cautions.length).toBeGreaterThan(2);
  });

  it("leaves out the table and the checks where nothing was learnt", () => {
    const bare = { pinned: [], properties: [], shifts: [], words: [] };
    const said = texts({ ...windowResult, learnt: bare, caveats: [] }).join("\n");
    expect(said).not.toMatch(/pin down|Checks of the fit|borne in mind/);
  });

  it("refuses a pinned number that is not finite", () => {
    const [one] = windowResult.learnt.pinned;
    const broken = { ...one!, posterior: { ...one!.posterior, high: Number.NaN } };
    expect(() => learntRows([broken])).toThrow("invalid learnt number: not a number J/cm² (must be a finite number)");
    expect(() => learntRows([{ ...one!, spreadLeft: Number.NaN }])).toThrow("invalid spread left");
  });

  it.each([
    [0.004, "below 1 %"],
    [0.204, "20 %"],
    [0.994, "99 %"],
    [0.995, "all of it"],
    [1.3, "all of it"],
  ])("reads a spread left of %s as %s", (spreadLeft, text) => {
    expect(learntRows([{ ...windowResult.learnt.pinned[0]!, spreadLeft }])[0]!.left).toBe(text);
  });
});

describe("waits between patches in the report", () => {
  const spacing = {
    gap: 5.5e-3,
    gapNeeded: null,
    wait: 39.2,
    limit: 15,
    warmest: 14,
    couponRise: 9,
    words: "Patches lie 5.5 mm apart; wait up to 40 s.",
  };
  const patchTable = (patches: readonly PlannedPatch[], reasons = run.trial.reasons) => {
    const trial = { ...run.trial, patches, reasons, spacing };
    const parts = [{ ...first!, trials: [{ ...run, trial }] }];
    const blocks = allBlocks(buildReport({ ...reportInput, answer: { ...answer, parts } }));
    const table = blocks.find((b) => b.kind === "table" && b.caption.startsWith("Patches: "))!;
    if (table.kind !== "table") throw new Error("no table");
    const said = allText(blocks.filter((b) => b.kind !== "figure")).filter((t) => t === spacing.words);
    return { table, said: said.length };
  };

  it("stand in a column of their own, rounded up, and only where somebody has to wait", () => {
    const waiting = run.trial.patches.map((p) => (p.setting === null ? p : { ...p, wait: p.patch === 1 ? 39.2 : 0 }));
    const { table } = patchTable(waiting);
    expect(table.columns.map((c) => c.name)).toContain("wait");
    expect(table.rows[0]!.slice(0, 3)).toEqual(["1", "8", "40 s"]);
    expect(table.rows[1]![2]).toBe("–");
    for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
    expect(table.caption).toContain("wait so long after the burn before");
    expect(patchTable(run.trial.patches).table.columns.map((c) => c.name)).not.toContain("wait");
  });

  it("are said in words once, whether or not the reasons hold them", () => {
    expect(patchTable(run.trial.patches).said).toBe(1);
    expect(patchTable(run.trial.patches, [...run.trial.reasons, spacing.words]).said).toBe(1);
  });
});
