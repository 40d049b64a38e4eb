import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { z } from "zod";
import { keptPhotoSchema } from "#contract";
import { decodePhoto, mediaTypes, photoLimits, type PhotoKind } from "#photos";
import { invalid } from "#units";
import { documentedBytes } from "./description/documented.ts";
import { media } from "./description/media.ts";
import type { Desk } from "./desk.ts";
import { NotFound, SaidRefusal } from "./errors.ts";
import { stopOnLeave } from "./stop-on-leave.ts";
import type { PhotoThread } from "./photo-thread.ts";

const shaParams = z.object({ sha256: z.string().regex(/^[0-9a-f]{64}$/, { error: "must be 64 hexadecimal digits" }) });

const photoTypes = ["image/jpeg", "image/png", "image/heic", "image/heif", "application/octet-stream"] as const;

/** Originals of photographs, kept unaltered under the sha256 of their bytes. */
export async function photoRoutes(api: FastifyInstance, { store }: Desk, thread: PhotoThread): Promise<void> {
  await api.register((photos, _options, done) => {
    // Only here is a body taken as plain bytes. What it is said to be counts for nothing: the bytes are looked at.
    photos.addContentTypeParser(
      [...photoTypes],
      { parseAs: "buffer", bodyLimit: photoLimits.bytes },
      (_request, body, parsed) => parsed(null, body),
    );
    const typed = photos.withTypeProvider<ZodTypeProvider>();

    typed.put(
      "/photos",
      {
        schema: {
          summary: "Keep a photograph: JPEG, PNG or HEIC, 30 MB at most",
          consumes: [...photoTypes],
          body: documentedBytes("the file itself; its bytes are looked at, whatever it is said to be"),
          response: { 200: keptPhotoSchema },
        },
      },
      async (request, reply) => {
        const { body } = request;
        if (!Buffer.isBuffer(body))
          return invalid("photo", "no picture", "", "send the file itself, as image/jpeg say");
        const bytes = new Uint8Array(body.buffer, body.byteOffset, body.byteLength);
        const kind = await kindOf(bytes, thread, stopOnLeave(reply));
        return { sha256: await store.savePhoto(bytes, mediaTypes[kind]) };
      },
    );

    typed.get(
      "/photos/:sha256",
      {
        schema: {
          summary: "A kept photograph, as it came",
          params: shaParams,
          response: { 200: media("image/*") },
        },
      },
      async ({ params: { sha256 } }, reply) => {
        const line = (await store.read((r) => r.photos())).find((p) => p.sha256 === sha256);
        const bytes = line === undefined ? null : await store.photo(sha256);
        if (line === undefined || bytes === null) throw new NotFound(`there is no photograph ${sha256}`);
        return reply
          .type(line.mediaType)
          .header("x-content-type-options", "nosniff")
          .header("content-security-policy", "default-src 'none'; sandbox")
          .header("cache-control", "private, max-age=31536000, immutable")
          .send(Buffer.from(bytes));
      },
    );
    done();
  });
}

/** Decodes to the end, so that a damaged file is refused while its owner is still there. */
async function kindOf(bytes: Uint8Array, thread: PhotoThread, signal: AbortSignal): Promise<PhotoKind> {
  const box = String.fromCharCode(...bytes.subarray(4, 8));
  if (box !== "ftyp") return (await decodePhoto(bytes)).kind;
  // HEIC is decoded by one long computation, during which this thread would serve nobody.
  const done = await thread.work({ kind: "check", bytes }, signal);
  if (done.kind === "refused") throw new SaidRefusal(done.line);
  return done.kind === "checked" ? done.photo : invalid("photo", "another kind of file", "", "must be a picture");
}
