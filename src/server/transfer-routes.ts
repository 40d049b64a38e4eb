import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { archiveAddedSchema } from "#contract";
import { collectTrial, importTrial, libraryOf, packTrial, unpackTrial } from "#exchange";
import type { Store } from "#store";
import { invalid } from "#units";
import { attachment } from "./attachment.ts";
import { documentedBytes } from "./description/documented.ts";
import { media } from "./description/media.ts";
import type { Desk } from "./desk.ts";
import { findTrial } from "./find-trial.ts";
import { idParams } from "./ids.ts";
import { serverLimits } from "./limits.ts";
import { takeTurns } from "./turns.ts";

/** Header that names the photographs which records speak of and the folder lacks. */
const missingHeader = "scourlight-photos-missing";

/** A whole trial out as one archive, and in again. */
export async function transferRoutes(api: FastifyInstance, { store, limits }: Desk): Promise<void> {
  // Packing holds every photograph of a trial in memory.
  const turns = takeTurns(1, 10, "archives are being packed already: wait for them");
  await api.register((archives, _options, done) => {
    archives.addContentTypeParser(
      "application/zip",
      { parseAs: "buffer", bodyLimit: limits?.archiveBytes ?? serverLimits.archiveBytes },
      (_request, body, parsed) => parsed(null, body),
    );
    const typed = archives.withTypeProvider<ZodTypeProvider>();

    typed.get(
      "/trials/:id/archive.crate.zip",
      {
        schema: {
          summary:
            "All that is kept of a trial as one archive: records with their versions, outcomes, answers, photographs",
          params: idParams,
          response: { 200: media("application/zip") },
        },
      },
      async ({ params }, reply) => {
        await store.read((r) => findTrial(r, params.id));
        const { bytes, missing } = await turns(async () => {
          const { bundle, photosMissing } = await collectTrial(store, params.id);
          return { bytes: packTrial(bundle, libraryOf(bundle, [])), missing: photosMissing };
        });
        return reply
          .type("application/zip")
          .header(missingHeader, missing.join(","))
          .header("content-disposition", attachment(`${params.id}.crate.zip`))
          .send(Buffer.from(bytes));
      },
    );

    typed.post(
      "/archives",
      {
        schema: {
          summary:
            "Take in the trial of an archive, with the times at which its rows were first saved; twice adds nothing",
          consumes: ["application/zip"],
          body: documentedBytes("an archive as the route above writes it"),
          response: { 200: archiveAddedSchema },
        },
      },
      async ({ body }) => {
        if (!Buffer.isBuffer(body)) return invalid("archive", "no archive", "", "send application/zip");
        const bundle = unpackTrial(new Uint8Array(body.buffer, body.byteOffset, body.byteLength));
        const added = await turns(() => takeIn(store, bundle));
        return { trial: bundle.trialId, ...added };
      },
    );
    done();
  });
}

/** Rows of an archive keep their times; what others write meanwhile has the time of its own. */
function takeIn(store: Store, bundle: Parameters<typeof importTrial>[1]): ReturnType<typeof importTrial> {
  let times: string[] = [];
  const clock = () => times.shift() ?? new Date().toISOString();
  const then: Store = {
    ...store,
    write: (work) => store.write(work, clock),
    savePhoto: (bytes, mediaType) => store.savePhoto(bytes, mediaType, clock),
  };
  return importTrial(then, bundle, (savedAt) => {
    times = [...savedAt];
  });
}
