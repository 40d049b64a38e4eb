import { buildReport, type Block, type ReportModel } from "#report";
import type { WindowResult } from "#terms";
import { describe, expect, it } from "vitest";
import { answer, reportInput } from "./fixture.ts";
import { pulsedSetting } from "./fixture-verdicts.ts";
import { allBlocks, allText } from "./walk.ts";

const model = buildReport(reportInput);
const answers = (m: ReportModel) => allBlocks(m).filter((b) => b.kind === "answer");
const ofKind = <K extends Block["kind"]>(m: ReportModel, kind: K) =>
  allBlocks(m).filter((b): b is Extract<Block, { kind: K }> => b.kind === kind);
const withParts = (parts: typeof answer.parts) => buildReport({ ...reportInput, answer: { ...answer, parts } });

describe("the page that a customer reads", () => {
  it("says on what footing each part stands", () => {
    expect(answers(model).map((a) => a.evidence)).toEqual(["proven", "predicted", "declined"]);
    const [proven, predicted, declined] = answers(model);
    expect(proven!.evidenceWords).toContain(
      "Proven on 5 patches: burned 5 times at this setting, 5 clean and undamaged",
    );
    expect(predicted!.evidenceWords).toContain("Predicted, not yet tried");
    expect(declined!.sentences).toContain("Stone is out of scope: this tool answers for metal only.");
    expect(declined!.setting).toBeNull();
  });

  it("gives rate and hours that follow from the answer", () => {
    // 5.2e-5 m²/s × 3600 = 0.1872 m²/h; 24 × 1.8 m² / 0.1872 m²/h = 230.8 h
    const facts = Object.fromEntries(answers(model)[0]!.facts.map((f) => [f.name, f.value]));
    expect(facts["area rate"]).toBe("0.187 m²/h");
    expect(facts["laser on"]).toBe("231 h");
    expect(facts.margin).toBe("16 % of power");
    expect(facts.cost).toBe("46 EUR/m²");
    expect(answers(model)[1]!.facts.find((f) => f.name === "cost")!.value).toBe("not worked out");
  });

  it("has the sentence of pulsed against continuous, and says where there is none", () => {
    const { comparison } = answer.parts[0]!;
    expect(answers(model)[0]!.sentences).toEqual([
      `Predicted: ${comparison!.eachAtBest.sentence}`,
      `Predicted: ${comparison!.equalPower.sentence}`,
    ]);
    expect(answers(model)[1]!.sentences).toEqual(["Pulsed and continuous were not compared for this part."]);
  });

  it("lists every test asked for and not measured, and none that was", () => {
    const open = allText(model.answer.find((s) => s.id === "answer-open"));
    const hatch = open.filter((t) => t.startsWith("Hatch covers: ")).join(" ");
    expect(hatch).toContain("soluble salts (ISO 8502-6 and -9), at most 20 mg/m²");
    expect(hatch).toMatch(/not measured\.$/);
    expect(hatch).not.toContain("pull-off");
    expect(open.some((t) => t.includes("pull-off") && t.includes("Brackets"))).toBe(true);
  });
});

describe("other footings", () => {
  const [proven, predicted] = answer.parts;
  const run = proven!.trials[0]!;
  const withWindow = (window: typeof run.window) => ({ ...proven!, trials: [{ ...run, window }] });

  it("tried and not proven", () => {
    const recommended = { ...run.window!.recommended!, proven: false, repeats: 0, repeatsGood: 0 };
    const block = answers(withParts([withWindow({ ...run.window!, recommended })]))[0]!;
    expect(block.evidence).toBe("tried");
    expect(block.evidenceWords).toContain("Tried, not yet proven: this setting itself has not been burned");
  });

  it("a trial that has settled the question goes before one that has not, and a proven one before both", () => {
    const open: WindowResult = { ...run.window!, recommended: { ...run.window!.recommended!, proven: false } };
    const settled: WindowResult = { ...open, stop: { ...open.stop, verdict: "recommend" } };
    const trialsOf = (...windows: WindowResult[]) =>
      windows.map((window, i) => ({ ...run, trial: { ...run.trial, id: `T-${i}` }, window }));
    const words = (...windows: WindowResult[]) =>
      answers(withParts([{ ...proven!, trials: trialsOf(...windows) }]))[0]!.evidenceWords;
    expect(words(open, open)).toContain("graded in trial T-0");
    expect(words(open, settled)).toContain("graded in trial T-1");
    expect(words(open, settled, run.window!)).toContain("graded in trial T-2");
  });

  it("tried without finding a window falls back on the prediction and says so", () => {
    const block = answers(withParts([withWindow({ ...run.window!, recommended: null })]))[0]!;
    expect(block.evidence).toBe("predicted");
    expect(block.evidenceWords).toContain("No window found among the settings tried (21 patches graded)");
  });

  it("nothing found", () => {
    const verdicts = predicted!.verdicts.map((v) => ({ ...v, windowExists: false, best: null }));
    const block = answers(withParts([{ ...predicted!, verdicts }]))[0]!;
    expect(block.evidence).toBe("none");
    expect(block.setting).toBeNull();
    expect(block.headline).toBe("No laser set-up is recommended");
  });

  it("never states more than 95 %", () => {
    const verdicts = predicted!.verdicts.map((v) => ({ ...v, sureness: 0.999 }));
    const text = allText(withParts([{ ...predicted!, verdicts }])).join("\n");
    expect(text).toContain("at least 95 %");
    expect(text).not.toMatch(/9[6-9](\.\d+)? %|100 % sure/);
  });
});

