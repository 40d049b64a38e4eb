import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { z } from "zod";
import {
  gradeAskSchema,
  gradedSchema,
  gradingListSchema,
  gradingPutSchema,
  gradingRecordSchema,
  parseGrading,
  refusalSchema,
  validate,
} from "#contract";
import { couponPlans } from "#grading";
import { invalid } from "#units";
import { checkGrading } from "./check-grading.ts";
import { documented } from "./description/documented.ts";
import type { Desk } from "./desk.ts";
import { SaidRefusal } from "./errors.ts";
import { enquiryOfTrial, findTrial } from "./find-trial.ts";
import type { NamedPhoto } from "./grade-photographs.ts";
import { couponParams, idParams } from "./ids.ts";
import { serverLimits } from "./limits.ts";
import type { PhotoThread } from "./photo-thread.ts";
import { saveGrading } from "./save-grading.ts";
import { stopOnLeave } from "./stop-on-leave.ts";
import { filesOf, storeLibrary } from "./store-library.ts";

/** Coupons read from their photographs, and what people said of the readings. */
export function gradingRoutes(api: FastifyInstance, { store }: Desk, thread: PhotoThread): void {
  const typed = api.withTypeProvider<ZodTypeProvider>();

  typed.get(
    "/trials/:id/gradings",
    {
      schema: {
        summary: "Graded coupons of a trial, latest versions",
        params: idParams,
        response: { 200: gradingListSchema },
      },
    },
    ({ params }) =>
      store.read(async (reader) => {
        const { trial } = await findTrial(reader, params.id);
        const all = await reader.list("grading", trial.enquiryId);
        const gradings = all
          .filter(({ record }) => record.trial === trial.id)
          .map(({ version, savedAt, record }) => ({ version, savedAt, grading: record }))
          .sort((a, b) => a.grading.coupon - b.grading.coupon);
        return { gradings };
      }),
  );

  typed.put(
    "/trials/:id/gradings/:coupon",
    {
      bodyLimit: serverLimits.gradingBytes,
      schema: {
        summary: "Save a graded coupon; `version` is the one that was read, 0 for a new one",
        params: couponParams,
        body: documented(gradingPutSchema),
        response: { 200: gradingRecordSchema, 409: refusalSchema },
      },
    },
    async ({ params, body }) => {
      const version = validate(z.int().min(0).max(1e9), body.version ?? 0, "version");
      const grading = parseGrading(body.grading);
      const saved = await store.write(async (tx) => {
        const { wire } = await findTrial(tx, params.id);
        checkGrading(grading, wire, params.coupon);
        return saveGrading(tx, grading, version);
      });
      return { version: saved.version, savedAt: saved.savedAt, grading: saved.record };
    },
  );

  typed.post(
    "/trials/:id/grade",
    {
      schema: {
        summary: "Read kept photographs of a trial; nothing is saved but pictures laid flat",
        params: idParams,
        body: documented(gradeAskSchema),
        response: { 200: gradedSchema },
      },
    },
    async ({ params, body }, reply) => {
      const { photos, printScale, greys } = validate(gradeAskSchema, body, "request");
      requireDifferent(photos);
      const { wire, enquiry, library } = await store.read(async (reader) => {
        const found = await findTrial(reader, params.id);
        const how = {
          ...(printScale === undefined ? {} : { printScale }),
          ...(greys === undefined ? {} : { measuredGreys: greys }),
        };
        // What does not fit is refused before the long work.
        couponPlans(found.trial, how);
        const kept = new Set((await reader.photos()).map((p) => p.sha256));
        const away = photos.find(({ sha256 }) => !kept.has(sha256));
        if (away !== undefined) invalid("photo", away.name, "", "is not kept: send it first");
        const library = filesOf((await storeLibrary(reader)).files);
        return { wire: found.wire, enquiry: await enquiryOfTrial(reader, found.trial), library };
      });
      const done = await thread.work(
        {
          kind: "grade",
          trial: wire,
          enquiry,
          library,
          photos,
          ...(printScale === undefined ? {} : { printScale }),
          ...(greys === undefined ? {} : { greys }),
        },
        stopOnLeave(reply),
      );
      if (done.kind === "refused") throw new SaidRefusal(done.line);
      if (done.kind !== "graded") return invalid("request", done.kind, "", "nothing was graded");
      const gradings = [];
      for (const { grading, flat } of done.gradings)
        gradings.push({ ...grading, flat: flat === null ? null : await store.savePhoto(flat, "image/jpeg") });
      return {
        gradings,
        unread: done.unread.map(({ name, gates }) => ({ name, gates: [...gates] })),
        refused: [...done.refused],
      };
    },
  );
}

/** Two photographs of one name could not be told apart in the readings; one file given twice would count as two. */
function requireDifferent(photos: readonly NamedPhoto[]): void {
  photos.forEach(({ name, sha256 }, i) => {
    const before = photos.slice(0, i);
    if (before.some((p) => p.name === name)) invalid(`photos[${i}].name`, name, "", "is given already");
    const twin = before.find((p) => p.sha256 === sha256);
    if (twin !== undefined) invalid(`photos[${i}]`, name, "", `is the same file as ${twin.name}`);
  });
}
