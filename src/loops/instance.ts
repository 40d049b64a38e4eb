import { wasmBytes } from "./wasm-bytes.ts";

/** What the compiled module of inner/ exports. Addresses are bytes into its memory. */
export interface LoopExports {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  expInPlace(at: number, count: number): void;
  clear(at: number, bytes: number): void;
  leaveOver(at: number, count: number, thickness: number): void;
  stampHinges(
    map: number,
    stride: number,
    columns: number,
    rows: number,
    places: number,
    count: number,
    hinges: number,
    hingeCount: number,
    reach: number,
    scratch: number,
  ): void;
  opposedRows(
    height: number,
    rate: number,
    low: number,
    first: number,
    step: number,
    rows: number,
    n: number,
    pitch2: number,
    across2: number,
    reach: number,
    out: number,
  ): void;
  groupRise(groups: number, count: number, x: number, y: number, time: number, points: number, out: number): void;
  earlierPulses(
    x: number,
    y: number,
    time: number,
    energy: number,
    from: number,
    first: number,
    last: number,
    radius2: number,
    diffusivity: number,
    thickness: number,
    out: number,
  ): void;
  separableMap(along: number, down: number, count: number, nx: number, ny: number, out: number): void;
}

/** The part of the WebAssembly interface that is used; core rooms have no types of a host. */
interface Host {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
}

const ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
const PAGE = 65536;

/** Bytes of a base64 text (RFC 4648). */
function bytesOf(text: string): Uint8Array {
  const length = text.endsWith("==") ? -2 : text.endsWith("=") ? -1 : 0;
  const bytes = new Uint8Array((text.length / 4) * 3 + length);
  const value = new Uint8Array(128);
  for (let i = 0; i < 64; i++) value[ALPHABET.charCodeAt(i)] = i;
  for (let i = 0, at = 0; i < text.length; i += 4) {
    const four =
      (value[text.charCodeAt(i)]! << 18) |
      (value[text.charCodeAt(i + 1)]! << 12) |
      (value[text.charCodeAt(i + 2)]! << 6) |
      value[text.charCodeAt(i + 3)]!;
    for (let k = 2; k >= 0 && at < bytes.length; k--) bytes[at++] = (four >> (8 * k)) & 255;
  }
  return bytes;
}

/**
 * The compiled loops with a bump allocator over their memory, or null where the host has no WebAssembly with SIMD or
 * its content policy forbids it. Compiled at once, without a promise: in a browser only a worker should ask.
 */
export function instantiate(): LoopMemory | null {
  const host = (globalThis as { readonly WebAssembly?: Host }).WebAssembly;
  if (!host) return null;
  try {
    const { exports } = new host.Instance(new host.Module(bytesOf(wasmBytes)), {
      env: {
        abort: () => {
          throw new Error("an inner loop stopped");
        },
      },
    });
    return new LoopMemory(exports as LoopExports);
  } catch {
    return null;
  }
}

/** Hands out places in the memory of the loops, one call after the other; `reset` takes all of them back. */
export class LoopMemory {
  readonly call: LoopExports;
  #top = PAGE;

  constructor(exports: LoopExports) {
    this.call = exports;
  }

  reset(): void {
    this.#top = PAGE;
  }

  /** Address of so many bytes, a multiple of 16. Growing the memory cuts off views made before. */
  place(bytes: number): number {
    const at = this.#top;
    this.#top = (at + bytes + 15) & ~15;
    const short = this.#top - this.call.memory.buffer.byteLength;
    if (short > 0) this.call.memory.grow(Math.ceil(short / PAGE));
    return at;
  }

  /** View of `count` doubles at an address; ask anew after every `place`. */
  f64(at: number, count: number): Float64Array {
    return new Float64Array(this.call.memory.buffer, at, count);
  }

  /** View of `count` single floats at an address. */
  f32(at: number, count: number): Float32Array {
    return new Float32Array(this.call.memory.buffer, at, count);
  }
}
