import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { z } from "zod";
import { refusalSchema, validate } from "#contract";
import type { Library } from "#library";
import { documented } from "./description/documented.ts";
import type { Desk } from "./desk.ts";
import { NotFound } from "./errors.ts";
import { idParams, versionParams } from "./ids.ts";
import { dependantsOf, type Shelf, shelves } from "./library-dependants.ts";
import { saveLibraryFile, stateOf } from "./library-save.ts";
import {
  catalogueSchema,
  dependantsParams,
  dependantsSchema,
  filesSchema,
  historySchema,
  keptFileSchema,
  saveSchema,
} from "./library-shapes.ts";
import { type KeptFile, storeLibrary } from "./store-library.ts";

/** Lists of the store are read-only, those of the schemas are not; what is kept was checked by its shape when it was read. */
const answered = (data: object) => data as never;

const shown = ({ id, version, savedAt, record }: KeptFile) => ({ id, version, savedAt, file: record.file });

const entriesOf = (library: Library): Record<Shelf, readonly { readonly id: string }[]> => ({
  metals: library.metals,
  layers: library.layerKinds,
  setups: library.setups,
  fume: library.fumeEntries,
});

/** What the predictions rest on: ours, and the files that this store keeps of its own. */
export function libraryRoutes(api: FastifyInstance, { store }: Desk): void {
  const typed = api.withTypeProvider<ZodTypeProvider>();

  typed.get(
    "/library",
    {
      schema: {
        summary: "Metals, layers, laser set-ups and fume entries with sources and spreads, ours and own ones",
        response: { 200: catalogueSchema },
      },
    },
    (): Promise<never> =>
      store.read(async (reader) => {
        const { library, files } = await storeLibrary(reader);
        const all = entriesOf(library);
        const shelf = (name: Shelf) =>
          all[name].map((entry) => {
            const file = files.findLast((k) => (k.record.file[name] ?? []).some((e) => e.id === entry.id));
            const state = stateOf(name, entry.id, file !== undefined);
            return { state, file: file?.id ?? null, version: file?.version ?? null, entry };
          });
        return answered(Object.fromEntries(shelves.map((name) => [name, shelf(name)])));
      }),
  );

  typed.get(
    "/library/files",
    { schema: { summary: "Own library files, latest versions", response: { 200: filesSchema } } },
    () =>
      store.read(async (reader) => {
        const { files, refused } = await storeLibrary(reader);
        return answered({
          files: files.map(shown),
          refused: refused.map(({ kept, error }) => ({ ...shown(kept), error: error.message })),
        });
      }),
  );

  const fileOf = async (id: string, version?: number): Promise<never> => {
    const kept = await store.read((r) =>
      version === undefined ? r.latest("library", id) : r.version("library", id, version),
    );
    if (kept === null)
      throw new NotFound(
        `there is no ${version === undefined ? "" : `version ${version} of `}own library file ${id.slice(0, 80)}`,
      );
    return answered(shown(kept));
  };

  typed.get(
    "/library/files/:id",
    {
      schema: { summary: "One own library file, latest version", params: idParams, response: { 200: keptFileSchema } },
    },
    ({ params }) => fileOf(params.id),
  );

  typed.put(
    "/library/files/:id",
    {
      schema: {
        summary:
          "Save an own library file; `version` is the one that was read, 0 for a new one. Refused whole when the set of files does not fit or a kept record would lose what it names",
        params: idParams,
        body: documented(saveSchema),
        response: { 200: keptFileSchema, 409: refusalSchema },
      },
    },
    async ({ params, body }) => {
      const read = validate(z.int().min(0).max(1e9), body.version ?? 0, "version");
      return answered(shown(await store.write((tx) => saveLibraryFile(tx, params.id, read, body.file))));
    },
  );

  typed.get(
    "/library/files/:id/history",
    {
      schema: {
        summary: "Versions of an own library file, newest first",
        params: idParams,
        response: { 200: historySchema },
      },
    },
    async ({ params }) => ({ versions: [...(await store.read((r) => r.history("library", params.id)))] }),
  );

  typed.get(
    "/library/files/:id/history/:version",
    {
      schema: { summary: "One earlier version", params: versionParams, response: { 200: keptFileSchema } },
    },
    ({ params }) => fileOf(params.id, params.version),
  );

  typed.get(
    "/library/dependants/:kind/:id",
    {
      schema: {
        summary: "Enquiries, trials and beliefs that use an entry of the library",
        params: dependantsParams,
        response: { 200: dependantsSchema },
      },
    },
    ({ params }): Promise<never> =>
      store.read(async (reader) => {
        const { library } = await storeLibrary(reader);
        if (!entriesOf(library)[params.kind].some((e) => e.id === params.id))
          throw new NotFound(`there is no entry ${params.id.slice(0, 80)} among the ${params.kind} of the library`);
        return answered(await dependantsOf(reader, library, params.kind, params.id));
      }),
  );
}
