import { z } from "zod";

const kinds = {
  "application/pdf": "PDF",
  "text/html": "one page that holds all it shows",
  "text/csv": "CSV",
  "image/svg+xml": "SVG",
  "application/zip": "archive",
  "image/*": "the picture as it came",
} as const;

/** An answer that is no JSON, as the description tells it. */
export function media(...types: readonly (keyof typeof kinds)[]) {
  // A handler sends text or bytes; both are told as bytes.
  const schema: z.ZodType<unknown> = z.string().meta({ format: "binary" });
  return {
    description: types.map((t) => kinds[t]).join(" or "),
    content: Object.fromEntries(types.map((type) => [type, { schema }])),
  };
}
