import { plainExp, wasmExp } from "./exp.ts";
import { instantiate } from "./instance.ts";
import { type PlateLoops, plainPlate, wasmPlate } from "./plate.ts";
import { plainStamp, type StampMap, wasmStamp } from "./stamp.ts";

/** The inner loops; both makers give the same numbers within the bounds stated at each loop. */
export interface Loops {
  readonly kind: "plain" | "wasm";
  /** e^x in place */
  exp(values: Float64Array): void;
  /** what is left of a layer under additive craters, row by row into `into` */
  stamp(spec: StampMap, into: Float32Array): void;
  /** heat across a plate, see `PlateLoops` */
  readonly plate: PlateLoops;
}

export const plainLoops: Loops = { kind: "plain", exp: plainExp, stamp: plainStamp, plate: plainPlate };

let compiled: Loops | null | undefined;

/** The compiled loops, or null where the host cannot run them. Compiled once. */
export function wasmLoops(): Loops | null {
  if (compiled === undefined) {
    const memory = instantiate();
    compiled = memory && {
      kind: "wasm",
      exp: (values) => wasmExp(memory, values),
      stamp: (spec, into) => wasmStamp(memory, spec, into),
      plate: wasmPlate(memory),
    };
  }
  return compiled;
}

/** The fastest loops that the host can run. */
export function loops(): Loops {
  return wasmLoops() ?? plainLoops;
}
