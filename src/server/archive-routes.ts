import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { z } from "zod";
import {
  type Archive,
  hitCautions,
  hitToPage,
  openArchive,
  type Question,
  questionAsTyped,
  questionOfLaser,
  questionOfPart,
} from "#archive";
import { type ArchiveWire, archiveSchema, resolveEnquiry } from "#contract";
import type { Library } from "#library";
import type { StoreReader } from "#store";
import { invalid } from "#units";
import { MODEL_VERSION } from "#workflows";
import type { Desk } from "./desk.ts";
import { NotFound } from "./errors.ts";
import { storeLibrary } from "./store-library.ts";

const id = z.string().max(120).default("");

const archiveQuery = z.object({
  text: z.string().max(2000).default("").meta({ description: 'in words: "white polyurethane on 5083"' }),
  enquiry: id.meta({ description: "instead of words: what is like a part of this enquiry" }),
  part: id.meta({ description: "of the enquiry; the first where left out" }),
  laser: id.meta({ description: "set-up that counts too" }),
  offset: z.coerce.number().int().min(0).max(1e6).default(0),
  most: z.coerce.number().int().min(1).max(100).default(20),
});
type ArchiveQuery = z.output<typeof archiveQuery>;

/** What is asked, null where nothing is, "unread" where the words name nothing. Throws InvalidInput and NotFound. */
async function questionOf(
  asked: ArchiveQuery,
  reader: StoreReader,
  library: Library,
): Promise<Question | "unread" | null> {
  const text = asked.text.trim();
  const laser = asked.laser === "" ? null : library.setup(asked.laser);
  if (asked.enquiry !== "") {
    if (text !== "") invalid("question", text.slice(0, 60), "", "either in words or by an enquiry, not both");
    const saved = await reader.latest("enquiry", asked.enquiry);
    if (saved === null) throw new NotFound(`there is no enquiry ${asked.enquiry.slice(0, 80)}`);
    const { parts, title } = resolveEnquiry(saved.record, library);
    const part = asked.part === "" ? parts[0] : parts.find((p) => p.id === asked.part);
    if (part === undefined) return invalid("part", asked.part, "", `one of: ${parts.map((p) => p.id).join(", ")}`);
    return questionOfPart(part, laser, `${part.name} of ${title}`);
  }
  if (text !== "") return questionAsTyped(text, laser, library) ?? "unread";
  return laser === null ? null : questionOfLaser(laser);
}

/** Kept trials by likeness, or newest first. */
export function archiveRoutes(api: FastifyInstance, { store }: Desk): void {
  let kept: { readonly row: number; readonly library: Library; readonly archive: Archive } | null = null;
  const archiveOf = async (reader: StoreReader) => {
    const { library: row } = await reader.lastRows();
    if (kept?.row !== row) {
      const { library } = await storeLibrary(reader);
      kept = { row, library, archive: openArchive(library) };
    }
    return kept;
  };

  api.withTypeProvider<ZodTypeProvider>().get(
    "/archive",
    {
      schema: {
        summary: "Kept trials by likeness to a question in words or to a part; without a question the newest first",
        querystring: archiveQuery,
        response: { 200: archiveSchema },
      },
    },
    ({ query }): Promise<ArchiveWire> =>
      store.read(async (reader) => {
        const { library, archive } = await archiveOf(reader);
        const question = await questionOf(query, reader, library);
        const shelf =
          question === null
            ? await archive.newest(reader, query)
            : question === "unread"
              ? await archive.nothing(reader)
              : await archive.search(reader, question, query);
        const understood = question === "unread" ? null : question;
        return {
          question: understood?.words ?? null,
          ignored: question === "unread" ? [query.text.trim().slice(0, 60)] : [...(understood?.ignored ?? [])],
          compared: shelf.compared,
          notCompared: shelf.notCompared,
          near: shelf.near,
          offset: query.offset,
          trials: shelf.hits.map(hitToPage),
          cautions: hitCautions(shelf.hits),
          modelVersion: MODEL_VERSION,
        };
      }),
  );
}
