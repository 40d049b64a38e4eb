import type { LoopMemory } from "./instance.ts";

/** In place e^x, the plain twin. */
export function plainExp(values: Float64Array): void {
  for (let i = 0; i < values.length; i++) values[i] = Math.exp(values[i]!);
}

/** In place e^x by SIMD. x: 1, below 709; under −708 the result is 0. Within 4e-16 of the exact value, relative. */
export function wasmExp(memory: LoopMemory, values: Float64Array): void {
  memory.reset();
  const even = values.length + (values.length % 2);
  const at = memory.place(8 * even);
  memory.f64(at, values.length).set(values);
  memory.call.expInPlace(at, even);
  values.set(memory.f64(at, values.length));
}
