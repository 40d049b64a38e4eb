import { z } from "zod";
import { above0, entryId, word } from "./figure-schema.ts";
import { layerSchema } from "./layer-schema.ts";
import { metalSchema } from "./metal-schema.ts";
import { setupSchema } from "./setup-schema.ts";

const fumeLimit = z.strictObject({
  substance: word,
  authority: word,
  value: above0,
  unit: z.enum(["mg/m³", "ppm"]),
  kind: z.enum(["8 h mean", "ceiling", "15 min mean"]),
  source: entryId,
  date: word,
  fromMemory: z.boolean(),
  note: word.optional(),
});

const fumeSchema = z.strictObject({
  id: entryId,
  name: word,
  replaces: z.boolean().optional(),
  substances: z.array(word).min(1, "must name at least one substance"),
  limits: z.array(fumeLimit),
  stop: z.boolean(),
  note: word,
  source: entryId.optional(),
  fromMemory: z.boolean().optional(),
});

/** A data file of the library: ours and a user's alike. SI throughout, units in the figures. */
export const libraryFileSchema = z.strictObject({
  $schema: z.string().optional(),
  source: entryId.describe("id of the source of every figure that names no other"),
  citation: word.optional().describe("full citation, needed where the source is not in the bibliography"),
  fromMemory: z.boolean().describe("true where the figures were written down from memory and nobody confirmed them"),
  note: word.describe("what the file is and is not"),
  metals: z.array(metalSchema).optional(),
  layers: z.array(layerSchema).optional(),
  setups: z.array(setupSchema).optional(),
  fume: z.array(fumeSchema).optional(),
});

/** JSON Schema of a library file, to be published for users. */
export function libraryFileJsonSchema(): object {
  return z.toJSONSchema(libraryFileSchema, { io: "input" });
}
