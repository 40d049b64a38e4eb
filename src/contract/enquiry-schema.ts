import { z } from "zod";
import { acceptanceSchema } from "./acceptance-schema.ts";
import { idField, lineField, noteField } from "./fields.ts";
import { quantity, quantityOrUnknown } from "./quantity-field.ts";

export const nonMetals = ["stone", "wood", "composite", "concrete", "brick", "glass", "plastic", "ceramic"] as const;

export const colourWords = ["white", "mid", "dark", "clear", "natural"] as const;

const faceSchema = z
  .strictObject({
    kind: z.enum(["flat", "convex", "concave", "edge", "hole", "weld-bead"]).default("flat"),
    radius_mm: quantity({ unit: "mm", above: 0, max: 1e6, description: "radius of a curved face or hole" })
      .nullable()
      .default(null),
    note: lineField.default(""),
  })
  .check((context) => {
    const { kind, radius_mm } = context.value;
    if ((kind === "convex" || kind === "concave" || kind === "hole") && radius_mm === null) {
      context.issues.push({
        code: "custom",
        path: ["radius_mm"],
        message: `a ${kind} face needs its radius`,
        input: radius_mm,
      });
    }
  });

const layerSchema = z.strictObject({
  kind: z
    .string()
    .min(1)
    .max(80)
    .default("unknown")
    .meta({ description: 'layer kind id of the library, or "unknown"' }),
  group: z
    .enum(["coating", "oxide", "contaminant", "metallic"])
    .default("coating")
    .meta({ description: 'what an unknown layer is thought to be; used only when kind is "unknown"' }),
  colour: z
    .enum([...colourWords, "unknown"])
    .optional()
    .meta({ description: "colour class seen from outside; left out: the kind's only one, or unknown" }),
  thickness_um: quantityOrUnknown({
    unit: "um",
    above: 0,
    min: 0.001,
    max: 20_000,
    description: "median thickness",
  }).default("unknown"),
  thicknessSpread_percent: quantity({
    unit: "%",
    min: 0,
    max: 200,
    description: "the 95 % point lies this far above the median; 15 when left out",
  }).optional(),
  mustStay: z.boolean().default(false).meta({ description: "true for a layer that has to survive" }),
});

const knowledge = z.enum(["yes", "no", "unknown"]).default("unknown");

const partSchema = z.strictObject({
  id: idField.optional(),
  name: lineField.optional(),
  material: z
    .string()
    .min(1)
    .max(80)
    .default("unknown")
    .meta({ description: `metal id of the library, "unknown", or what is no metal: ${nonMetals.join(", ")}` }),
  thickness_mm: quantityOrUnknown({
    unit: "mm",
    above: 0,
    min: 0.001,
    max: 1000,
    description: "thickness of the metal",
  }).default("unknown"),
  area_m2: quantity({ unit: "m2", above: 0, max: 1e6, description: "area of one part" }).optional(),
  count: z.int().min(1).max(1e6).default(1),
  faces: z.array(faceSchema).min(1).max(50).prefault([{}]),
  layers: z.array(layerSchema).max(8).default([]).meta({ description: "from the top down to the metal" }),
  lead: knowledge,
  chromate: knowledge,
  acceptance: acceptanceSchema.prefault({}),
  rateWanted_m2_per_h: quantity({ unit: "m2/h", above: 0, max: 1e5 }).nullable().default(null),
});

const siteSchema = z.strictObject({
  deliveries: z
    .array(z.enum(["scanner", "hand", "robot"]))
    .max(3)
    .default([])
    .meta({ description: "only these are possible; empty means any" }),
  electricalPowerMax_VA: quantity({ unit: "V·A", above: 0, max: 1e7 }).nullable().default(null),
  laserPowerMax_W: quantity({ unit: "W", above: 0, max: 1e6 }).nullable().default(null),
  enclosed: z.boolean().nullable().default(null),
  note: noteField.default(""),
});

/** The enquiry file. Two lines suffice: everything but `parts` may be left out, and what is left out is stated. */
export const enquirySchema = z
  .strictObject({
    $schema: z.string().max(500).optional(),
    id: idField.default("enquiry"),
    title: lineField.default("Enquiry"),
    customer: lineField.default(""),
    invented: z.boolean().default(false).meta({ description: "true for an example that is no real case" }),
    note: noteField.default(""),
    site: siteSchema.prefault({}),
    parts: z.array(partSchema).min(1).max(50),
  })
  .meta({ title: "Scourlight enquiry" });

export type EnquiryFile = z.output<typeof enquirySchema>;
export type PartFile = EnquiryFile["parts"][number];
export type LayerFile = PartFile["layers"][number];
