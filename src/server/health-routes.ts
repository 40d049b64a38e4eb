import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { healthSchema, type HealthWire } from "#contract";
import { schemaVersion } from "#store";
import { MODEL_VERSION } from "#workflows";

/** Version of the program, as package.json has it. */
export const PROGRAM_VERSION = "0.1.0";

/** Tells one run of a server from the next, even where process numbers come round again. */
export const serverInstance = (): string => `${process.pid}-${Math.round(performance.timeOrigin)}`;

/** Tells who answers, so that a command line finds out whether the server of a data folder still runs. */
export function healthRoutes(api: FastifyInstance): void {
  const health: HealthWire = {
    name: "scourlight",
    version: PROGRAM_VERSION,
    modelVersion: MODEL_VERSION,
    instance: serverInstance(),
    schemaVersion,
  };
  api
    .withTypeProvider<ZodTypeProvider>()
    .get(
      "/health",
      { schema: { summary: "Who answers, in which version", response: { 200: healthSchema } } },
      () => health,
    );
}
