import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { z } from "zod";
import { runLogAnswerSchema, runLogPostSchema, runLogTakenSchema, validate } from "#contract";
import { documented } from "./description/documented.ts";
import type { Desk } from "./desk.ts";
import { findTrial } from "./find-trial.ts";
import { idParams } from "./ids.ts";
import { takeEntries } from "./take-entries.ts";

/** What was done at the machine. Phones send it when they can, as often as they like and in any order. */
export function runLogRoutes(api: FastifyInstance, { store }: Desk): void {
  const typed = api.withTypeProvider<ZodTypeProvider>();

  typed.get(
    "/trials/:id/run-log",
    {
      schema: {
        summary: "What was done at the machine for a trial, in order of time; version 0 while nothing was",
        params: idParams,
        response: { 200: runLogAnswerSchema },
      },
    },
    ({ params }) =>
      store.read(async (reader) => {
        const { wire } = await findTrial(reader, params.id);
        const saved = await reader.latest("run-log", wire.id);
        return {
          trial: wire.id,
          version: saved?.version ?? 0,
          savedAt: saved?.savedAt ?? null,
          entries: saved?.record.entries ?? [],
        };
      }),
  );

  typed.post(
    "/trials/:id/run-log",
    {
      schema: {
        summary: "Add entries to the log; those that do not fit are refused one by one, the rest is kept",
        params: idParams,
        body: documented(runLogPostSchema),
        response: { 200: runLogTakenSchema },
      },
    },
    async ({ params, body }) => {
      const sent = validate(z.array(z.unknown()).min(1).max(500), body.entries, "entries");
      return store.write((tx) => takeEntries(tx, params.id, sent));
    },
  );
}