describe("settings and cautions", () => {
  it("every block that holds a setting holds cautions", () => {
    const settings = ofKind(model, "setting");
    expect(settings).toHaveLength(2);
    for (const block of settings) expect(block.cautions.length).toBeGreaterThan(2);
    for (const block of answers(model)) if (block.setting !== null) expect(block.cautions.length).toBeGreaterThan(0);
    const tables = ofKind(model, "table").filter((t) => t.columns.some((c) => c.name === "setting"));
    expect(tables).toHaveLength(2);
    for (const table of tables) expect(table.cautions.length).toBeGreaterThan(2);
  });

  it("cautions defer to the laser safety officer and to local law, and name what is unknown", () => {
    const [covers, brackets] = ofKind(model, "setting");
    expect(covers!.cautions.join(" ")).toMatch(/laser safety officer.*local law/);
    expect(covers!.cautions).toContain("Light-metal dust can burn: wet separator or inert filter.");
    expect(covers!.cautions).toContain("Chromate content unknown: test before any stripping.");
    expect(brackets!.cautions).toContain("Lead content unknown: test before any stripping.");
    expect(new Set(brackets!.cautions).size).toBe(brackets!.cautions.length);
  });

  it("leaves the lines of one part alone out of another's", () => {
    const both = buildReport({
      ...reportInput,
      cautions: [...reportInput.cautions, "only steel", "only aluminium"],
      partCautions: { "hatch-covers": ["only aluminium"], brackets: ["only steel"] },
    });
    const [covers, brackets] = ofKind(both, "setting").map((b) => b.cautions);
    expect(covers).toContain("Only aluminium.");
    expect(covers).not.toContain("Only steel.");
    expect(brackets).toContain("Only steel.");
    expect(brackets).toContain(covers!.find((line) => line.startsWith("Class 4")));
    // what stands in the box of the page is not said again in the part's card
    expect(answers(both)[0]!.cautions).not.toContain("Only aluminium.");
    expect(allText(both.answer.find((s) => s.id === "answer-cautions"))).toContain("Only steel.");
  });

  it("names once per substance which layers may hold it", () => {
    const part = answer.parts[1]!;
    const mixture = part.part.mixture.map((m) => ({
      ...m,
      stack: {
        ...m.stack,
        layers: m.stack.layers.map((l) => ({ ...l, kind: { ...l.kind, mayHold: ["cadmium", "lead"] as const } })),
      },
    }));
    const changed = buildReport({
      ...reportInput,
      partCautions: {},
      answer: { ...answer, parts: [{ ...part, part: { ...part.part, mixture } }] },
    });
    const cautions = ofKind(changed, "setting")[0]!.cautions;
    expect(cautions.filter((c) => c.includes("cadmium"))).toEqual([
      "May hold cadmium (old alkyd, red rust): test before any stripping.",
    ]);
  });

  it("a report without cautions is refused", () => {
    expect(() => buildReport({ ...reportInput, cautions: [] })).toThrow("invalid cautions: 0 (at least one caution");
  });

  it("prints the setting in the units of the machine", () => {
    const rows = Object.fromEntries(ofKind(model, "setting")[0]!.rows.map((r) => [r.name, r.value]));
    expect(rows).toEqual({
      power: "200 W",
      level: "90 %",
      "pulse width": "100 ns",
      "pulse frequency": "40 kHz",
      "scan speed": "2400 mm/s",
      "line spacing": "0.05 mm",
      passes: String(pulsedSetting.passes),
      defocus: "0 mm",
      lens: "f254",
      delivery: "scanner",
    });
  });
});

