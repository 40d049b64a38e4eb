export { graphiteTheme, pageTheme, paperTheme, printTheme, type Theme, themeVariables } from "./palette.ts";
export { type ColourMapName, mapColour } from "./colour-map.ts";
export { escapeXml } from "./xml.ts";
export type { PictureOptions } from "./picture.ts";
export { type LabelledBar, type TwoEdgeBarOptions, twoEdgeBarSvg } from "./two-edge-bar.ts";
export { twoEdgeBarText, twoEdgeTextLegend } from "./two-edge-text.ts";
export { type BarRange, barRange, barSentence, doseText } from "./two-edge-axis.ts";
export { type SectionLayer, type StackSectionOptions, stackSectionSvg } from "./stack-section.ts";
export { type HeatFilm, timeText } from "./heat-film.ts";
export { couponCaution, type CouponOptions, couponSvg } from "./coupon.ts";
export { type OutcomeState, outcomeState, outcomeWords } from "./outcome-mark.ts";
export { type ContourLine, contourLines } from "./contour.ts";
export { type MapMark, type MapPoint, type WindowMapOptions, windowMapSvg } from "./window-map.ts";
export { type ComparisonBarsOptions, type ComparisonRow, comparisonBarsSvg } from "./comparison-bars.ts";
export { captureSteps } from "./capture-steps.ts";
export { frameSheetSvg, type FrameSheetOptions, instructionsFitWindow, rulerLength } from "./frame-sheet.ts";
export {
  gradedCouponSvg,
  type GradedCouponOptions,
  type MarkedPatch,
  verdictMarks,
} from "./graded-coupon.ts";
export { type CostBarsOptions, type CostBarWords, costBarsSvg } from "./cost-bars.ts";
export { hazardPlanSvg } from "./hazard-plan.ts";
