import { gaugeStudyToWire, parseReadingsCsv } from "#contract";
import { type GaugeComponents, gaugeStudy, rangeStudy } from "#gauging";
import { citation } from "#sources";
import { formatNumber, formatQuantity } from "#units";
import { readText } from "./files.ts";
import { json } from "./show.ts";

export interface GaugeStudyFlags {
  readonly readings: string;
  readonly json?: boolean;
}

/** `gauge-study`: how much of the spread of readings is the gauge's own. */
export async function gaugeStudyVerb(flags: GaugeStudyFlags): Promise<string> {
  const file = parseReadingsCsv(await readText(flags.readings, "readings file"));
  const study = gaugeStudy(file.readings);
  const ranges = rangeStudy(file.readings);
  if (flags.json) return json(gaugeStudyToWire(file, study, ranges));
  const used = study[study.used];
  const size = (value: number): string =>
    file.unit === "" ? formatNumber(value, 3) : formatQuantity(value, file.unit);
  const share = (value: number): string => `${formatNumber(100 * (value / used.total) ** 2, 3)} % of the variance`;
  const line = (name: string, value: number): string =>
    `  ${name.padEnd(22)} ${size(value).padEnd(12)} ${share(value)}`;
  const repeats = file.readings[0]![0]!.length;
  return [
    `Gauge study: ${file.parts.length} parts, ${file.graders.length} graders (${file.graders.join(", ")}), ${repeats} repeats`,
    study.used === "pooled"
      ? `Graders differ alike on all parts (chance of the interaction ${formatNumber(study.interactionChance, 2)}): it is counted with the repeats.`
      : `Graders differ from part to part (chance of that by luck ${formatNumber(study.interactionChance, 2)}): the interaction is counted on its own.`,
    "Standard deviations",
    line("repeat", used.repeat),
    line("grader", used.grader),
    ...(study.used === "unpooled" ? [line("grader × part", used.interaction)] : []),
    line("gauge (all of these)", used.gauge),
    line("parts", used.part),
    `  F of graders ${formatNumber(study.graderF, 3)}, chance if they were alike ${formatNumber(study.graderChance, 2)}`,
    ...used.clipped.map(
      (source) => `  ! The variance of ${source} came out below 0 and stands as 0: too small for this study to see.`,
    ),
    ...verdict(used, ranges.gaugeShare, ranges.graderClipped),
    ...meaning(used, size),
    `Source of the method and its bounds: ${citation("aiag-msa")}.`,
  ].join("\n");
}

function verdict(used: GaugeComponents, byRanges: number, graderClipped: boolean): string[] {
  const percent = 100 * used.gaugeShare;
  const word =
    percent < 10
      ? "below 10 %: fit for measuring"
      : percent <= 30
        ? "between 10 % and 30 %: may do, depending on what hangs on it"
        : "above 30 %: not fit to tell these parts apart";
  const classes = used.categories === null ? null : Math.floor(used.categories);
  return [
    `The gauge makes ${formatNumber(percent, 3)} % of the spread seen (${formatNumber(100 * byRanges, 3)} % by ranges${graderClipped ? ", graders too alike to be seen that way" : ""}), ${word}.`,
    classes === null
      ? "No scatter at all was seen: the gauge may simply show too few digits."
      : `It can tell ${classes} ${classes === 1 ? "class" : "classes"} of these parts apart${classes < 5 ? "; five are asked for a measurement, fewer only sort" : ""}.`,
  ];
}

function meaning(used: GaugeComponents, size: (value: number) => string): string[] {
  if (used.gauge === 0) return [];
  return [
    "For a trial",
    `  One reading by one of these graders is off by up to ${size(1.96 * used.gauge)} (19 in 20): enter that beside every reading.`,
    `  Two patches read by different graders must differ by ${size(1.96 * Math.SQRT2 * used.gauge)} before the difference means anything; by one grader, ${size(1.96 * Math.SQRT2 * used.repeat)}.`,
    `  The mean of k readings by one grader narrows only the repeats: to ${size(Math.hypot(used.repeat / 2, used.grader, used.interaction))} with k = 4.`,
  ];
}
