import { invalid } from "#units";
import { boxBehnken } from "./box-behnken.ts";
import { type AxialKind, centralComposite, rotatableDistance } from "./central-composite.ts";
import { type Factor, factorWords } from "./factors.ts";
import { fractionalFactorial, mostHalvings } from "./fractional-factorial.ts";
import { plackettBurman, type PlackettBurmanRuns, plackettBurmanRuns } from "./plackett-burman.ts";
import { twoLevelFactorial } from "./two-level.ts";
import { latinHypercube } from "./unit-designs.ts";

export type CodedName =
  | "factorial"
  | "fractional-factorial"
  | "plackett-burman"
  | "central-composite"
  | "box-behnken"
  | "latin-hypercube";

/** A design in coded units over some of the factors that vary. */
export interface CodedDesign {
  readonly rows: readonly (readonly number[])[];
  readonly factors: readonly Factor[];
  /** how far coded 1 lies from the middle, in shares of the range in logarithms */
  readonly half: number;
  /** what it is, in one sentence */
  readonly words: string;
}

export interface CodedOptions {
  /** most rows */
  readonly room: number;
  readonly axial: AxialKind;
  readonly seed: number;
}

/** Two-level designs stand at a quarter and three quarters of each range, Box-Behnken as far out as a star would. */
const TWO_LEVEL = 0.25;
const BOX_BEHNKEN = 0.35;
const LATIN_TRIALS = 200;

/**
 * The named design over as many of the factors as its rows leave room for, the first ones first.
 * Throws InvalidInput when the factors are too few for it or the room too small. Source: the design's own file.
 */
export function codedDesign(name: CodedName, factors: readonly Factor[], options: CodedOptions): CodedDesign {
  switch (name) {
    case "factorial":
      return factorialDesign(factors, options);
    case "fractional-factorial":
      return fractionDesign(factors, options);
    case "plackett-burman":
      return screeningDesign(factors, options);
    case "central-composite":
      return compositeDesign(factors, options);
    case "box-behnken":
      return boxBehnkenDesign(factors, options);
    case "latin-hypercube": {
      const units = latinHypercube(options.room, factors.length, options.seed, options.room > 200 ? 5 : LATIN_TRIALS);
      const rows = units.map((row) => row.map((t) => 2 * t - 1));
      const words = "a Latin hypercube, each control evenly spread over its range; the best spread of many";
      return { rows, factors, half: 0.5, words };
    }
  }
}

function factorialDesign(factors: readonly Factor[], { room }: CodedOptions): CodedDesign {
  const varied = factors.slice(0, Math.min(12, Math.floor(Math.log2(Math.max(1, room)))));
  if (varied.length === 0) return tooFew("factorial", 2, room);
  const words = `every combination of low and high of ${list(varied)}`;
  return { rows: twoLevelFactorial(varied.length), factors: varied, half: TWO_LEVEL, words };
}

function fractionDesign(factors: readonly Factor[], { room }: CodedOptions): CodedDesign {
  for (let k = Math.min(7, factors.length); k >= 3; k--) {
    for (let p = 1; p <= mostHalvings(k); p++) {
      if (2 ** (k - p) > room) continue;
      const { rows, words, resolution } = fractionalFactorial(k, p);
      const varied = factors.slice(0, k);
      const shortest = words.filter((word) => word.length === resolution);
      const named = shortest.map((word) => [...word].map((c) => word7(varied, c)).join(" × ")).join("; ");
      const roman = ["III", "IV", "V", "VI", "VII"][resolution - 3]!;
      return {
        rows,
        factors: varied,
        half: TWO_LEVEL,
        words: `a fraction 2^(${k}−${p}) of low and high, resolution ${roman}: effects are mixed where these products stand still: ${named}`,
      };
    }
  }
  return tooFewFactors("fractional-factorial", 3, factors.length, room, 4);
}

const word7 = (factors: readonly Factor[], letter: string): string =>
  factorWords[factors["ABCDEFG".indexOf(letter)]!.name];

function screeningDesign(factors: readonly Factor[], { room }: CodedOptions): CodedDesign {
  const fitting = plackettBurmanRuns.filter((n) => n <= room);
  if (fitting.length === 0 || factors.length === 0) return tooFew("plackett-burman", plackettBurmanRuns[0], room);
  const rowsOf = (runs: PlackettBurmanRuns): number[][] =>
    plackettBurman(runs).map((row) => row.slice(0, factors.length));
  // With few factors the longer ones only repeat their rows: the longest in which no two are equal.
  const different = fitting.filter((runs) => new Set(rowsOf(runs).map(String)).size === runs).at(-1);
  const runs = different ?? fitting[0]!;
  return {
    rows: rowsOf(runs),
    factors: factors.slice(0, runs - 1),
    half: TWO_LEVEL,
    words: `Plackett-Burman screening in ${runs} runs: single controls are told apart, pairs are smeared over them`,
  };
}

function compositeDesign(factors: readonly Factor[], { room, axial }: CodedOptions): CodedDesign {
  for (let k = Math.min(7, factors.length); k >= 2; k--) {
    // From five factors on a half fraction keeps pairs apart (resolution V and above).
    const choices = [twoLevelFactorial(k), ...(k >= 5 ? [fractionalFactorial(k, 1).rows] : [])];
    const factorial = choices.find((rows) => rows.length + 2 * k < room);
    if (factorial === undefined) continue;
    const alpha = axial === "face" ? 1 : rotatableDistance(factorial.length);
    const where = axial === "face" ? "on the faces" : `at ${alpha.toFixed(3)} (rotatable)`;
    return {
      rows: [...centralComposite(factorial, axial), middle(k)],
      factors: factors.slice(0, k),
      half: axial === "face" ? 0.35 : 0.5 / alpha,
      words: `a central composite of ${list(factors.slice(0, k))}: ${factorial.length} corners, ${2 * k} axial points ${where} and the middle`,
    };
  }
  return tooFewFactors("central-composite", 2, factors.length, room, 9);
}

function boxBehnkenDesign(factors: readonly Factor[], { room }: CodedOptions): CodedDesign {
  for (let k = Math.min(7, factors.length); k >= 3; k--) {
    const rows = boxBehnken(k);
    if (rows.length >= room) continue;
    const varied = factors.slice(0, k);
    return {
      rows: [...rows, middle(k)],
      factors: varied,
      half: BOX_BEHNKEN,
      words: `Box-Behnken of ${list(varied)}: the middle, and no corner, where all is extreme at once`,
    };
  }
  return tooFewFactors("box-behnken", 3, factors.length, room, 13);
}

const middle = (factors: number): number[] => Array.from({ length: factors }, () => 0);
const list = (factors: readonly Factor[]): string => factors.map((f) => factorWords[f.name]).join(", ");

function tooFewFactors(name: string, need: number, have: number, room: number, runs: number): never {
  if (have < need) invalid("design", name, "", `needs ${need} controls that vary, here ${have} do`);
  return tooFew(name, runs, room);
}

function tooFew(name: string, runs: number, room: number): never {
  return invalid("design", name, "", `needs at least ${runs} settings beside the centre, there is room for ${room}`);
}
