export { type ConditionLimits, conditionLimits, metalConditionGrade } from "./condition.ts";
export { Draw, type MetalAnswers, metalAnswers } from "./draw.ts";
export { centreFluence, HELD_TIME, type PatchPlan, patchPlan, predictPatch } from "./predict-patch.ts";
export { lineCell, pulsedCell, type RasterCell } from "./raster.ts";
export { profileLog, type Stamped, type StampSpec, stamp } from "./stamp.ts";
export { ownLineRise, type Warming, warmingOf } from "./warming.ts";
