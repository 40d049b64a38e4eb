/**
 * The innermost loops of the physics. Each exists twice: as SIMD WebAssembly (AssemblyScript in inner/) and as a plain
 * TypeScript twin that gives the same numbers within the bound stated beside it; tests/loops holds them together.
 */
export { plainExp } from "./exp.ts";
export { type Loops, loops, plainLoops, wasmLoops } from "./loops.ts";
export { type EarlierPulses, GROUP_SIZE, type OpposedRows, type PlateLoopBody, type PlateLoops } from "./plate.ts";
export type { StampMap } from "./stamp.ts";
