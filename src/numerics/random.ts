import { normalQuantile } from "./normal.ts";
import { demand } from "./numerical-error.ts";

/** A stream of random numbers that depends on nothing but its seed. */
export interface RandomStream {
  /** 32 random bits */
  uint32(): number;
  /** uniform in [0, 1), 53 bits */
  next(): number;
  /** uniform in (0, 1): never 0 or 1 */
  open(): number;
  /** standard normal, one draw of `open` each */
  normal(): number;
  /** 0 to n − 1, without bias */
  integer(n: number): number;
  /** the items in random order; the argument is left as it is */
  shuffle<T>(items: readonly T[]): T[];
  /** moves on by 2^64 draws of `uint32` */
  jump(): void;
  /** a stream of its own, fixed by this stream's seed and k, however many draws were taken before */
  substream(k: number): RandomStream;
}

type State = [number, number, number, number];
const jumpWords = [0x8764000b, 0xf542d2d3, 0x6fa035c3, 0x77f2db5b];
const rotate = (x: number, k: number): number => (x << k) | (x >>> (32 - k));

/** Finalising mix of MurmurHash3: every input bit reaches every output bit. */
function mix(x: number): number {
  let h = x | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** Four words from any list of words; never all zero. */
function stateFrom(words: readonly number[]): State {
  const state: State = [0, 0, 0, 0];
  let carry = 0x9e3779b9;
  for (let lane = 0; lane < 4; lane += 1) {
    for (const word of words) carry = mix(carry + 0x9e3779b9 + Math.imul(word ^ (lane + 1), 0x2545f491));
    state[lane] = carry;
  }
  if (state.every((word) => word === 0)) state[0] = 1;
  return state;
}

/**
 * xoshiro128** over the given four words, none of them used for anything else.
 * Source: blackman-vigna-2021; first outputs of state (1, 2, 3, 4): 11520, 0, 5927040, 70819200.
 */
export function randomFromState(words: readonly [number, number, number, number]): RandomStream {
  const origin: State = [words[0] >>> 0, words[1] >>> 0, words[2] >>> 0, words[3] >>> 0];
  demand(
    origin.some((word) => word !== 0),
    "randomFromState: the four words must not all be 0",
  );
  let [a, b, c, d] = origin;

  function uint32(): number {
    const result = Math.imul(rotate(Math.imul(b, 5), 7), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = rotate(d, 11);
    return result;
  }
  const bits53 = (): number => (uint32() >>> 5) * 67108864 + (uint32() >>> 6);
  const open = (): number => (Math.min(bits53(), 2 ** 53 - 2) + 0.5) / 2 ** 53;

  function integer(n: number): number {
    demand(
      Number.isSafeInteger(n) && n > 0 && n <= 2 ** 32,
      `integer: n must be a whole number from 1 to 2^32, got ${n}`,
    );
    const limit = 2 ** 32 - (2 ** 32 % n);
    for (;;) {
      const draw = uint32();
      if (draw < limit) return draw % n;
    }
  }

  return {
    uint32,
    next: () => bits53() / 2 ** 53,
    open,
    normal: () => normalQuantile(open()),
    integer,
    shuffle(items) {
      const mixed = [...items];
      for (let i = mixed.length - 1; i > 0; i -= 1) {
        const j = integer(i + 1);
        [mixed[i], mixed[j]] = [mixed[j]!, mixed[i]!];
      }
      return mixed;
    },
    jump() {
      const sum: State = [0, 0, 0, 0];
      for (const word of jumpWords) {
        for (let bit = 0; bit < 32; bit += 1) {
          if ((word & (1 << bit)) !== 0) {
            sum[0] ^= a;
            sum[1] ^= b;
            sum[2] ^= c;
            sum[3] ^= d;
          }
          uint32();
        }
      }
      [a, b, c, d] = sum;
    },
    substream(k) {
      demand(Number.isSafeInteger(k) && k >= 0, `substream: k must be a whole number, 0 or more, got ${k}`);
      return randomFromState(stateFrom([...origin, k >>> 0, Math.floor(k / 2 ** 32), 0x5eed]));
    },
  };
}

/**
 * A stream from one whole number (up to 2^53 either side of 0).
 * @throws NumericalError when the seed is not a whole number
 */
export function createRandom(seed: number): RandomStream {
  demand(Number.isSafeInteger(seed), `createRandom: the seed must be a whole number, got ${seed}`);
  return randomFromState(stateFrom([seed >>> 0, Math.floor(seed / 2 ** 32) >>> 0]));
}
