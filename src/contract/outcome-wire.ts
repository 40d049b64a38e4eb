import { z } from "zod";
import type { Outcome } from "#terms";
import { acceptanceTestSchema } from "./acceptance-schema.ts";
import { idField, lineField, metalConditionField, noteField } from "./fields.ts";
import { type QuantityBounds, quantity } from "./quantity-field.ts";
import { validate } from "./validate.ts";
import { intoOrNull, outOrNull } from "./wire-numbers.ts";

/** Bounds of the measured columns, one table for the CSV and the JSON of an outcome. */
export const outcomeBounds = {
  residue_percent: { unit: "%", min: 0, max: 100, description: "share of the patch, less a 1 mm rim, with residue" },
  residueUncertainty_percent: { unit: "%", min: 0, max: 100, description: "standard uncertainty of the residue" },
  lightness: { unit: "", min: 0, max: 100, description: "CIELAB L*, D65/2°" },
  roughnessBefore_um: { unit: "um", min: 0, max: 1000, description: "Ra" },
  roughnessAfter_um: { unit: "um", min: 0, max: 1000, description: "Ra" },
  thicknessBefore_um: { unit: "um", min: 0, max: 20_000, description: "layer thickness" },
  thicknessAfter_um: { unit: "um", min: 0, max: 20_000, description: "layer thickness" },
  temperature_degC: { unit: "degC", min: -60, max: 3500, description: "hottest reading of the metal" },
} as const satisfies Record<string, QuantityBounds>;

export type MeasuredColumn = keyof typeof outcomeBounds;
export const measuredColumns = Object.keys(outcomeBounds) as MeasuredColumn[];

const measured = (column: MeasuredColumn) => quantity(outcomeBounds[column]).nullable().default(null);

export const outcomeSchema = z
  .strictObject({
    trial: idField,
    patch: z.int().min(1).max(100_000),
    residue_percent: measured("residue_percent"),
    residueUncertainty_percent: measured("residueUncertainty_percent"),
    metalCondition: metalConditionField.nullable().default(null),
    lightness: measured("lightness"),
    roughnessBefore_um: measured("roughnessBefore_um"),
    roughnessAfter_um: measured("roughnessAfter_um"),
    thicknessBefore_um: measured("thicknessBefore_um"),
    thicknessAfter_um: measured("thicknessAfter_um"),
    temperature_degC: measured("temperature_degC"),
    tests: z.array(acceptanceTestSchema).max(50).default([]),
    grader: lineField.default(""),
    note: noteField.default(""),
  })
  .meta({ id: "outcome", title: "Scourlight outcome of one patch" });

export type OutcomeWire = z.output<typeof outcomeSchema>;

/** An outcome in the units of a file. */
export function outcomeToWire(outcome: Outcome): OutcomeWire {
  return {
    trial: outcome.trialId,
    patch: outcome.patch,
    residue_percent: outOrNull(outcome.residueFraction, "%"),
    residueUncertainty_percent: outOrNull(outcome.residueUncertainty, "%"),
    metalCondition: outcome.metalCondition,
    lightness: outOrNull(outcome.lightness, ""),
    roughnessBefore_um: outOrNull(outcome.roughnessBefore, "um"),
    roughnessAfter_um: outOrNull(outcome.roughnessAfter, "um"),
    thicknessBefore_um: outOrNull(outcome.thicknessBefore, "um"),
    thicknessAfter_um: outOrNull(outcome.thicknessAfter, "um"),
    temperature_degC: outOrNull(outcome.temperature, "degC"),
    tests: outcome.tests.map((test) => ({ ...test })),
    grader: outcome.grader,
    note: outcome.note,
  };
}

/** The inverse of `outcomeToWire`. */
export function outcomeFromWire(wire: OutcomeWire): Outcome {
  return {
    trialId: wire.trial,
    patch: wire.patch,
    residueFraction: intoOrNull(wire.residue_percent, "%"),
    residueUncertainty: intoOrNull(wire.residueUncertainty_percent, "%"),
    metalCondition: wire.metalCondition,
    lightness: wire.lightness,
    roughnessBefore: intoOrNull(wire.roughnessBefore_um, "um"),
    roughnessAfter: intoOrNull(wire.roughnessAfter_um, "um"),
    thicknessBefore: intoOrNull(wire.thicknessBefore_um, "um"),
    thicknessAfter: intoOrNull(wire.thicknessAfter_um, "um"),
    temperature: intoOrNull(wire.temperature_degC, "degC"),
    tests: wire.tests,
    grader: wire.grader,
    note: wire.note,
  };
}

/** An outcome that nobody has checked, in SI. Throws InvalidInputs. */
export function parseOutcome(json: unknown): Outcome {
  return outcomeFromWire(validate(outcomeSchema, json, "outcome"));
}
