import { z } from "zod";
import type { GradedCoupon, GradedPatch, PatchRuling, PhotoSummary, SeenGroup, SeenReading } from "#grading";
import { finiteOrNull, idField, lineField, metalConditionField, noteField } from "./fields.ts";
import { outcomeSchema, outcomeToWire } from "./outcome-wire.ts";
import { gateSchema, readingSchema, readingToWire } from "./reading-wire.ts";
import { sha256Field } from "./sample-wire.ts";
import { validate } from "./validate.ts";
import { intoOrNull, into, out, outOrNull, tidy } from "./wire-numbers.ts";

const percent = z.number().min(0).max(100);

const photoSchema = z.strictObject({
  name: lineField.min(1),
  sha256: sha256Field.meta({ description: "of the original file, which is kept unaltered" }),
  read: z.boolean().meta({ description: "false: nothing was read from it, for the reasons in gates" }),
  gates: z.array(gateSchema).max(50),
  scale_px_per_mm: finiteOrNull,
  tilt_deg: finiteOrNull,
  edgeWidth_mm: finiteOrNull,
  markers: z.int().min(0).max(8),
  patches: z.int().min(0).meta({ description: "patches that it shows whole" }),
});

export const rulingSchema = z.strictObject({
  patch: z.int().min(1).max(100_000),
  grader: lineField.min(1),
  residue_percent: percent.nullable().default(null).meta({ description: "null: the reading stands" }),
  metalCondition: metalConditionField.nullable().default(null),
  note: noteField.max(2000).default(""),
});

export type RulingWire = z.output<typeof rulingSchema>;

/** One coupon graded from photographs: what was read, what people said of it, and what counts. */
export const gradingSchema = z
  .strictObject({
    id: idField.meta({ description: "<trial>.coupon-<number>" }),
    enquiry: idField,
    trial: idField,
    coupon: z.int().min(1).max(31),
    printScale: z.number().min(0.9).max(1.1).meta({ description: "measured over nominal length of the printed ruler" }),
    greysMeasured: z.boolean(),
    residueMax_percent: percent,
    metalConditionMax: metalConditionField,
    photos: z.array(photoSchema).max(200),
    flat: sha256Field
      .nullable()
      .default(null)
      .meta({ description: "of a JPEG that shows the coupon laid flat, to look at; null where none was made" }),
    difference: finiteOrNull.meta({ description: "ΔE00 between bare and coated reference" }),
    notes: z.array(gateSchema).max(50),
    patches: z
      .array(
        z.strictObject({
          patch: z.int().min(1).max(100_000),
          role: z.enum(["test", "replicate", "untouched", "cleaned-reference"]),
          verdict: z.enum(["clean", "residue", "near the limit", "not settled"]),
          reading: readingSchema,
          read: outcomeSchema.nullable().meta({ description: "the outcome as read; null for references" }),
          ruling: rulingSchema.nullable().meta({ description: "null: nobody has looked" }),
          outcome: outcomeSchema.nullable().meta({ description: "what counts" }),
        }),
      )
      .max(10_000),
    cautions: z.array(z.string().max(2000)).max(100),
  })
  .meta({ id: "grading", title: "Scourlight graded coupon" });

export type GradingWire = z.output<typeof gradingSchema>;

/** The name that the grading of a coupon is kept under. */
export const gradingId = (trial: string, coupon: number): string => `${trial}.coupon-${coupon}`;

export function rulingToWire(ruling: PatchRuling): RulingWire {
  const { patch, grader, metalCondition, note } = ruling;
  return { patch, grader, residue_percent: outOrNull(ruling.residueFraction, "%"), metalCondition, note };
}

export function rulingFromWire(wire: RulingWire): PatchRuling {
  const { patch, grader, metalCondition, note } = wire;
  return { patch, grader, residueFraction: intoOrNull(wire.residue_percent, "%"), metalCondition, note };
}

function patchToWire(patch: GradedPatch): GradingWire["patches"][number] {
  return {
    patch: patch.patch,
    role: patch.role,
    verdict: patch.verdict,
    reading: readingToWire(patch.reading, patch.read?.condition ?? null),
    read: patch.read && outcomeToWire(patch.read.outcome),
    ruling: patch.ruling && rulingToWire(patch.ruling),
    outcome: patch.outcome && outcomeToWire(patch.outcome),
  };
}

function photoToWire(look: PhotoSummary, sha256: string): GradingWire["photos"][number] {
  const { frame } = look;
  return {
    name: look.photo,
    sha256,
    read: look.gates.length === 0,
    gates: look.gates.map(({ gate, sentence }) => ({ gate, sentence })),
    scale_px_per_mm: frame && tidy(frame.pixelsPerMm),
    tilt_deg: frame && out(frame.tilt, "deg"),
    edgeWidth_mm: frame && outOrNull(frame.edgeWidth, "mm"),
    markers: frame?.markers.length ?? 0,
    patches: look.patches,
  };
}

export interface GradingContext {
  readonly enquiryId: string;
  readonly printScale: number;
  readonly cautions: readonly string[];
  /** sha256 of the picture that shows the coupon laid flat; null where none was made */
  readonly flat?: string | null;
  /** sha256 of a photograph by its name */
  sha256(photo: string): string;
}

/** A graded coupon in the units of a file. */
export function gradingToWire(graded: GradedCoupon, context: GradingContext): GradingWire {
  const { trialId, coupon, limits, plan } = graded;
  return {
    id: gradingId(trialId, coupon),
    enquiry: context.enquiryId,
    trial: trialId,
    coupon,
    printScale: context.printScale,
    greysMeasured: plan.frame.greysMeasured,
    residueMax_percent: out(limits.residueMax, "%"),
    metalConditionMax: limits.metalConditionMax,
    photos: graded.looks.map((look) => photoToWire(look, context.sha256(look.photo))),
    flat: context.flat ?? null,
    difference: graded.difference === null ? null : tidy(graded.difference),
    notes: graded.notes.map(({ gate, sentence }) => ({ gate, sentence })),
    patches: graded.patches.map(patchToWire),
    cautions: [...context.cautions],
  };
}

export function parseGrading(json: unknown): GradingWire {
  return validate(gradingSchema, json, "grading");
}

/** Readings of a coupon that a person looked at, for the share of wrong ones. */
export function seenReadings(grading: GradingWire): SeenGroup {
  const seen = grading.patches.flatMap(({ read, ruling }): SeenReading[] => {
    if (read === null || ruling === null) return [];
    const said = ruling.residue_percent !== null || ruling.metalCondition !== null;
    const residueFraction = intoOrNull(read.residue_percent, "%");
    const saidResidue = intoOrNull(ruling.residue_percent, "%");
    return [
      {
        read: { outcome: { residueFraction, metalCondition: read.metalCondition } },
        ruling: said ? { residueFraction: saidResidue, metalCondition: ruling.metalCondition } : null,
      },
    ];
  });
  return {
    seen,
    residueMax: into(grading.residueMax_percent, "%"),
    metalConditionMax: grading.metalConditionMax,
  };
}
