import { z } from "zod";
import type { Agreement, GaugeComponents, GaugeStudy, Kappa, RangeStudy } from "#gauging";
import { finite, finiteOrNull, share, words } from "./fields.ts";
import type { GaugeFile } from "./readings-csv.ts";
import { out, outOrNull, tidy } from "./wire-numbers.ts";

const componentsSchema = z.strictObject({
  repeat: finite,
  grader: finite,
  interaction: finite,
  part: finite,
  gauge: finite,
  total: finite,
  gauge_percent: finite.meta({ description: "gauge over total, % GRR" }),
  contribution_percent: finite.meta({ description: "variance of the gauge over that of the total" }),
  categories: finiteOrNull.meta({ description: "1.41·part/gauge; null for a gauge without scatter" }),
  clipped: words.meta({ description: "variances that came out below 0 and stand as 0" }),
});

/** What `gauge-study --json` prints: standard deviations in the unit of the file. */
export const gaugeStudySchema = z
  .strictObject({
    unit: z.string(),
    parts: z.int(),
    graders: words,
    repeats: z.int(),
    rows: z.array(
      z.strictObject({
        source: z.string(),
        degreesOfFreedom: z.int(),
        sumOfSquares: finite,
        meanSquare: finite,
      }),
    ),
    interactionF: finite,
    interactionChance: share,
    graderF: finite,
    graderChance: share,
    used: z.enum(["pooled", "unpooled"]),
    pooled: componentsSchema,
    unpooled: componentsSchema,
    ranges: z.strictObject({
      repeat: finite,
      grader: finite,
      part: finite,
      gauge: finite,
      total: finite,
      gauge_percent: finite,
      categories: finiteOrNull,
    }),
  })
  .meta({ title: "Scourlight gauge study" });

export type GaugeStudyWire = z.output<typeof gaugeStudySchema>;

export function gaugeStudyToWire(file: GaugeFile, study: GaugeStudy, ranges: RangeStudy): GaugeStudyWire {
  const { unit } = file;
  // A variance scales with the square of the unit.
  const square = (value: number): number => tidy(unit === "" ? value : out(out(value, unit), unit));
  const parts = (c: GaugeComponents) => ({
    repeat: out(c.repeat, unit),
    grader: out(c.grader, unit),
    interaction: out(c.interaction, unit),
    part: out(c.part, unit),
    gauge: out(c.gauge, unit),
    total: out(c.total, unit),
    gauge_percent: tidy(100 * c.gaugeShare),
    contribution_percent: tidy(100 * c.gaugeContribution),
    categories: outOrNull(c.categories, ""),
    clipped: [...c.clipped],
  });
  return {
    unit,
    parts: file.parts.length,
    graders: [...file.graders],
    repeats: file.readings[0]![0]!.length,
    rows: study.rows.map((row) => ({
      source: row.source,
      degreesOfFreedom: row.degreesOfFreedom,
      sumOfSquares: square(row.sumOfSquares),
      meanSquare: square(row.meanSquare),
    })),
    interactionF: tidy(study.interactionF),
    interactionChance: tidy(study.interactionChance),
    graderF: tidy(study.graderF),
    graderChance: tidy(study.graderChance),
    used: study.used,
    pooled: parts(study.pooled),
    unpooled: parts(study.unpooled),
    ranges: {
      repeat: out(ranges.repeat, unit),
      grader: out(ranges.grader, unit),
      part: out(ranges.part, unit),
      gauge: out(ranges.gauge, unit),
      total: out(ranges.total, unit),
      gauge_percent: tidy(100 * ranges.gaugeShare),
      categories: outOrNull(ranges.categories, ""),
    },
  };
}

const kappaSchema = z.strictObject({ kappa: finite, standardError: finite, chance: share });

/** What `agreement --json` prints. */
export const agreementSchema = z
  .strictObject({
    grades: words,
    ordered: z.boolean(),
    pairs: z.array(
      z.strictObject({
        graders: z.tuple([z.string(), z.string()]),
        items: z.int(),
        agreement: share,
        kappa: kappaSchema,
        linear: kappaSchema.nullable(),
        quadratic: kappaSchema.nullable(),
        wrongShare: z
          .strictObject({ value: share, low: share, high: share })
          .meta({ description: "share of wrong grades of one grader that the disagreement implies" }),
      }),
    ),
    without: words.meta({ description: "pairs that could not be compared, and why" }),
  })
  .meta({ title: "Scourlight agreement of graders" });

export type AgreementWire = z.output<typeof agreementSchema>;

export function agreementToWire(found: Agreement): AgreementWire {
  const one = (k: Kappa) => ({
    kappa: tidy(k.kappa),
    standardError: tidy(k.standardError),
    chance: tidy(k.chance),
  });
  return {
    grades: [...found.grades],
    ordered: found.ordered,
    pairs: found.pairs.map((pair) => ({
      graders: [pair.graders[0], pair.graders[1]],
      items: pair.kappa.items,
      agreement: tidy(pair.kappa.agreement),
      kappa: one(pair.kappa),
      linear: pair.linear && one(pair.linear),
      quadratic: pair.quadratic && one(pair.quadratic),
      wrongShare: {
        value: tidy(pair.wrongShare.value),
        low: tidy(pair.wrongShare.low),
        high: tidy(pair.wrongShare.high),
      },
    })),
    without: [...found.without],
  };
}
