export { type HeldTop, heldTopMelt } from "./held-top.ts";
export type { RefereeLayer, RefereeMetal } from "./material.ts";
export type { Reading } from "./reading.ts";
export type { Spot } from "./spot.ts";
export { type LineCase, type LineOptions, type LineReading, solveMovingLine } from "./moving-line.ts";
export { type PulseCase, type PulseOptions, type PulseReading, solvePulse } from "./single-pulse.ts";
export { type FastBareMetal, type FastReading, fastBareMetal } from "./fast-line.ts";
export { type Judged, judgeOf, MELT_LIMIT, meltAgrees, PEAK_LIMIT, peakAgrees } from "./judge.ts";
export { refereeTable } from "./table.ts";
