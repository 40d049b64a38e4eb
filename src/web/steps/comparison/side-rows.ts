import { type EvidenceSideWire, settingFromWire } from "#contract";
import { chance, settingLine } from "#report";
import { formatNumber, toSI } from "#units";
import { quantityText } from "../../show/quantity-text.ts";
import { words } from "../../words/index.ts";

const say = words.comparison;

type Recommended = NonNullable<EvidenceSideWire["recommended"]>;

/** A cell that speaks of the recommended setting, or a dash where there is none. */
const found =
  (of: (r: Recommended) => string) =>
  ({ recommended }: EvidenceSideWire): string =>
    recommended === null ? say.none : of(recommended);

/** Rows of a comparison by what was burned: the same for both kinds. */
export const sideRows: readonly (readonly [string, (side: EvidenceSideWire) => string])[] = [
  [say.rows.setup, (s) => s.name],
  [say.rows.trial, (s) => say.graded(s.trial, s.patches)],
  [
    say.rows.setting,
    ({ recommended }) => (recommended === null ? say.noWindow : settingLine(settingFromWire(recommended.setting))),
  ],
  [say.rows.again, found((r) => say.again(r.repeats, r.repeatsGood))],
  [say.rows.footing, found((r) => (r.proven ? say.proven : say.notProven))],
  [
    say.rows.both,
    found((r) => say.range(chance(r.probabilityBoth), chance(r.probabilityBothLow), chance(r.probabilityBothHigh))),
  ],
  [
    say.rows.margin,
    found((r) =>
      r.margin_percent === null
        ? say.marginNone
        : say.marginTo(formatNumber(r.margin_percent, 2), say.edges[r.nearestEdge ?? "either"] ?? ""),
    ),
  ],
  [say.rows.power, (s) => quantityText(s.meanPower_W, "W", 3)],
  [say.rows.rate, found((r) => quantityText(toSI(r.areaRate_m2_per_h, "m2/h"), "m2/h", 3))],
  [
    say.rows.cost,
    ({ cost_per_m2: c }) => {
      if (c === null) return say.costNone;
      const money = (value: number): string => formatNumber(value, 3);
      return say.range(`${money(c.middle)} ${c.currency}/m²`, money(c.low), money(c.high));
    },
  ],
  [say.rows.hazard, (s) => quantityText(s.eyeHazardDistance_m, "m", 3)],
  [say.rows.eyewear, (s) => s.eyewear ?? say.none],
];
