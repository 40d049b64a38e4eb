export { NumericalError } from "./numerical-error.ts";
export { erf, erfc, erfcx } from "./error-function.ts";
export { expit, logit, normalCdf, normalLogCdf, normalPdf, normalQuantile } from "./normal.ts";
export { gammaLower, gammaUpper, lnGamma } from "./gamma.ts";
export { betaIncomplete, betaQuantile } from "./beta.ts";
export {
  chiSquareCdf,
  chiSquareQuantile,
  chiSquareUpper,
  fUpper,
  studentTCdf,
  studentTQuantile,
} from "./distributions.ts";
export { clopperPearson, type Interval, wilsonInterval } from "./proportion.ts";
export { mean, median, quantile, quantiles, standardDeviation, variance, weightedQuantile } from "./descriptive.ts";
export { createRandom, type RandomStream, randomFromState } from "./random.ts";
export { type SobolOptions, sobolMaxDimension, sobolPoints } from "./sobol.ts";
export { latinHypercube } from "./latin-hypercube.ts";
export { effectiveSampleSize, splitRHat } from "./chain-diagnostics.ts";
export { adjugate3, dot, fromRows, identity, type Matrix3, multiply, multiplyVector, transpose } from "./matrix.ts";
export {
  cholesky,
  choleskyInverse,
  choleskyLogDeterminant,
  solveCholesky,
  solveLower,
  solveLowerTransposed,
} from "./cholesky.ts";
export { type LeastSquares, qrSolve } from "./least-squares.ts";
export type { ResidualFunction } from "./jacobian.ts";
export { fitNonlinear, type NonlinearFit, type NonlinearProblem } from "./nonlinear-least-squares.ts";
export { type Eigen, symmetricEigen } from "./symmetric-eigen.ts";
export { solveTridiagonal } from "./tridiagonal.ts";
export { findInterval, interpolateLinear, monotoneCubic } from "./interpolate.ts";
export { gaussLegendre, type Integral, type IntegrateOptions, integrate, integrateWithError } from "./integrate.ts";
export { findRoot, type RootOptions } from "./find-root.ts";
export { type Minimum, minimise1d } from "./minimise.ts";
