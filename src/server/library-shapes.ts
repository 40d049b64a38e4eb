import { z } from "zod";
import { libraryFileSchema } from "#library";
import { shelves } from "./library-dependants.ts";

const { shape } = libraryFileSchema;

/** An entry with what it is to the library as it comes, and the own file and version that it stands in. */
const marked = <T extends z.ZodType>(entry: T) =>
  z.object({
    state: z.enum(["ours", "own", "replaces ours"]),
    file: z.string().nullable().meta({ description: "id of the own file; null for ours" }),
    version: z.int().nullable(),
    entry,
  });

export const catalogueSchema = z.object({
  metals: z.array(marked(shape.metals.unwrap().element)),
  layers: z.array(marked(shape.layers.unwrap().element)),
  setups: z.array(marked(shape.setups.unwrap().element)),
  fume: z.array(marked(shape.fume.unwrap().element)),
});

export const keptFileSchema = z.object({
  id: z.string(),
  version: z.int(),
  savedAt: z.string(),
  file: libraryFileSchema,
});

export const filesSchema = z.object({
  files: z.array(keptFileSchema).meta({ description: "own files in the order in which they are taken in" }),
  refused: z
    .array(keptFileSchema.extend({ error: z.string() }))
    .meta({ description: "kept files that do not fit, with the reason; they are left out" }),
});

export const saveSchema = z.object({
  version: z.int().min(0).meta({ description: "the version that was read, 0 for a new file" }),
  file: libraryFileSchema,
});

export const historySchema = z.object({
  versions: z.array(z.object({ version: z.int(), savedAt: z.string() })),
});

export const dependantsSchema = z.object({
  enquiries: z.array(
    z.object({
      id: z.string(),
      title: z.string(),
      named: z.boolean().meta({ description: "false: only one of what an unknown of it may be" }),
      parts: z.array(z.string()),
    }),
  ),
  trials: z.array(z.object({ id: z.string(), enquiry: z.string(), part: z.string() })),
  beliefs: z.array(z.object({ id: z.string(), trial: z.string(), enquiry: z.string() })),
  layers: z.array(z.string()).meta({ description: "layers of the library that speak of a fume entry" }),
});

export const dependantsParams = z.object({ kind: z.enum(shelves), id: z.string().min(1).max(120) });
