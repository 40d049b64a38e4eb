import { z } from "zod";
import type { Belief } from "#terms";
import { finite, idField } from "./fields.ts";
import { settingSchema } from "./setting-schema.ts";
import { settingFromWire, settingToWire } from "./setting-wire.ts";
import { into, out, tidy } from "./wire-numbers.ts";

const LESSONS_MAX = 500;

const lessonSchema = z.strictObject({
  coordinate: z.string().min(1).max(200),
  mean: finite.min(-20).max(20),
  spread: finite.gt(0).max(20),
});

export const beliefSchema = z
  .strictObject({
    id: idField,
    trial: idField,
    enquiry: idField,
    part: idField,
    laser: idField,
    metal: idField,
    layers: z
      .array(
        z.strictObject({
          kind: idField,
          colour: z.string().min(1).max(40),
          thickness_um: finite.gt(0).max(20_000),
        }),
      )
      .max(8)
      .meta({ description: "from the top down to the metal" }),
    lessons: z.array(lessonSchema).max(LESSONS_MAX).meta({
      description: "what was learnt of metal and layers; mean 0 and spread 1: nothing beyond the library",
    }),
    shifts: z.array(lessonSchema).max(LESSONS_MAX).meta({ description: "how far the physics was off, by its shapes" }),
    builtOn: z.array(idField).max(1000).default([]).meta({ description: "trials whose beliefs it started from" }),
    recommended: z
      .strictObject({ setting: settingSchema, proven: z.boolean() })
      .nullable()
      .optional()
      .meta({ description: "null: no window was found; left out: not said" }),
    patches: z.int().min(0).max(100_000),
    modelVersion: z.string().max(300),
  })
  .meta({ id: "belief", title: "Scourlight belief: what a trial taught" });

export type BeliefWire = z.output<typeof beliefSchema>;

/** A belief as the store keeps it. */
export function beliefToWire(belief: Belief): BeliefWire {
  const lessons = (list: Belief["lessons"]) =>
    list.map((l) => ({ coordinate: l.coordinate, mean: tidy(l.mean), spread: tidy(l.spread) }));
  const r = belief.recommended;
  return {
    id: belief.id,
    trial: belief.trialId,
    enquiry: belief.enquiryId,
    part: belief.partId,
    laser: belief.setupId,
    metal: belief.metalId,
    layers: belief.layers.map((l) => ({ kind: l.kindId, colour: l.colour, thickness_um: out(l.thickness, "um") })),
    lessons: lessons(belief.lessons),
    shifts: lessons(belief.shifts),
    builtOn: [...(belief.builtOn ?? [])],
    ...(r === undefined ? {} : { recommended: r && { setting: settingToWire(r.setting), proven: r.proven } }),
    patches: belief.patches,
    modelVersion: belief.modelVersion,
  };
}

/** The inverse of `beliefToWire`. */
export function beliefFromWire(wire: BeliefWire): Belief {
  const r = wire.recommended;
  return {
    id: wire.id,
    trialId: wire.trial,
    enquiryId: wire.enquiry,
    partId: wire.part,
    setupId: wire.laser,
    metalId: wire.metal,
    layers: wire.layers.map((l) => ({
      kindId: l.kind,
      colour: l.colour,
      thickness: into(l.thickness_um, "um"),
    })),
    lessons: wire.lessons,
    shifts: wire.shifts,
    builtOn: wire.builtOn,
    ...(r === undefined ? {} : { recommended: r && { setting: settingFromWire(r.setting), proven: r.proven } }),
    patches: wire.patches,
    modelVersion: wire.modelVersion,
  };
}
