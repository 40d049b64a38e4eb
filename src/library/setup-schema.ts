import { z } from "zod";
import { above0, entryId, word } from "./figure-schema.ts";

const lens = z.strictObject({
  id: entryId,
  focalLength: above0,
  spotDiameter: above0,
  rayleighLength: above0,
  fieldSide: above0,
});

const pulse = z.strictObject({ width: above0, energyMax: above0, frequencyMax: above0 });

const share = above0.max(1, "must be above 0 and up to 1");

export const setupSchema = z
  .strictObject({
    id: entryId,
    name: word,
    replaces: z.boolean().optional(),
    kind: z.enum(["pulsed", "continuous"]),
    wavelength: z
      .number()
      .min(700e-9, "must be 7e-7 to 1.4e-6 m: the library's optics are near infrared")
      .max(1400e-9, "must be 7e-7 to 1.4e-6 m: the library's optics are near infrared"),
    ratedPower: above0.max(1e5, "must be 100000 W at most"),
    beamQualityM2: z.number().min(1, "must be 1 or above"),
    profile: z.enum(["gaussian", "top-hat"]),
    lenses: z.array(lens).min(1, "must hold at least one lens"),
    fibreNumericalAperture: share,
    beamDiameterOnLens: above0,
    pulses: z.array(pulse),
    frequencyMin: above0,
    frequencyMax: above0,
    modulation: z.strictObject({ frequencyMin: above0, frequencyMax: above0, dutyMin: share }).nullable(),
    speedMin: above0,
    speedMax: above0,
    acceleration: above0,
    lineSpacingMin: above0,
    passesMax: z.number().int("must be a whole number").min(1, "must be 1 or more"),
    defocusMax: z.number().min(0, "must be 0 or above"),
    deliveries: z.array(z.enum(["scanner", "hand", "robot"])).min(1, "must hold at least one delivery"),
    handLineWidth: z.strictObject({ min: above0, max: above0 }).nullable(),
    smallestConcaveRadius: above0,
    wallPlugEfficiency: share,
    price: z.strictObject({
      class: z.enum(["A", "B", "C", "D", "E"]),
      low: z.number().min(0, "must be 0 or above"),
      high: z.number().min(0, "must be 0 or above"),
      currency: word,
    }),
    source: entryId.optional(),
    fromMemory: z.boolean().optional(),
  })
  .refine((s) => (s.kind === "pulsed") === s.pulses.length > 0, {
    path: ["pulses"],
    error: "must hold at least one pulse width for a pulsed source and none for a continuous one",
  })
  .refine((s) => s.pulses.every((p) => p.width * p.frequencyMax < 1), {
    path: ["pulses"],
    error: "width times frequencyMax must be below 1: pulses would run into each other",
  })
  .refine((s) => s.kind === "continuous" || s.modulation === null, {
    path: ["modulation"],
    error: "must be null for a pulsed source",
  })
  .refine((s) => s.frequencyMin <= s.frequencyMax, {
    path: ["frequencyMax"],
    error: "must not be below frequencyMin",
  })
  .refine((s) => s.modulation === null || s.modulation.frequencyMin <= s.modulation.frequencyMax, {
    path: ["modulation", "frequencyMax"],
    error: "must not be below frequencyMin",
  })
  .refine((s) => s.speedMin <= s.speedMax, { path: ["speedMax"], error: "must not be below speedMin" })
  .refine((s) => s.price.low <= s.price.high, { path: ["price", "high"], error: "must not be below low" })
  .refine((s) => s.handLineWidth === null || s.handLineWidth.min <= s.handLineWidth.max, {
    path: ["handLineWidth", "max"],
    error: "must not be below min",
  })
  .refine((s) => !s.deliveries.includes("hand") || s.handLineWidth !== null, {
    path: ["handLineWidth"],
    error: "must be given where hand delivery is offered",
  })
  .refine((s) => new Set(s.lenses.map((l) => l.id)).size === s.lenses.length, {
    path: ["lenses"],
    error: "must not hold one lens id twice",
  });
