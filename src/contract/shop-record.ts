import { z } from "zod";
import { idField } from "./fields.ts";
import { shopSchema } from "./shop-schema.ts";

/** The shop figures that an enquiry is reckoned with, as they are kept: one record for each enquiry, named as it is. */
export const shopRecordSchema = z
  .strictObject({ id: idField, enquiry: idField, shop: shopSchema })
  .check((context) => {
    const { id, enquiry } = context.value;
    if (id !== enquiry)
      context.issues.push({ code: "custom", path: ["id"], message: `must be ${enquiry}, as its enquiry`, input: id });
  })
  .meta({ title: "Scourlight shop figures of an enquiry" });

export type ShopRecord = z.output<typeof shopRecordSchema>;
