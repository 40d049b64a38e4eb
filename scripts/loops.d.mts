/** The text of src/loops/wasm-bytes.ts as inner/ compiles now. */
export function compileLoops(): Promise<string>;
