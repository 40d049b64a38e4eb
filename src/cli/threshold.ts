import { parseSitesCsv, rangeToWire, type SitesFile, spreadToWire, type ThresholdWire } from "#contract";
import { formatNumber, fromSI, invalid, requireOneOf, toSI, unitLabel } from "#units";
import {
  cleanSitesFor,
  failureUpperBound,
  linkSensitivity,
  type SplitSites,
  type ThresholdCurve,
  thresholdCurve,
} from "#window";
import { readText } from "./files.ts";
import { cautionLines, json } from "./show.ts";

export interface ThresholdFlags {
  readonly sites: string;
  readonly scale: string;
  readonly json?: boolean;
}

const CAUTIONS = [
  "No level is free of damage because none was seen: a straight line drawn to 0 % passes through levels that damage.",
  "Class 4 lasers, fume and fire can maim: local law and the laser safety officer decide before anything is burned.",
];

/** `threshold`: the level at which damage begins, from sites that were damaged or not. */
export async function thresholdVerb(flags: ThresholdFlags): Promise<string> {
  const scale = requireOneOf("scale", flags.scale, ["log", "linear"]);
  const file = parseSitesCsv(await readText(flags.sites, "sites file"));
  const lowestLevel = Math.min(...file.sites.map((s) => s.level));
  if (scale === "log" && !(lowestLevel > 0))
    invalid("level", lowestLevel, "", "must be above 0 on a log scale; take --scale linear");
  const found = thresholdCurve(
    scale === "log" ? file.sites.map((s) => ({ ...s, level: Math.log(s.level) })) : file.sites,
  );
  const wire = toWire(file, scale, found);
  return flags.json ? json(wire) : lines(wire, found).join("\n");
}

function toWire(file: SitesFile, scale: "log" | "linear", found: ThresholdCurve | SplitSites): ThresholdWire {
  const { sites, unit } = file;
  const lowestLevel = Math.min(...sites.map((s) => s.level));
  const lowest = sites.filter((s) => s.level === lowestLevel);
  const bad = lowest.filter((s) => s.damaged).length;
  const shown = (level: number): number => rangeToWire({ value: level, low: null, high: null }, unit, scale).value;
  const curve = "between" in found ? null : found;
  const { margins } = linkSensitivity([{ mean: 0, deviation: 0 }], 0.01);
  const below = (margin: number): number => shown(curve!.middle.value - margin * curve!.spread.value);
  return {
    unit,
    scale,
    sites: sites.length,
    damaged: sites.filter((s) => s.damaged).length,
    split:
      "between" in found
        ? {
            low: shown(found.between[0]),
            high: shown(found.between[1]),
            firth: found.firth && {
              middle: shown(found.firth.middle),
              spread: spreadToWire({ value: found.firth.spread, low: null, high: null }, unit, scale).value,
            },
          }
        : null,
    middle: curve && rangeToWire(curve.middle, unit, scale),
    spread: curve && spreadToWire(curve.spread, unit, scale),
    onePercent: curve && rangeToWire(curve.quantile(0.01), unit, scale),
    onePercentOtherCurves: curve && { slowTail: below(margins.slowTail), fastTail: below(margins.fastTail) },
    lowest: {
      level: unit === "" ? lowestLevel : fromSI(lowestLevel, unit),
      sites: lowest.length,
      damaged: bad,
      damagedUpper95: failureUpperBound(lowest.length, bad),
    },
    cautions: CAUTIONS,
  };
}

function lines(wire: ThresholdWire, found: ThresholdCurve | SplitSites): string[] {
  const size = (value: number): string => `${formatNumber(value, 3)} ${unitLabel(wire.unit)}`.trim();
  const range = (r: NonNullable<ThresholdWire["middle"]>): string =>
    `${size(r.value)} (95 %: ${r.low === null ? "no lower bound" : size(r.low)} to ${r.high === null ? "no upper bound" : size(r.high)})`;
  const { lowest } = wire;
  const more =
    lowest.damaged < lowest.sites
      ? `; to show less than 1 % with as many damaged takes ${cleanSitesFor(0.01, 0.95, lowest.damaged)} sites`
      : "";
  return [
    `${wire.sites} sites, ${wire.damaged} damaged`,
    ...("between" in found ? splitLines(wire, size) : curveLines(wire, found, range, size)),
    `Lowest level, ${size(lowest.level)}: ${lowest.damaged} of ${lowest.sites} damaged, which bounds the share only by ${formatNumber(100 * lowest.damagedUpper95, 2)} % (95 %, one-sided)${more}.`,
    "",
    ...cautionLines(wire.cautions),
  ];
}

type Size = (value: number) => string;

function splitLines(wire: ThresholdWire, size: Size): string[] {
  const { low, high, firth } = wire.split!;
  const factor = (spread: number): string =>
    wire.scale === "log" ? `a factor of ${formatNumber(Math.exp(spread), 3)}` : size(spread);
  return [
    `No level shows both outcomes: half of the sites are damaged somewhere between ${size(low)} and ${size(high)}, and how steeply is unknown. More sites between these two tell both.`,
    ...(firth === null
      ? []
      : [
          `A fit that is held back where outcomes split (Firth's) puts the middle at ${size(firth.middle)} with a spread of ${factor(firth.spread)}: a guess to choose the next levels by.`,
        ]),
  ];
}

function curveLines(
  wire: ThresholdWire,
  found: ThresholdCurve,
  range: (r: NonNullable<ThresholdWire["middle"]>) => string,
  size: Size,
): string[] {
  const { slowTail, fastTail } = wire.onePercentOtherCurves!;
  const { probit, logit, cloglog } = found.deviance;
  const spread = wire.spread!;
  const { level } = wire.lowest;
  const lowest = wire.unit === "" ? level : toSI(level, wire.unit);
  const lowestWords = linkSensitivity([found.latentAt(wire.scale === "log" ? Math.log(lowest) : lowest)]).words;
  const factor = wire.scale === "log" ? `a factor of ${formatNumber(Math.exp(spread.value), 3)}` : range(spread);
  return [
    `  half of the sites damaged at  ${range(wire.middle!)}`,
    `  spread from site to site      ${factor}`,
    `  1 % damaged at                ${range(wire.onePercent!)}`,
    `  by other curves through the same middle and slope: ${size(slowTail)} to ${size(fastTail)}. The sites hardly tell them apart (deviance ${formatNumber(probit, 3)} probit, ${formatNumber(logit, 3)} logit, ${formatNumber(cloglog, 3)} complementary log-log), the 1 % level hangs on it.`,
    `  At the lowest level: ${lowestWords}`,
  ];
}
