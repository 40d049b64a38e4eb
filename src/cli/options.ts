import type { Command } from "commander";
import { InvalidInput } from "#units";

export const CAUTION =
  "Class 4 lasers, fume and fire can maim: every answer is an aid, local law and the laser safety officer decide.";

export function whole(name: string, least: number, most: number) {
  return (text: string): number => {
    const value = Number(text);
    if (!Number.isInteger(value) || value < least || value > most)
      throw new InvalidInput(name, text, "", `a whole number from ${least} to ${most}`);
    return value;
  };
}

export function between(name: string, unit: string, least: number, most: number) {
  return (text: string): number => {
    const value = text.trim() === "" ? Number.NaN : Number(text);
    if (!(value >= least && value <= most))
      throw new InvalidInput(name, text, unit, `a number from ${least} to ${most}`);
    return value;
  };
}

/** Seven numbers one after another, gathered as commander reads them. */
export function greys(text: string, before: readonly number[] | undefined): number[] {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!(value >= 0 && value <= 100)) throw new InvalidInput("greys", text, "L*", "a number from 0 to 100");
  return [...(before ?? []), value];
}

export function verb(program: Command, name: string, line: string): Command {
  return program
    .command(name)
    .description(line)
    .option("--json", "print the published JSON shape instead of words")
    .addHelpText("after", `\n${CAUTION}`);
}

export function withLibrary(command: Command): Command {
  return command.option(
    "--library <file...>",
    "your own metals, layers and set-ups, files of the published library shape",
  );
}

export function withPhysics(command: Command): Command {
  return withLibrary(command)
    .option("--seed <n>", "seed of the draws", whole("seed", 0, 2 ** 31), 1)
    .option("--draws <n>", "versions of the physics to draw", whole("draws", 8, 4096), 64);
}

export function withThreads(command: Command): Command {
  return command.option(
    "--threads <n>",
    "threads to work on: as many as processors when left out, 1 for none but its own",
    whole("threads", 0, 256),
  );
}

export function withEnquiry(command: Command): Command {
  return withPart(withPhysics(command));
}

export function withKnown(command: Command): Command {
  return command.option("--known <dir>", "start from what the trials kept in this data folder taught");
}

export function withRays(command: Command): Command {
  return command.option(
    "--rays <n>",
    "settings to look at, each along its power, beside those burned; 48, fewer are quick and find less",
    whole("rays", 0, 512),
  );
}

export function withWrongGrades(command: Command): Command {
  return command
    .option(
      "--gradings <file...>",
      "graded coupons that grade wrote: the share of wrong readings is learnt from those a person looked at",
    )
    .option(
      "--wrong-grades <percent>",
      "share of wrong grades, 0 to 20, as a gauge study or `agreement` finds it; 2.5 when left out",
      between("wrong grades", "%", 0, 20),
    );
}

export function withPart(command: Command): Command {
  return command
    .requiredOption("--enquiry <file>", "the enquiry file")
    .option("--part <id>", "which part of the enquiry; the first when left out");
}
