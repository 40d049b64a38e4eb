import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { z } from "zod";
import { validate } from "#contract";
import { languages, requireLanguage } from "#report";
import { media } from "./description/media.ts";
import type { Desk } from "./desk.ts";
import { enquiryOfTrial, findTrial } from "./find-trial.ts";
import { idParams } from "./ids.ts";
import { answerOf, basisOf, libraryOf, shopOf } from "./kept-answer.ts";
import { dayText, filled, line } from "./paper-head.ts";
import { paperFormats, paperKinds, type PartPaperWork, type RunSheetWork } from "./paper-work.ts";
import { sendPaper } from "./send-paper.ts";
import { filesOf, storeLibrary } from "./store-library.ts";
import type { Turns } from "./turns.ts";

const askedFor = z.object({
  format: line.meta({ description: `${paperFormats.join(" or ")}; pdf when left out` }),
  language: line.meta({ description: `${languages.join(" or ")}; en when left out` }),
  revision: line.meta({ description: "1 when left out" }),
  approver: line.meta({ description: "a line to sign is printed when left out" }),
  validUntil: line.meta({ description: "day until which an offer holds, as 2026-03-31; left open when left out" }),
  date: line.meta({ description: "day on the paper, as 2026-03-31; today when left out" }),
  answer: line.meta({ description: "id of a kept answer; the newest when left out" }),
});

const paperAsk = z.object({
  kind: z.enum(paperKinds),
  format: z.enum(paperFormats).default("pdf"),
  validUntil: dayText.optional(),
  date: dayText.optional(),
});

/** Papers that leave the house, written from a kept answer; and the sheet that a trial is burned from. */
export function paperRoutes(api: FastifyInstance, desk: Desk, turns: Turns): void {
  const { store } = desk;
  const typed = api.withTypeProvider<ZodTypeProvider>();
  const today = (): string => desk.now().slice(0, 10);

  typed.get(
    "/enquiries/:id/papers/:part/:kind",
    {
      schema: {
        summary: "Procedure, commissioning sheet or offer of one part, from the kept answer",
        params: idParams.extend({ part: z.string().min(1).max(120), kind: z.string().max(80) }),
        querystring: askedFor,
        response: { 200: media("application/pdf", "text/html") },
      },
    },
    async ({ params, query }, reply) => {
      const { language, revision, approver, answer, ...rest } = filled(query);
      const { kind, format, validUntil, date } = validate(paperAsk, { ...rest, kind: params.kind }, "paper");
      const { saved, library } = await store.read(async (reader) => {
        const kept = await answerOf(reader, params.id, answer);
        return { saved: kept, library: await libraryOf(reader, kept) };
      });
      const work: PartPaperWork = {
        kind: "part-paper",
        paper: kind,
        part: params.part,
        basis: basisOf(saved),
        library,
        shop: shopOf(saved).file,
        format,
        language: requireLanguage(language ?? "en"),
        revision: revision ?? "1",
        approver: approver ?? null,
        validUntil: validUntil ?? null,
        dateText: date ?? today(),
      };
      return sendPaper(reply, work, turns);
    },
  );

  for (const format of paperFormats)
    typed.get(
      `/trials/:id/run-sheet.${format}`,
      {
        schema: {
          summary: `Run sheet to burn the patches from, ${format === "pdf" ? "PDF" : "as a page"}`,
          params: idParams,
          querystring: askedFor.pick({ language: true }),
          response: { 200: media(format === "pdf" ? "application/pdf" : "text/html") },
        },
      },
      async ({ params, query }, reply) => {
        const { wire, enquiry, library } = await store.read(async (reader) => {
          const found = await findTrial(reader, params.id);
          const { files } = await storeLibrary(reader);
          return { wire: found.wire, enquiry: await enquiryOfTrial(reader, found.trial), library: filesOf(files) };
        });
        const { language } = filled(query);
        const work: RunSheetWork = {
          kind: "run-sheet",
          trial: wire,
          enquiry,
          library,
          format,
          language: requireLanguage(language ?? "en"),
          dateText: today(),
        };
        return sendPaper(reply, work, turns);
      },
    );
}
