import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { reportPdf } from "#papers";
import { type ReportModel, reportHtml } from "#report";
import { InvalidInput } from "#units";
import { answerInput } from "./answer-input.ts";
import { answerInThread } from "./answer-thread.ts";
import type { Desk } from "./desk.ts";
import { NotFound, TooBusy } from "./errors.ts";
import { gradedFigures } from "./graded-figures.ts";
import { idParams } from "./ids.ts";
import { attachment } from "./attachment.ts";

/** Every answer takes a processor for a minute or so; more of them would starve the pages. */
const MOST_AT_ONCE = 2;

export function answerRoutes(api: FastifyInstance, desk: Desk): void {
  const { store } = desk;
  let working = 0;
  const typed = api.withTypeProvider<ZodTypeProvider>();

  typed.get(
    "/enquiries/:id/answers",
    { schema: { summary: "Answers written so far, newest first", params: idParams } },
    async ({ params }) => ({
      answers: (await store.read((r) => r.answers(params.id))).map((a) => ({
        id: a.id,
        savedAt: a.savedAt,
        modelVersion: a.modelVersion,
        enquiryVersion: a.enquiryVersion,
      })),
    }),
  );

  typed.post(
    "/enquiries/:id/answers",
    { schema: { summary: "Work the whole enquiry and keep the answer", params: idParams } },
    async ({ params }, reply) => {
      const input = await store.read((r) => answerInput(r, params.id));
      const graded = await gradedFigures(
        store,
        input.gradings,
        input.trials.map((t) => t.trial),
      );
      const stop = new AbortController();
      reply.raw.on("close", () => stop.abort());
      const day = desk.now().slice(0, 10);
      if (working >= MOST_AT_ONCE) throw new TooBusy("two answers are being worked out already: wait for one of them");
      working += 1;
      const made = await answerInThread(
        {
          enquiry: input.enquiry.record,
          trials: input.trials,
          graded,
          ...input.lapse,
          seed: 1,
          draws: desk.draws,
          dateText: day,
          documentId: `${params.id}-v${input.enquiry.version}-${day}`,
        },
        stop.signal,
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
            seed: 1,
            drawCount: desk.draws,
            ...input.lapse,
            report: made.report as unknown as Record<string, unknown>,
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

  const modelOf = async (id: string): Promise<ReportModel> => {
    const saved = await store.read((r) => r.answer(id));
    if (saved === null) throw new NotFound(`there is no answer ${id.slice(0, 80)}`);
    return saved.inputs.report as ReportModel;
  };

  typed.get(
    "/answers/:id/report.html",
    { schema: { summary: "The report as one page", params: idParams } },
    async ({ params }, reply) => {
      const model = await modelOf(params.id);
      // The page carries its own policy: it holds its styles and pictures and fetches nothing.
      return reply
        .header(
          "content-security-policy",
          "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'self'",
        )
        .type("text/html; charset=utf-8")
        .send(reportHtml(model));
    },
  );

  typed.get(
    "/answers/:id/report.pdf",
    { schema: { summary: "The report as PDF", params: idParams } },
    async ({ params }, reply) => {
      const model = await modelOf(params.id);
      return reply
        .type("application/pdf")
        .header("content-disposition", attachment(`${model.documentId}.pdf`))
        .send(Buffer.from(await reportPdf(model)));
    },
  );
}
