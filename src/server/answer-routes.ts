import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { answerAskSchema, answerDetailsSchema, answerLineSchema, answerListSchema, validate } from "#contract";
import { reportHtml } from "#report";
import { InvalidInput } from "#units";
import { answerInput } from "./answer-input.ts";
import { inThread } from "./answer-thread.ts";
import { documented } from "./description/documented.ts";
import { media } from "./description/media.ts";
import type { Desk } from "./desk.ts";
import { TooBusy } from "./errors.ts";
import { gradedFigures } from "./graded-figures.ts";
import { idParams } from "./ids.ts";
import { changeOf, detailsOf, drawsOf, findAnswer, reportOf, shopOf } from "./kept-answer.ts";
import { lastChange } from "./last-change.ts";
import { headAsk, headed } from "./paper-head.ts";
import { pagePolicy, sendPaper } from "./send-paper.ts";
import { stopOnLeave } from "./stop-on-leave.ts";
import { filesOf } from "./store-library.ts";
import type { Turns } from "./turns.ts";

/** Every answer takes a processor for a minute or so; more of them would starve the pages. */
const MOST_AT_ONCE = 2;

export function answerRoutes(api: FastifyInstance, desk: Desk, turns: Turns): void {
  const { store } = desk;
  let working = 0;
  const typed = api.withTypeProvider<ZodTypeProvider>();

  typed.get(
    "/enquiries/:id/answers",
    {
      schema: {
        summary: "Answers written so far, newest first, and when anything that they stand on was last saved",
        params: idParams,
        response: { 200: answerListSchema },
      },
    },
    ({ params }) =>
      store.read(async (reader) => ({
        answers: (await reader.answers(params.id)).map((a) => ({
          id: a.id,
          savedAt: a.savedAt,
          modelVersion: a.modelVersion,
          enquiryVersion: a.enquiryVersion,
        })),
        changedAt: await lastChange(reader, params.id),
      })),
  );

  typed.post(
    "/enquiries/:id/answers",
    {
      schema: {
        summary: "Work the whole enquiry and keep the answer; ends when whoever asked has gone",
        params: idParams,
        body: documented(answerAskSchema, { optional: true }),
        response: { 200: answerLineSchema },
      },
    },
    async ({ params, body }, reply) => {
      const { seed, draws = desk.draws } = validate(answerAskSchema, body, "request");
      const input = await store.read((r) => answerInput(r, params.id));
      const graded = await gradedFigures(
        store,
        input.gradings,
        input.trials.map((t) => t.trial),
      );
      const day = desk.now().slice(0, 10);
      if (working >= MOST_AT_ONCE) throw new TooBusy("two answers are being worked out already: wait for one of them");
      working += 1;
      const made = await inThread(
        {
          kind: "answer",
          library: filesOf(input.library),
          enquiry: input.enquiry.record,
          trials: input.trials,
          graded,
          shop: input.shop.file,
          ...input.lapse,
          seed,
          draws,
          dateText: day,
          documentId: `${params.id}-v${input.enquiry.version}-${day}`,
        },
        stopOnLeave(reply),
      ).finally(() => {
        working -= 1;
      });
      if ("refused" in made) throw new InvalidInput("enquiry", params.id, "", made.refused);
      const saved = await store.write((tx) =>
        tx.addAnswer({
          enquiry: params.id,
          enquiryVersion: input.enquiry.version,
          shape: "answer",
          modelVersion: made.modelVersion,
          inputs: {
            seed,
            drawCount: draws,
            ...input.lapse,
            report: made.report,
            details: made.details,
            basis: made.basis,
            shop: input.shop,
            library: input.library.map(({ id, version }) => ({ id, version })),
            changedAt: input.changedAt,
          },
          result: made.answer,
        }),
      );
      return {
        id: saved.id,
        savedAt: saved.savedAt,
        modelVersion: saved.modelVersion,
        enquiryVersion: saved.enquiryVersion,
      };
    },
  );

  typed.get(
    "/answers/:id/details",
    {
      schema: {
        summary: "Delivery, time, cost, hazards and the comparison by what was burned, as kept with the answer",
        params: idParams,
        response: { 200: answerDetailsSchema },
      },
    },
    async ({ params }) => {
      const saved = await store.read((r) => findAnswer(r, params.id));
      return {
        id: saved.id,
        ...drawsOf(saved),
        shopVersion: shopOf(saved).version,
        changedAt: changeOf(saved),
        details: detailsOf(saved),
      };
    },
  );

  typed.get(
    "/answers/:id/report.html",
    {
      schema: {
        summary: "The report as one page",
        params: idParams,
        querystring: headAsk,
        response: { 200: media("text/html") },
      },
    },
    async ({ params, query }, reply) => {
      const model = headed(reportOf(await store.read((r) => findAnswer(r, params.id))), query);
      return reply
        .header("content-security-policy", pagePolicy)
        .type("text/html; charset=utf-8")
        .send(reportHtml(model));
    },
  );

  typed.get(
    "/answers/:id/report.pdf",
    {
      schema: {
        summary: "The report as PDF",
        params: idParams,
        querystring: headAsk,
        response: { 200: media("application/pdf") },
      },
    },
    async ({ params, query }, reply) => {
      const model = headed(reportOf(await store.read((r) => findAnswer(r, params.id))), query);
      return sendPaper(reply, { kind: "report-pdf", model }, turns);
    },
  );
}
