// AssemblyScript. Everything that the product calls; compiled by scripts/loops.mjs into src/loops/wasm-bytes.ts.
export { expInPlace } from "./exp";
export { clear, leaveOver, stampHinges } from "./stamp";
export { earlierPulses, groupRise, opposedRows, separableMap } from "./plate";
