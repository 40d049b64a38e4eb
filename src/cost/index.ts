export { type AbrasiveInputs, abrasiveCostPerArea } from "./abrasive.ts";
export {
  blankMethod,
  type BreakEven,
  breakEven,
  type LaserMoney,
  type OtherMethod,
  type Payback,
  payback,
} from "./break-even.ts";
export { annualCapital, capitalRecoveryFactor } from "./capital.ts";
export {
  type CostInputs,
  type CostPerArea,
  costPerArea,
  exampleCostInputs,
  type HourlyCost,
  hourlyCost,
} from "./cost-per-area.ts";
export {
  type CostFigure,
  type CostFigures,
  costFigureWords,
  type CostRanges,
  costSensitivity,
  type CostSpread,
  costSpread,
  exampleCostRanges,
  jobTimeRange,
} from "./cost-spread.ts";
export { requireCurrency } from "./currency.ts";
export { adviseDelivery, type DeliveryAdvice, type DeliveryPart } from "./delivery-advice.ts";
export { deliveryRules } from "./delivery-fit.ts";
export { type FieldRow, fieldRow } from "./field-grid.ts";
export { handRate, type HandTask, steadyHandSpeed } from "./hand-rate.ts";
export { type CostCase, costCaseOf, type JobCost, jobCost, laserMoney } from "./job-cost.ts";
export { type JobRate, type TimeKind, timeKinds, type TimeSplit, timeWords } from "./job-rate.ts";
export { adviseLens, type LensAdvice } from "./lens-advice.ts";
export { orderHours, type Range, type Ranges } from "./order-hours.ts";
export { publishedRateRange } from "./rate.ts";
export { robotRate, type RobotTask } from "./robot-rate.ts";
export { scanRate, type ScanTask, scanTaskOf, type TurnRound } from "./scan-rate.ts";
export { type Sensitivity, sensitivity, type SensitivityRow } from "./sensitivity.ts";
export { type ResultSpread, spreadNote, spreadOf } from "./spread-of.ts";
export { type Stated, statedQuantile } from "./stated.ts";
export { travelSpeedFor } from "./travel-speed.ts";
export { usableField } from "./usable-field.ts";
