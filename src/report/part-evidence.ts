import type { PartAnswer } from "#terms";
import { formatNumber, formatQuantity } from "#units";
import { partCautions } from "./cautions.ts";
import type { EvidenceSide, ReportInput } from "./input.ts";
import type { Column, Section } from "./model.ts";
import { settingLine } from "./setting-rows.ts";
import { chance, plural, rateText } from "./wording.ts";

type Row = readonly [string, (side: EvidenceSide) => string];
const none = "–";

const rows: readonly Row[] = [
  ["set-up", (s) => s.setupName],
  ["trial", (s) => `${s.trialId}, ${plural(s.patches, "patch", "patches")} graded`],
  ["setting", (s) => (s.recommendation === null ? "no window found" : settingLine(s.recommendation.setting))],
  [
    "re-burned",
    ({ recommendation: r }) =>
      r === null ? none : `${plural(r.repeats, "time")}, ${r.repeatsGood} clean and undamaged`,
  ],
  ["footing", ({ recommendation: r }) => (r === null ? none : r.proven ? "proven" : "not yet proven")],
  [
    "chance of clean and undamaged",
    ({ recommendation: r }) =>
      r === null
        ? none
        : `${chance(r.probabilityBoth)} (${chance(r.probabilityBothLow)} to ${chance(r.probabilityBothHigh)})`,
  ],
  [
    "margin",
    ({ recommendation: r }) =>
      r === null
        ? none
        : r.margin.powerPercent === null
          ? "no 95 % edge in reach"
          : `${formatNumber(r.margin.powerPercent, 2)} % of power to the edge of ${r.margin.nearestEdge ?? "either"}`,
  ],
  ["mean power at the work", (s) => (s.meanPower === null ? none : formatQuantity(s.meanPower, "W"))],
  ["area rate", ({ recommendation: r }) => (r === null ? none : rateText(r.areaRate))],
  [
    "cost",
    ({ cost: c }) =>
      c === null
        ? "not worked out"
        : `${formatNumber(c.middle, 3)} ${c.currency}/m² (${formatNumber(c.low, 3)} to ${formatNumber(c.high, 3)})`,
  ],
  ["longest eye hazard distance", (s) => (s.hazard === null ? none : formatQuantity(s.hazard, "m", 3))],
  ["eyewear", (s) => s.eyewear ?? none],
];

/** Pulsed against continuous by what was burned, side by side; empty where no trial of either kind was graded. */
export function evidenceSections(part: PartAnswer, input: ReportInput): Section[] {
  const found = input.evidence?.[part.part.id];
  if (found === undefined || (found.pulsed === null && found.continuous === null)) return [];
  const cell = (side: EvidenceSide | null, of: Row[1]): string => (side === null ? "not tried" : of(side));
  const columns: Column[] = [
    { name: "quantity", align: "left", share: 24 },
    { name: "pulsed", align: "left", share: 38 },
    { name: "continuous", align: "left", share: 38 },
  ];
  return [
    {
      id: `${part.part.id}-evidence`,
      heading: "Pulsed against continuous by what was burned",
      level: 3,
      blocks: [
        { kind: "list", items: found.words },
        {
          kind: "table",
          caption: "Each at the setting that its trial recommends",
          columns,
          rows: rows.map(([name, of]) => [name, cell(found.pulsed, of), cell(found.continuous, of)]),
          cautions: partCautions(part.part, input),
        },
        {
          kind: "facts",
          rows: [
            { name: "equal", value: found.equal.join("; ") || "nothing stated" },
            { name: "not equal", value: found.unequal.join("; ") || "nothing stated" },
          ],
        },
      ],
    },
  ];
}
