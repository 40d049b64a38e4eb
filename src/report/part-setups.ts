import type { Comparison, PartAnswer, Prediction, SetupVerdict } from "#terms";
import { formatQuantity, fromSI } from "#units";
import { partCautions } from "./cautions.ts";
import type { Chosen } from "./evidence.ts";
import type { ReportInput } from "./input.ts";
import type { Block, Column, Fact, Section } from "./model.ts";
import { beamRows, settingRows } from "./setting-rows.ts";
import { chance, conditionWords, rateText, share, shortfallWords, spreadText } from "./wording.ts";

/** All set-ups with their two-edge bars and reasons. */
export function setupsSection(part: PartAnswer): Section {
  const columns: Column[] = [
    { name: "set-up", align: "left", share: 25 },
    { name: "finding", align: "left", share: 17 },
    { name: "sure", align: "right", share: 9 },
    { name: "area rate", align: "right", share: 13 },
    { name: "why", align: "left", share: 40 },
  ];
  const rows = part.verdicts.map((v) => [
    v.setupName,
    shortfallWords(v.shortfall),
    v.windowExists ? chance(v.sureness) : "–",
    v.windowExists ? rateText(v.areaRate) : "–",
    v.reason,
  ]);
  const bars = part.verdicts.map((v) => ({ label: v.setupName, kind: v.kind, bar: v.bar, note: barNote(v) }));
  const rates = part.verdicts.map((v) => ({
    label: v.setupName,
    value: v.windowExists && v.areaRate > 0 ? fromSI(v.areaRate, "m2/h") : null,
    text: v.windowExists && v.areaRate > 0 ? rateText(v.areaRate) : shortfallWords(v.shortfall),
    emphasised: v.shortfall === "none",
  }));
  const id = part.part.id;
  return {
    id: `${id}-setups`,
    heading: "Laser set-ups",
    level: 3,
    blocks: [
      {
        kind: "figure",
        id: `${id}-bars`,
        caption: "Where the layer comes off and where the metal changes, best set-up first.",
        drawing: { kind: "two-edge-bars", bars },
      },
      { kind: "table", caption: "Set-ups, best first", columns, rows, cautions: [] },
      {
        kind: "figure",
        id: `${id}-rates`,
        caption: "Area rate of the best predicted setting; turn-rounds included.",
        drawing: { kind: "bars", rows: rates, axisName: "area rate (m²/h)" },
      },
    ],
  };
}

function barNote(v: SetupVerdict): string {
  const finding = shortfallWords(v.shortfall);
  return v.windowExists ? `${finding}; ${chance(v.sureness)} sure` : finding;
}

/** The setting to work from in machine units, with what it is expected to do and every caution that holds. */
export function settingSection(part: PartAnswer, chosen: Chosen, input: ReportInput): Section {
  const id = `${part.part.id}-setting`;
  if (chosen.setting === null)
    return { id, heading: "Setting", level: 3, blocks: [{ kind: "text", words: chosen.words }] };
  const cautions = partCautions(part.part, input);
  const delivery: Fact[] = chosen.verdict === null ? [] : [{ name: "delivery", value: chosen.verdict.delivery }];
  const blocks: Block[] = [
    { kind: "text", words: chosen.words },
    {
      kind: "setting",
      title: `Setting for ${chosen.setupName}`,
      rows: [...settingRows(chosen.setting), ...delivery],
      cautions,
    },
  ];
  const prediction = chosen.prediction ?? sameSetting(chosen);
  if (prediction !== null) blocks.push({ kind: "facts", rows: predictedRows(prediction) });
  if (chosen.recommendation !== null) blocks.push({ kind: "list", items: chosen.recommendation.words });
  const other = chosen.prediction === null ? chosen.verdict?.best : null;
  if (other && prediction === null)
    blocks.push({
      kind: "text",
      words: "The recommended setting comes from the trial and differs from the best setting predicted before it.",
    });
  return { id, heading: "Setting", level: 3, blocks };
}

/** The prediction made before the trial, where it was made for this very setting. */
function sameSetting(chosen: Chosen): Prediction | null {
  const best = chosen.verdict?.best ?? null;
  if (best === null || chosen.setting === null) return null;
  return JSON.stringify(best.setting) === JSON.stringify(chosen.setting) ? best : null;
}

function predictedRows(p: Prediction): Fact[] {
  return [
    ...beamRows(p.beam),
    { name: "predicted residue", value: spreadText(p.residueFraction, "%") },
    { name: "predicted metal peak", value: spreadText(p.metalPeakTemperature, "degC") },
    { name: "predicted melt depth", value: spreadText(p.meltDepth, "um") },
    { name: "predicted metal condition", value: conditionWords[p.metalCondition] },
    { name: "chance of clean", value: chance(p.probabilityClean) },
    { name: "chance of undamaged", value: chance(p.probabilityUndamaged) },
  ];
}

const comparisonRows: readonly (readonly [string, (v: SetupVerdict) => string])[] = [
  ["finding", (v) => shortfallWords(v.shortfall)],
  ["mean power", (v) => formatQuantity(v.best?.beam.meanPower ?? v.meanPower, "W")],
  ["area rate", (v) => (v.windowExists ? rateText(v.areaRate) : "–")],
  ["sure", (v) => (v.windowExists ? chance(v.sureness) : "–")],
  ["predicted residue", (v) => (v.best === null ? "–" : share(v.best.residueFraction.median))],
  ["predicted metal peak", (v) => (v.best === null ? "–" : formatQuantity(v.best.metalPeakTemperature.median, "degC"))],
  ["predicted metal condition", (v) => (v.best === null ? "–" : conditionWords[v.best.metalCondition])],
];

export function comparisonSection(part: PartAnswer): Section {
  const { comparison } = part;
  const blocks: Block[] =
    comparison === null
      ? [{ kind: "text", words: "Pulsed and continuous were not compared for this part." }]
      : [
          { kind: "text", words: comparison.eachAtBest.sentence },
          comparisonTable("Each at its best", comparison.eachAtBest),
          { kind: "text", words: comparison.equalPower.sentence },
          comparisonTable(
            `At equal mean power, ${formatQuantity(comparison.equalPower.meanPower, "W")} at the work`,
            comparison.equalPower,
          ),
          {
            kind: "facts",
            rows: [
              { name: "equal", value: comparison.equal.join("; ") || "nothing stated" },
              { name: "not equal", value: comparison.unequal.join("; ") || "nothing stated" },
            ],
          },
        ];
  return { id: `${part.part.id}-comparison`, heading: "Pulsed against continuous", level: 3, blocks };
}

function comparisonTable(caption: string, pair: Comparison["eachAtBest"]): Block {
  const cell = (v: SetupVerdict | null, of: (v: SetupVerdict) => string): string => (v === null ? "–" : of(v));
  const rows = [["set-up", (v: SetupVerdict) => v.setupName] as const, ...comparisonRows].map(([name, of]) => [
    name,
    cell(pair.pulsed, of),
    cell(pair.continuous, of),
  ]);
  const columns: Column[] = [
    { name: "quantity", align: "left", share: 30 },
    { name: "pulsed", align: "left", share: 35 },
    { name: "continuous", align: "left", share: 35 },
  ];
  return { kind: "table", caption, columns, rows, cautions: [] };
}
