import { z } from "zod";
import type { Measured, PatchReading, SuggestedCondition } from "#grading";
import { finite, finiteOrNull, metalConditionField, share } from "./fields.ts";
import { out, outOrNull, tidy } from "./wire-numbers.ts";

const measured = z.strictObject({ value: finite, uncertainty: finite.min(0) });
const percent = finite.min(0).max(100);

/** A reason, in a short name for programs and one sentence for the person. */
export const gateSchema = z.strictObject({ gate: z.string().max(40), sentence: z.string().max(2000) });

/** What photographs say of one patch, in the units of a file; null where they say nothing. */
export const readingSchema = z.strictObject({
  photo: z.string().max(300).nullable().meta({ description: "name of the photograph it was read from" }),
  residue: z
    .strictObject({
      value_percent: percent,
      uncertainty_percent: percent,
      coverage_percent: percent,
      contrast_percent: percent,
      detectionLimit_percent: percent,
    })
    .nullable()
    .meta({ description: "share of the patch, less a 1 mm rim; null: not settled, which never means clean" }),
  lab: z.strictObject({ L: finite, a: finite, b: finite }).nullable().meta({ description: "CIELAB, D65/2°" }),
  lightness: measured.nullable(),
  absolute: z.boolean().meta({ description: "whether the printed greys were measured, so that L* is absolute" }),
  melt: z.strictObject({ index: measured, below: finite, brightShare: share }).nullable(),
  referenceMelt: finite,
  tint: z
    .strictObject({
      difference: measured.meta({ description: "ΔE00 of bare metal to the bare reference" }),
      discoloured: share,
      towardsCoat: finite,
    })
    .nullable(),
  raggedness_mm: measured.nullable(),
  streaks: z
    .strictObject({
      period_mm: measured,
      strength: measured,
      angle_deg: finite,
      falseAlarm: share,
      found: z.boolean(),
      finest_mm: finite,
    })
    .nullable(),
  photoSpread: finiteOrNull.meta({ description: "L* between the two darkest photographs; null with one" }),
  condition: z
    .strictObject({ grade: metalConditionField, chances: z.array(share).length(5) })
    .nullable()
    .meta({ description: "metal condition that the photographs suggest, with the chance of each grade 0 to 4" }),
  refusals: z.array(gateSchema).max(50),
  flags: z.array(gateSchema).max(50),
});

export type ReadingWire = z.output<typeof readingSchema>;

const plain = ({ value, uncertainty }: Measured): Measured => ({ value: tidy(value), uncertainty: tidy(uncertainty) });
/** A share in per cent; rounding may not carry it beyond the ends. */
const inPercent = (value: number): number => Math.min(100, Math.max(0, out(value, "%")));

/** A reading in the units of a file. */
export function readingToWire(reading: PatchReading, condition: SuggestedCondition | null): ReadingWire {
  const { residue, lab, lightness, melt, tint, streaks, raggedness } = reading;
  return {
    photo: reading.photo,
    residue: residue && {
      value_percent: inPercent(residue.value),
      uncertainty_percent: inPercent(residue.uncertainty),
      coverage_percent: inPercent(residue.coverage),
      contrast_percent: inPercent(residue.contrast),
      detectionLimit_percent: inPercent(residue.detectionLimit),
    },
    lab: lab && { L: tidy(lab.L), a: tidy(lab.a), b: tidy(lab.b) },
    lightness: lightness && plain(lightness),
    absolute: reading.absolute,
    melt: melt && { index: plain(melt.index), below: tidy(melt.below), brightShare: tidy(melt.brightShare) },
    referenceMelt: tidy(reading.referenceMelt),
    tint: tint && {
      difference: plain(tint.difference),
      discoloured: tidy(tint.discoloured),
      towardsCoat: tidy(tint.towardsCoat),
    },
    raggedness_mm: raggedness && plain(raggedness),
    streaks: streaks && {
      period_mm: plain(streaks.period),
      strength: plain(streaks.strength),
      angle_deg: out(streaks.angle, "deg"),
      falseAlarm: Math.min(1, Math.max(0, tidy(streaks.falseAlarm))),
      found: streaks.found,
      finest_mm: tidy(streaks.finest),
    },
    photoSpread: outOrNull(reading.photoSpread, ""),
    condition: condition && { grade: condition.grade, chances: condition.chances.map(tidy) },
    refusals: reading.refusals.map(({ gate, sentence }) => ({ gate, sentence })),
    flags: reading.flags.map(({ gate, sentence }) => ({ gate, sentence })),
  };
}
