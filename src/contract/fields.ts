import { z } from "zod";

/** Names that records are found by. */
export const idField = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$/, {
  error: "must be 1 to 80 letters, digits, dots, dashes or underscores, and begin with a letter or digit",
});

export const lineField = z.string().max(300);
export const noteField = z.string().max(10_000);

export const metalConditionField = z
  .union([z.literal(0), z.literal(1), z.literal(2), z.literal(3), z.literal(4)], {
    error: "must be 0 unchanged, 1 discoloured, 2 micro-melted, 3 melted or 4 distorted",
  })
  .meta({ description: "0 unchanged, 1 discoloured, 2 micro-melted, 3 melted, 4 distorted" });

export const share = z.number().min(0).max(1);
export const finite = z.number();

/** The same everywhere a number may be without meaning. */
export const finiteOrNull = z.number().nullable();

export const spreadField = z
  .strictObject({ low: finite, median: finite, high: finite })
  .meta({ id: "spread", description: "5 %, 50 % and 95 % points over the draws" });

export const words = z.array(z.string());
