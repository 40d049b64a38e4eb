export { type AbrasiveInputs, abrasiveCostPerArea } from "./abrasive.ts";
export { annualCapital, capitalRecoveryFactor } from "./capital.ts";
export {
  type CostInputs,
  type CostPerArea,
  costPerArea,
  exampleCostInputs,
  type HourlyCost,
  hourlyCost,
} from "./cost-per-area.ts";
export { hoursForOrder, type JobTime, publishedRateRange } from "./rate.ts";
