import { plainExp, wasmExp } from "./exp.ts";
import { instantiate } from "./instance.ts";

/** The inner loops; both makers give the same numbers within the bounds stated at each loop. */
export interface Loops {
  readonly kind: "plain" | "wasm";
  /** e^x in place */
  exp(values: Float64Array): void;
}

export const plainLoops: Loops = { kind: "plain", exp: plainExp };

let compiled: Loops | null | undefined;

/** The compiled loops, or null where the host cannot run them. Compiled once. */
export function wasmLoops(): Loops | null {
  if (compiled === undefined) {
    const memory = instantiate();
    compiled = memory && { kind: "wasm", exp: (values) => wasmExp(memory, values) };
  }
  return compiled;
}

/** The fastest loops that the host can run. */
export function loops(): Loops {
  return wasmLoops() ?? plainLoops;
}
