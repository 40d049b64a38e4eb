export {
  type Conductor,
  beerLambertRise,
  diffusivity,
  effusivity,
  halfSpaceFluxRise,
  halfSpacePulseRise,
  ierfc,
} from "./half-space.ts";
export { filmOnSubstrateRise, slabFluxRise, slabRiseCosine, slabRiseImages } from "./slab.ts";
export {
  fastBeamConstant,
  fastGaussianMaximumRise,
  movingGaussianHalfSpaceRise,
  movingGaussianMaximumRise,
  movingGaussianShape,
  movingGaussianShapeMaximum,
  stationaryGaussianRise,
  stationaryGaussianSteadyRise,
} from "./gaussian-source.ts";
export { type ThinPlatePass, thinPlatePeakTemperature, thinPlateZoneWidth } from "./welding.ts";
export { stefanFront, stefanOnePhase, stefanTwoPhase, type TwoPhaseFreezing } from "./stefan.ts";
export {
  type Bow,
  type BowCase,
  bowHeight,
  bowOfSweep,
  gradientBendAngle,
  heatingCurvature,
  yieldRise,
} from "./bow.ts";
export { ablationDepth, accumulationSum, craterDiameter, incubationFactor } from "./ablation-laws.ts";
export type * from "./column-spec.ts";
export { columnGrid } from "./column-grid.ts";
export { metalConductivity } from "./column-material.ts";
export { logRateConstant, reactionAdvance } from "./column-reaction.ts";
export { absorbedLight } from "./column-light.ts";
export { solveColumn } from "./column.ts";
export {
  growthRatio,
  layerEdges,
  type LinearColumnResult,
  type LinearColumnSpec,
  type LinearLayer,
  linearColumn,
  NEAR_PEAK,
} from "./linear-column.ts";
export {
  type LateralCase,
  lateralCaveat,
  lateralFactorFrom,
  movingLateralTable,
  type SpreadCase,
  settledRise,
  spreadMeltDepth,
  spreadRise,
} from "./lateral-factor.ts";
export { plateImages, type WarmingCase, warmingBound } from "./warming.ts";
export {
  type BeamLine,
  type PlateBody,
  type PlatePlace,
  type PulseTrain,
  pathRise,
  plateDepthRise,
  pulseTrainRise,
} from "./superposition.ts";
export { type MapPlaces, type PlateEdges, rasterMap } from "./plate-map.ts";
export type { PlateSpan } from "./plate-list.ts";
export type { RasterFineness } from "./plate-raster-list.ts";
export { type PulseRaster, rasterBeforePulse } from "./plate-raster.ts";
export { type SequenceFineness, sequenceBeforePulse } from "./plate-sequence.ts";
export { type PartHeating, partRise, type Waiting, waitingTime } from "./plate-part.ts";
export { depthDecay, depthFactor, type PlateKernel, plateKernel } from "./plate-kernel.ts";
export { type Probes, pathHistories } from "./plate-history.ts";
export { type RowOfPulses, trainRise } from "./plate-train.ts";
export { cornerFactor, edgeFactor, edgeStripFactor, type ShapeBound, wedgeBound } from "./plate-edges.ts";
