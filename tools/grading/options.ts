import { InvalidInput, invalid, requireInteger } from "#units";

export interface Options {
  readonly plates: number;
  readonly first: number;
  /** leaves out the large photographs */
  readonly quick: boolean;
}

/** Without options: plates enough for some 200 photographs, seeds that nothing was developed on. */
const usual: Options = { plates: 118, first: 10000, quick: false };

function numberAfter(args: readonly string[], name: string, usually: number): number {
  const at = args.indexOf(`--${name}`);
  return at < 0 ? usually : requireInteger(name, Number(args[at + 1] ?? Number.NaN), 1, 1e6);
}

/** Options of a command line. Errors: InvalidInput for a word that is none, and for numbers out of range. */
export function optionsOf(args: readonly string[]): Options {
  const known = ["--plates", "--first", "--quick"];
  const odd = args.find((word) => !known.includes(word) && !/^\d+$/.test(word));
  if (odd !== undefined) invalid("option", odd, "", `one of ${known.join(", ")}`);
  const quick = args.includes("--quick");
  return {
    plates: numberAfter(args, "plates", quick ? 8 : usual.plates),
    first: numberAfter(args, "first", usual.first),
    quick,
  };
}

/** Options, or one line about what is wrong with them and the end of the process. */
export function readOptions(args: readonly string[]): Options {
  try {
    return optionsOf(args);
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error;
    console.error(error.message);
    process.exit(2);
  }
}