describe("details", () => {
  it("shows every set-up with its finding and reason", () => {
    const table = ofKind(model, "table").find((t) => t.caption === "Set-ups, best first")!;
    expect(table.rows.map((r) => r[0])).toEqual(answer.parts[0]!.verdicts.map((v) => v.setupName));
    expect(table.rows.map((r) => r[4])).toEqual(answer.parts[0]!.verdicts.map((v) => v.reason));
    expect(table.rows[2]).toEqual(["Pulsed 50 W, 100 ns", "does not remove", "–", "–", expect.any(String)]);
  });

  it("shows every patch, what differs, and what was not measured", () => {
    const table = ofKind(model, "table").find((t) => t.caption.startsWith("Patches: "))!;
    expect(table.rows).toHaveLength(24);
    expect(table.rows[0]).toEqual(["1", "8", "level 35 %, 1200 mm/s", "13 %", "0, unchanged", "residue left"]);
    expect(table.rows[6]!.slice(3)).toEqual(["not measured", "not measured", "not graded"]);
    expect(table.rows[19]).toEqual(["20", "–", "untouched", "–", "–", "reference"]);
  });

  it("shows acceptance tests with results or the words", () => {
    const table = ofKind(model, "table").find((t) => t.caption.startsWith("Acceptance"))!;
    expect(table.rows.map((r) => r.slice(3))).toEqual([
      ["7.2 MPa", "passed"],
      ["not measured", "–"],
      ["not measured", "–"],
    ]);
  });

  it("counts a test measured on a patch as measured", () => {
    const [part] = answer.parts;
    const run = part!.trials[0]!;
    const salts = { ...part!.part.acceptance.tests[1]!, value: "12 mg/m²", passed: true };
    const outcomes = run.outcomes.map((o) => (o.patch === 22 ? { ...o, tests: [salts] } : o));
    const changed = withParts([{ ...part!, trials: [{ ...run, outcomes }] }]);
    const table = ofKind(changed, "table").find((t) => t.caption.startsWith("Acceptance"))!;
    expect(table.rows[1]!.slice(3)).toEqual(["patch 22: 12 mg/m²", "passed"]);
    expect(allText(changed.answer).some((t) => t.includes("salts"))).toBe(false);
  });

  it("draws the likeliest of many stacks and lists them all", () => {
    const part = answer.parts[1]!;
    const [first, second] = part.part.mixture;
    const mixture = [
      { ...second!, weight: 0.2 },
      { ...first!, weight: 0.5 },
      { ...second!, weight: 0.3, assumption: "" },
    ];
    const changed = withParts([{ ...part, part: { ...part.part, mixture } }]);
    const drawn = ofKind(changed, "figure").filter((f) => f.drawing.kind === "stack");
    expect(drawn).toHaveLength(1);
    expect(drawn[0]!.caption).toContain("Assumed with a share of 50 %: old alkyd over rust.");
    const table = ofKind(changed, "table").find((t) => t.caption.startsWith("Stacks"))!;
    expect(table.rows.map((r) => r[0])).toEqual(["50 %", "30 %", "20 %"]);
    expect(table.rows[0]![1]).toBe("old alkyd, mid, 56 to 112 µm; red rust, mid, 35 to 70 µm");
  });

  it("says a note that many hazard rows share once, after them", () => {
    const hazard = [
      { name: "a", value: "1 m", note: "same" },
      { name: "b", value: "2 m", note: "same" },
      { name: "c", value: "3 m", note: "other" },
    ];
    const blocks = buildReport({ ...reportInput, hazard }).details.find((s) => s.id === "safety")!.blocks;
    expect(blocks.slice(0, 3)).toEqual([
      {
        kind: "facts",
        rows: [
          { name: "a", value: "1 m" },
          { name: "b", value: "2 m" },
        ],
      },
      { kind: "text", words: "same" },
      { kind: "facts", rows: [hazard[2]] },
    ]);
  });

  it("names sources once each, versions and seeds", () => {
    const text = allText(model.details.find((s) => s.id === "sources"));
    expect(text.filter((t) => t.startsWith("Invented handbook"))).toHaveLength(1);
    const again = allText(model.details.find((s) => s.id === "reproduce"));
    expect(again).toEqual(expect.arrayContaining(["0.1.0", "7", "64 draws of the physics", "seed 20"]));
  });

  it("says which source id the bibliography does not hold", () => {
    const bare = buildReport({ ...reportInput, citations: {} });
    expect(allText(bare.details)).toContain("invented-heat: not in the bibliography.");
  });

  it("places patches and the recommended point on the map in its own units", () => {
    const figure = ofKind(model, "figure").find((f) => f.drawing.kind === "window-map")!;
    const { drawing } = figure;
    if (drawing.kind !== "window-map") throw new Error("not a map");
    expect(drawing.map.yName).toBe("level (%)");
    expect(drawing.map.y.at(-1)).toBeCloseTo(100, 9);
    expect(drawing.map.conservative).toHaveLength(drawing.map.x.length * drawing.map.y.length);
    expect(drawing.marks).toHaveLength(22);
    expect(drawing.recommended).toEqual({ x: 2.4, y: 90 });
  });
});

describe("the model as data", () => {
  it("survives JSON and is the same for the same input", () => {
    expect(JSON.parse(JSON.stringify(model))).toEqual(model);
    expect(JSON.stringify(buildReport(reportInput))).toBe(JSON.stringify(model));
  });

  it("holds no broken number and no verdict of safety", () => {
    for (const text of allText(model)) expect(text).not.toMatch(/NaN|undefined|null|Infinity|\[object|\bsafe\b/i);
  });
});
