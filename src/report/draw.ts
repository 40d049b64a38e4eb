import { type CostFigure, costFigureWords } from "#cost";
import {
  type CostBarWords,
  comparisonBarsSvg,
  costBarsSvg,
  hazardPlanSvg,
  couponSvg,
  gradedCouponSvg,
  type PictureOptions,
  stackSectionSvg,
  type Theme,
  twoEdgeBarSvg,
  windowMapSvg,
} from "#drawing";
import { formatNumber } from "#units";
import type { Drawing } from "./model.ts";

/** A drawing of the report as SVG; `id` must differ between figures of one page. */
export function drawingSvg(drawing: Drawing, id: string, theme: Theme): string {
  const options: PictureOptions = { theme, id: `figure-${id}`.replace(/[^A-Za-z0-9_-]+/g, "-") };
  switch (drawing.kind) {
    case "two-edge-bars":
      return twoEdgeBarSvg(drawing.bars, options);
    case "stack":
      return stackSectionSvg(drawing.layers, drawing.metal, { ...options, metalThickness: drawing.metalThickness });
    case "coupon":
      return couponSvg(drawing.trial, drawing.coupon, {
        ...options,
        trueSize: false,
        outcomes: drawing.outcomes,
        // the sections around the picture carry the cautions of this very part
        cautions: [],
      });
    case "graded-coupon":
      return gradedCouponSvg(drawing.patches, {
        ...options,
        width: drawing.coupon.width,
        height: drawing.coupon.height,
        label: drawing.coupon.label,
        trial: drawing.trial,
        photo: drawing.photo,
        cautions: [],
      });
    case "window-map":
      return windowMapSvg(drawing.map, drawing.marks, drawing.recommended, options);
    case "hazard-plan":
      return hazardPlanSvg(drawing.hazards, options);
    case "cost-bars":
      return costBarsSvg(drawing.sensitivity, {
        ...options,
        axisName: `cost (${drawing.currency}/m²)`,
        words: (name) => costWords(name as CostFigure, drawing),
        note: drawing.note,
      });
    case "bars":
      return comparisonBarsSvg(drawing.rows, { ...options, axisName: drawing.axisName });
  }
}

/** A figure of the cost with its ends in the unit that a shop knows it by. */
function costWords(name: CostFigure, { sensitivity, currency }: Extract<Drawing, { kind: "cost-bars" }>): CostBarWords {
  const row = sensitivity.rows.find((r) => r.name === name)!;
  const { name: words, unit } = costFigureWords[name];
  const own = unit.replace("money", currency);
  const end = (value: number): string =>
    own === "×" ? `× ${formatNumber(value, 2)}` : `${formatNumber(value, 3)} ${own}`.trim();
  return { name: words, low: end(row.low), high: end(row.high) };
}

/** The words inside a drawing for readers who do not see it. */
export function drawingWords(svg: string): string {
  const found = /<desc[^>]*>([\s\S]*?)<\/desc>/.exec(svg)?.[1] ?? "";
  const plain: Readonly<Record<string, string>> = {
    "&lt;": "<",
    "&gt;": ">",
    "&quot;": '"',
    "&#39;": "'",
    "&amp;": "&",
  };
  return found.replace(/&(?:lt|gt|quot|#39|amp);/g, (entity) => plain[entity]!);
}
