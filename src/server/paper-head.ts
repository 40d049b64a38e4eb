import { z } from "zod";
import { validate } from "#contract";
import type { ReportModel } from "#report";

const day = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/;

/** A day that there is, as 2026-03-31. */
export const dayText = z
  .string()
  .regex(day, { error: "must be a day such as 2026-03-31" })
  .refine((text) => !day.test(text) || new Date(`${text}T00:00:00Z`).toISOString().startsWith(text), {
    error: "must be a day that there is",
  });

/** What may be said of a paper in its address; an empty field counts as left out. */
export const line = z.string().max(200).optional();

/** The entries of an address that are there and not empty. */
export function filled<T extends object>(asked: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(asked).filter(([, text]) => text !== undefined && text !== "")) as never;
}

/** The head of a report, where it shall be another than it was kept with. */
export const headAsk = z.object({
  documentId: line.meta({ description: "name on the paper; as kept when left out" }),
  revision: line.meta({ description: "as kept when left out" }),
  approver: line.meta({ description: "as kept when left out" }),
  date: line.meta({ description: "day on the paper, as 2026-03-31; as kept when left out" }),
});

const headRules = z.object({
  documentId: z.string().max(100).optional(),
  revision: z.string().max(20).optional(),
  approver: z.string().max(200).optional(),
  date: dayText.optional(),
});

/** A kept report under another head. Throws InvalidInputs. */
export function headed(model: ReportModel, asked: z.output<typeof headAsk>): ReportModel {
  const { date, ...said } = filled(validate(headRules, filled(asked), "report"));
  return { ...model, ...said, ...(date === undefined ? {} : { dateText: date }) };
}
