import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { z } from "zod";
import {
  enquiryListSchema,
  enquiryPutSchema,
  enquiryRecordSchema,
  enquirySchema,
  historySchema,
  keptIdSchema,
  logbookSchema,
  refusalSchema,
  validate,
} from "#contract";
import { invalid } from "#units";
import { documented } from "./description/documented.ts";
import type { Desk } from "./desk.ts";
import { enquiryLister } from "./enquiry-list.ts";
import { NotFound } from "./errors.ts";
import { loadExample } from "./example.ts";
import { idParams, versionParams } from "./ids.ts";

/** Lines of a logbook that are sent: what a person reads through. */
const LOG_LINES = 500;

const missing = (id: string): never => {
  throw new NotFound(`there is no enquiry ${id.slice(0, 80)}`);
};

const missingVersion = (id: string, version: number): never => {
  throw new NotFound(`there is no version ${version} of enquiry ${id.slice(0, 80)}`);
};

export function enquiryRoutes(api: FastifyInstance, desk: Desk): void {
  const { store } = desk;
  const typed = api.withTypeProvider<ZodTypeProvider>();

  typed.get(
    "/enquiries",
    { schema: { summary: "All enquiries, last saved first", response: { 200: enquiryListSchema } } },
    enquiryLister(store),
  );

  typed.get(
    "/enquiries/:id",
    { schema: { summary: "One enquiry, latest version", params: idParams, response: { 200: enquiryRecordSchema } } },
    async ({ params }) => {
      const saved = (await store.read((r) => r.latest("enquiry", params.id))) ?? missing(params.id);
      return { id: saved.id, version: saved.version, savedAt: saved.savedAt, enquiry: saved.record };
    },
  );

  typed.put(
    "/enquiries/:id",
    {
      schema: {
        summary: "Save an enquiry; `version` is the one that was read, 0 for a new one",
        params: idParams,
        body: documented(enquiryPutSchema),
        response: { 200: enquiryRecordSchema, 409: refusalSchema },
      },
    },
    async ({ params, body }) => {
      const version = validate(z.int().min(0).max(1e9), body.version ?? 0, "version");
      const enquiry = validate(enquirySchema, body.enquiry, "enquiry");
      if (enquiry.id !== params.id) invalid("enquiry id", enquiry.id, "", `must be ${params.id}, as in the address`);
      const saved = await store.write((tx) => tx.put("enquiry", enquiry, version));
      return { id: saved.id, version: saved.version, savedAt: saved.savedAt, enquiry: saved.record };
    },
  );

  typed.get(
    "/enquiries/:id/logbook",
    {
      schema: {
        summary: "Everything saved under an enquiry, newest first",
        params: idParams,
        response: { 200: logbookSchema },
      },
    },
    ({ params }) =>
      store.read(async (reader) => {
        if ((await reader.latest("enquiry", params.id)) === null) missing(params.id);
        const lines = await reader.logbook(params.id, LOG_LINES + 1);
        return { lines: lines.slice(0, LOG_LINES), more: lines.length > LOG_LINES };
      }),
  );

  typed.get(
    "/enquiries/:id/history",
    { schema: { summary: "Versions, newest first", params: idParams, response: { 200: historySchema } } },
    async ({ params }) => ({
      versions: await store.read((r) => r.history("enquiry", params.id)),
    }),
  );

  typed.get(
    "/enquiries/:id/history/:version",
    { schema: { summary: "One earlier version", params: versionParams, response: { 200: enquiryRecordSchema } } },
    async ({ params }) => {
      const saved =
        (await store.read((r) => r.version("enquiry", params.id, params.version))) ??
        missingVersion(params.id, params.version);
      return { id: saved.id, version: saved.version, savedAt: saved.savedAt, enquiry: saved.record };
    },
  );

  typed.post(
    "/example",
    {
      schema: {
        summary: "Put the invented example into the store",
        body: documented(z.object({}), { optional: true }),
        response: { 200: keptIdSchema },
      },
    },
    async () => ({
      id: await loadExample(store, desk.examples),
    }),
  );
}
