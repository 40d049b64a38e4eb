import { Command, CommanderError } from "commander";
import { InvalidInput } from "#units";
import {
  between,
  CAUTION,
  greys,
  verb,
  whole,
  withEnquiry,
  withKnown,
  withLibrary,
  withPart,
  withPhysics,
  withRays,
  withThreads,
  withWrongGrades,
} from "./options.ts";

/** Options that several verbs share. */
interface Flags {
  readonly enquiry: string;
  readonly part?: string;
  readonly laser?: string;
  readonly setting?: string;
  readonly trial?: string;
  readonly outcomes?: string;
  readonly library?: string[];
  readonly seed: number;
  readonly draws: number;
  readonly out: string;
  readonly threads?: number;
  readonly json?: boolean;
}

/** Builds the commands. Each loads what it needs only when it runs, so that help and mistakes answer at once. */
export function buildProgram(print: (text: string) => void): Command {
  const program = new Command("scourlight");
  program
    .description("From a laser-cleaning enquiry to a recommended laser, setting and report, with the evidence.")
    .version("0.1.0")
    .exitOverride()
    .configureOutput({ writeOut: (text) => print(text.replace(/\n$/, "")) })
    .addHelpText("after", `\n${CAUTION}`);

  withKnown(
    withEnquiry(
      verb(program, "predict", "what one setting leaves behind and does to the metal, before anything is burned"),
    ),
  )
    .requiredOption("--laser <id>", "laser set-up, for example pulsed-100 or continuous-1500")
    .requiredOption("--setting <file>", "setting file; what it leaves open is filled in sensibly")
    .option("--defocus-band <mm>", "also best and worst with the face so far nearer and farther than set")
    .option("--angle <deg>", "also best and worst with the beam up to so far from the normal of the face")
    .option("--yield-strength <MPa>", "of the metal: with the next two, for an estimate of bow")
    .option("--youngs-modulus <GPa>", "of the metal")
    .option("--poisson-ratio <n>", "of the metal")
    .action(async (flags: Flags) => print(await (await import("./predict.ts")).predictVerb(flags)));

  withPart(
    withLibrary(verb(program, "picture", "draws the predicted patch (PNG): one version of the physics, never a proof")),
  )
    .option("--seed <n>", "seed of the texture, not of the physics", whole("seed", 0, 2 ** 31), 1)
    .requiredOption("--laser <id>", "laser set-up, for example pulsed-100 or continuous-1500")
    .requiredOption("--setting <file>", "setting file; what it leaves open is filled in sensibly")
    .option("--side <mm>", "side of the square patch; 30 spot radii when left out, 15 mm at most")
    .option("--turns <way>", "how the scanner turns round: outside-off, outside-on or inside-on", "outside-off")
    .option("--out <file>", "the picture", "patch.png")
    .action(async (flags) => print(await (await import("./picture.ts")).pictureVerb(flags)));

  withThreads(
    withKnown(
      withEnquiry(verb(program, "compare", "every laser set-up on a part, best first, and pulsed against continuous")),
    ),
  ).action(async (flags: Flags) => print(await (await import("./compare.ts")).compareVerb(flags)));

  withRays(
    withKnown(
      withEnquiry(verb(program, "plan", "the patches of a trial, with coupon sheets (SVG, PDF) and a run sheet (CSV)")),
    ),
  )
    .requiredOption("--laser <id>", "laser set-up to try")
    .option("--setting <file>", "plan around this setting instead of the best predicted one")
    .option("--patches <n>", "patches in all, references and repeats included", whole("patches", 4, 2000), 48)
    .option("--repeats <n>", "patches of these that repeat another", whole("repeats", 0, 2000))
    .option(
      "--design <name>",
      "physics-guided, factorial, fractional-factorial, plackett-burman, central-composite, box-behnken, latin-hypercube, space-filling, grid or d-optimal",
      "physics-guided",
    )
    .option(
      "--rehearse <n>",
      "imagined trials that a physics-guided plan is forecast by; 12, 0 for none",
      whole("rehearse", 0, 200),
    )
    .option("--face-centred", "axial points of a central composite on the faces instead of rotatable")
    .option("--gap-limit <K>", "most that earlier patches may have warmed a patch by when it is burned; 15 K")
    .option("--coupon <size>", "coupon, width x height in mm; 150x100")
    .option("--patch <size>", "patch, width x height in mm; 15x15")
    .option("--gap <mm>", "least gap between patches; 5 mm, more where heat asks for it")
    .option("--rim <mm>", "rim of the coupon kept free; 10 mm")
    .option("--id <id>", "name of the trial")
    .option("--out <dir>", "folder for the sheets and the trial file", "out")
    .option("--data <dir>", "also keep the trial in this data folder")
    .action(async (flags) => print(await (await import("./plan.ts")).planVerb(flags)));

  verb(program, "record", "outcomes of a trial from CSV; rows that do not fit are refused by line, the rest is kept")
    .requiredOption("--trial <file>", "the trial file that plan wrote")
    .requiredOption("--outcomes <file>", "the filled run sheet or any CSV with the column patch")
    .option("--data <dir>", "data folder to keep them in", "data")
    .option("--enquiry <file>", "also keep the enquiry, so that the trial is found by its stack later")
    .action(async (flags) => print(await (await import("./record.ts")).recordVerb(flags)));

  withPart(
    withLibrary(
      verb(program, "grade", "photographs of the coupons: readings with doubt, outcomes (CSV), marked pictures (SVG)"),
    ),
  )
    .requiredOption("--trial <file>", "the trial file that plan wrote")
    .requiredOption("--photos <path...>", "photographs (JPEG, PNG, HEIC) or folders of them, several of each coupon")
    .option(
      "--ruler <mm>",
      "length of the ruler on the printed frame sheet as measured",
      between("ruler", "mm", 10, 1000),
    )
    .option("--greys <lightness...>", "lightness of the seven printed grey steps as measured, dark to light", greys)
    .option("--rulings <file>", "CSV of what a person said: patch, grader, residue_percent, metalCondition, note")
    .option("--out <dir>", "folder for readings, outcomes and pictures", "out")
    .option("--data <dir>", "also keep photographs, readings and outcomes in this data folder")
    .action(async (flags) => print(await (await import("./grade.ts")).gradeVerb(flags)));

  for (const [name, line] of [
    ["window", "outcomes and physics joined: chances, recommended setting, margin, next patches"],
    ["next", "which patches to burn next, and why"],
  ] as const) {
    const command = withWrongGrades(withRays(withKnown(withEnquiry(verb(program, name, line)))))
      .requiredOption("--trial <file>", "the trial file that plan wrote; solved edges are kept beside it")
      .requiredOption("--outcomes <file>", "outcomes as CSV");
    if (name === "window")
      command
        .option("--remember <dir>", "keep what the trial taught in this data folder, for --known of later jobs")
        .option(
          "--map <x,y>",
          "map over two of power, level, duty, frequency, pulseWidth, speed, lineSpacing, passes and defocus",
        );
    command
      .option("--sheets <dir>", "lay the next patches out on further coupons: the trial with them, and their sheets")
      .action(async (flags) => print(await (await import("./window.ts")).windowVerb(flags, name)));
  }

  withWrongGrades(
    withRays(
      withKnown(
        withPhysics(
          verb(
            program,
            "transfer",
            "what a trial says of another laser set-up or lens, and the patches that verify it",
          ),
        ),
      ),
    ),
  )
    .argument("[enquiry]", "the enquiry file, or by --enquiry")
    .option("--enquiry <file>", "the enquiry file")
    .requiredOption("--trial <file>", "the trial file that plan wrote")
    .requiredOption("--outcomes <file>", "outcomes as CSV")
    .requiredOption("--laser <id>", "the other set-up")
    .option("--lens <id>", "lens of it to keep to; all are looked at when left out")
    .action(async (given, flags) => print(await (await import("./transfer.ts")).transferVerb(given, flags)));

  withWrongGrades(withThreads(withKnown(withEnquiry(verb(program, "report", "the whole answer as PDF and HTML")))))
    .option("--trial <file...>", "trial files")
    .option("--outcomes <file...>", "outcomes, one CSV for each trial file, in the same order")
    .option("--data <dir>", "from a data folder, with --enquiry the name of an enquiry that is kept there")
    .option("--document-id <text>", "name on the paper; enquiry and day when left out")
    .option("--papers", "also procedure sheet, commissioning sheet and offer of every part (PDF, HTML)")
    .option("--language <code>", "of these papers: en or de", "en")
    .option("--revision <text>", "of report and papers", "1")
    .option("--valid-until <day>", "day until which the offer holds, YYYY-MM-DD")
    .option("--shop <file>", "your own times and prices, and a method to compare with; example figures when left out")
    .option("--approver <name>", "who approves the report")
    .option("--date <day>", "date on the report, YYYY-MM-DD; today when left out")
    .option("--out <dir>", "folder for the report", "out")
    .action(async (flags) => print(await (await import("./report.ts")).reportVerb(flags)));

  withThreads(verb(program, "job", "works the example from enquiry to report"))
    .option("--out <dir>", "folder for the report", "out")
    .option("--draws <n>", "versions of the physics to draw", whole("draws", 8, 4096), 64)
    .option("--date <day>", "date on the report, YYYY-MM-DD; today when left out")
    .action(async (flags) => print(await (await import("./job.ts")).jobVerb(flags)));

  withLibrary(verb(program, "like", "earlier trials by likeness of coat, metal and set-up, with what they found"))
    .argument("[question]", 'in words, for example "white polyurethane on 5083"')
    .option("--enquiry <file>", "ask for a part of this enquiry instead")
    .option("--part <id>", "which part of the enquiry; the first when left out")
    .option("--laser <id>", "count likeness to this set-up too")
    .option("--most <n>", "trials to show", whole("most", 1, 1000), 10)
    .option("--data <dir>", "data folder to look in", "data")
    .action(async (question, flags) => print(await (await import("./like.ts")).likeVerb(question, flags)));

  withLibrary(
    verb(program, "beam-check", "spot, threshold, incubation and waist from burn marks, with their errors and doubts"),
  )
    .requiredOption(
      "--marks <file>",
      "CSV: energy_mJ, diameter_um or diameterX_um and diameterY_um, pulses, defocus_mm",
    )
    .option("--laser <id>", "set-up to compare with; its wavelength gives M²")
    .option("--lens <id>", "lens of the set-up")
    .option("--energy-noise <percent>", "scatter of the pulse energy from shot to shot; 1 when left out")
    .action(async (flags) => print(await (await import("./beam-check.ts")).beamCheckVerb(flags)));

  verb(program, "threshold", "where damage begins, from sites that were damaged or not: middle, spread, 1 % level")
    .requiredOption("--sites <file>", "CSV: level_J_per_cm2 (or any unit) and damaged (yes, no), one row for each site")
    .option("--scale <name>", "log or linear: in which of them the levels scatter evenly", "log")
    .action(async (flags) => print(await (await import("./threshold.ts")).thresholdVerb(flags)));

  verb(program, "gauge-study", "how much of the spread of readings is the gauge's own (parts × graders × repeats)")
    .requiredOption("--readings <file>", "CSV: part, grader, reading or reading_um, one row for each reading")
    .action(async (flags) => print(await (await import("./gauge-study.ts")).gaugeStudyVerb(flags)));

  verb(program, "agreement", "how alike graders grade: kappa of every two, and the wrong grades that it implies")
    .requiredOption("--grades <file>", "CSV: patch, grader, grade (or filled run sheets, metalCondition read as grade)")
    .option("--order <grade...>", "grades that are words, from one end to the other")
    .action(async (flags) => print(await (await import("./agreement.ts")).agreementVerb(flags)));

  withLibrary(program.command("export"))
    .description("a trial as a workbook (.xlsx) or table (.csv), or all that is kept of it as one archive (.crate.zip)")
    .option("--trial <file>", "the trial file that plan wrote")
    .option("--trial-id <id>", "or a trial kept in the data folder")
    .option("--data <dir>", "data folder of --trial-id")
    .option("--outcomes <file>", "outcomes as CSV or workbook")
    .option("--enquiry <file>", "for the columns of the acceptance tests")
    .option("--window <file>", "what window --json printed: recommended and next settings, map")
    .option("--comparison <file>", "what compare --json printed")
    .option("--table <name>", "for .csv: run-sheet, outcomes, settings, comparison, window-map or cautions")
    .requiredOption("--out <file>", "the ending says what is made")
    .addHelpText("after", `\n${CAUTION}`)
    .action(async (flags) => print(await (await import("./export.ts")).exportVerb(flags)));

  program
    .command("import")
    .description("the trial of an archive into a data folder; twice adds nothing, contradictions are refused")
    .requiredOption("--archive <file>", "the .crate.zip that export wrote")
    .option("--data <dir>", "data folder to keep it in", "data")
    .addHelpText("after", `\n${CAUTION}`)
    .action(async (flags) => print(await (await import("./import.ts")).importVerb(flags)));

  verb(program, "list", "the enquiries of a data folder with their state and their trials")
    .option("--data <dir>", "data folder", "data")
    .action(async (flags) => print(await (await import("./list.ts")).listVerb(flags)));

  verb(program, "serve", "the web app on this machine, or for phones on the workshop's network")
    .option("--port <n>", "port", whole("port", 0, 65_535), 4173)
    .option("--data <dir>", "data folder", "data")
    .option("--host <address>", "address to listen on; beyond this machine only with the link that is printed")
    .option("--name <host...>", "further names of this machine on its network")
    .option("--key-file <pem>", "private key for TLS, with --cert-file")
    .option("--cert-file <pem>", "certificate for TLS, with --key-file")
    .action(async (flags) => print(await (await import("./serve.ts")).serveVerb(flags)));
  return program;
}

/** Runs one command line; the exit code is 0, 2 for input that does not fit, 130 when cancelled, 1 for a fault of ours. */
export async function main(
  argv: readonly string[],
  print = (text: string): void => console.log(text),
  complain = (text: string): void => console.error(text),
): Promise<number> {
  try {
    const program = buildProgram(print);
    program.configureOutput({ writeErr: () => {} });
    for (const command of program.commands)
      command
        .exitOverride()
        .configureOutput({ writeErr: () => {}, writeOut: (text) => print(text.replace(/\n$/, "")) });
    await program.parseAsync([...argv]);
    return 0;
  } catch (error) {
    if (error instanceof CommanderError) {
      if (error.exitCode === 0) return 0;
      complain(error.message.replace(/^error: /, "invalid command line: "));
      return 2;
    }
    if (error instanceof InvalidInput) {
      const all = (error as { all?: readonly string[] }).all ?? [error.message];
      for (const line of all) complain(line);
      return 2;
    }
    // By name: the room of the threads is loaded only by the commands that use it.
    if (error instanceof Error && error.name === "SweepCancelled") {
      complain(error.message);
      return 130;
    }
    complain(`fault: ${error instanceof Error ? error.message : String(error)}`);
    return 1;
  }
}
