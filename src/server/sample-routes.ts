import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { keptIdSchema, parseSample, sampleFromWire, sampleListSchema, samplePutSchema, sampleToWire } from "#contract";
import type { Sample } from "#terms";
import { invalid } from "#units";
import { documented } from "./description/documented.ts";
import type { Desk } from "./desk.ts";
import { idParams } from "./ids.ts";

/** The pages hold samples in SI, as the other rooms do; files hold them with units in the names. */
export function sampleRoutes(api: FastifyInstance, { store }: Desk): void {
  const typed = api.withTypeProvider<ZodTypeProvider>();
  typed.get(
    "/enquiries/:id/samples",
    {
      schema: { summary: "Samples of an enquiry", params: idParams, response: { 200: sampleListSchema } },
    },
    async ({ params }) => ({
      samples: (await store.read((r) => r.list("sample", params.id))).map((s) => {
        const sample = sampleFromWire(s.record);
        return { ...sample, thicknessMap: [...sample.thicknessMap] };
      }),
    }),
  );
  typed.put(
    "/samples/:id",
    {
      schema: {
        summary: "Save a sample",
        params: idParams,
        body: documented(samplePutSchema),
        response: { 200: keptIdSchema },
      },
    },
    async ({ params, body }) => {
      const sample = wireOf(body.sample);
      if (sample.id !== params.id) invalid("sample id", sample.id, "", `must be ${params.id}, as in the address`);
      await store.write((tx) => tx.put("sample", sampleToWire(sample)));
      return { id: sample.id };
    },
  );
}

function wireOf(given: unknown): Sample {
  if (typeof given !== "object" || given === null) return invalid("sample", typeof given, "", "must be an object");
  // A page sends the SI record; it is turned into the file's shape so that one schema judges both.
  if ("enquiryId" in given) {
    try {
      // JSON knows no NaN: what is no number comes out as null and is refused in words that a person can read.
      return parseSample(JSON.parse(JSON.stringify(sampleToWire(given as Sample))));
    } catch (error) {
      if (error instanceof TypeError) return invalid("sample", "incomplete", "", "must have every field of a sample");
      throw error;
    }
  }
  return parseSample(given);
}
