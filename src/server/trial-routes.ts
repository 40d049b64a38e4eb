import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { z } from "zod";
import {
  keptVersionSchema,
  outcomeListSchema,
  type outcomeSchema,
  outcomesPutSchema,
  outcomeToWire,
  parseOutcome,
  parseOutcomesCsv,
  parseTrialWire,
  recordedSchema,
  refusalSchema,
  runSheetCsv,
  trialBodySchema,
  trialPutSchema,
  trialListSchema,
  validate,
} from "#contract";
import { couponSvg, printTheme } from "#drawing";
import { couponPdf } from "#papers";
import { refusalOfPlan } from "#store";
import { InvalidInput, invalid } from "#units";
import { attachment } from "./attachment.ts";
import { documented, documentedBytes } from "./description/documented.ts";
import { media } from "./description/media.ts";
import type { Desk } from "./desk.ts";
import { Conflict } from "./errors.ts";
import { couponOf, findTrial } from "./find-trial.ts";
import { couponParams, idParams } from "./ids.ts";
import { storeLibrary } from "./store-library.ts";
import { wantedTests } from "./wanted-tests.ts";

export function trialRoutes(api: FastifyInstance, desk: Desk): void {
  const { store } = desk;
  const typed = api.withTypeProvider<ZodTypeProvider>();

  const trialOf = (id: string) => store.read((r) => findTrial(r, id));

  typed.get(
    "/enquiries/:id/trials",
    {
      schema: {
        summary: "Trials of an enquiry with their latest outcomes",
        params: idParams,
        response: { 200: trialListSchema },
      },
    },
    ({ params }) =>
      store.read(async (reader) => {
        const trials = [];
        for (const s of await reader.list("trial", params.id))
          trials.push({ trial: s.record, savedAt: s.savedAt, outcomes: await reader.outcomes(s.id) });
        return { trials };
      }),
  );

  typed.get(
    "/trials/:id",
    { schema: { summary: "One trial", params: idParams, response: { 200: trialBodySchema } } },
    async ({ params }) => ({
      trial: (await trialOf(params.id)).wire,
    }),
  );

  typed.put(
    "/trials/:id",
    {
      schema: {
        summary: "Keep a planned trial; what was begun at the machine or has outcomes keeps its plan",
        params: idParams,
        body: documented(trialPutSchema),
        response: { 200: keptVersionSchema, 409: refusalSchema },
      },
    },
    async ({ params, body }) => {
      const trial = parseTrialWire(body.trial);
      if (trial.id !== params.id) invalid("trial id", trial.id, "", `must be ${params.id}, as in the address`);
      const expected = validate(z.int().min(0).max(1e9).optional(), body.version, "version");
      const saved = await store.write(async (tx) => {
        const refusal = await refusalOfPlan(tx, trial);
        if (refusal !== null) throw new Conflict(`trial ${trial.id} ${refusal}`);
        return tx.put("trial", trial, expected);
      });
      return { id: saved.id, version: saved.version, savedAt: saved.savedAt };
    },
  );

  typed.put(
    "/trials/:id/outcomes",
    {
      schema: {
        summary: "Record outcomes; rows that do not fit are refused, the rest is kept",
        params: idParams,
        body: documented(outcomesPutSchema),
        response: { 200: recordedSchema },
      },
    },
    async ({ params, body }) => {
      const { trial } = await trialOf(params.id);
      const rows = validate(z.array(z.unknown()).max(10_000), body.outcomes, "outcomes");
      const patches = new Set(trial.patches.map((p) => p.patch));
      const accepted: z.output<typeof outcomeSchema>[] = [];
      const refused: { line: number; error: string }[] = [];
      rows.forEach((row, i) => {
        try {
          const outcome = parseOutcome(row);
          if (outcome.trialId !== trial.id) invalid("trial", outcome.trialId, "", `must be ${trial.id}`);
          if (!patches.has(outcome.patch)) invalid("patch", outcome.patch, "", "must be a patch of this trial");
          accepted.push(outcomeToWire(outcome));
        } catch (error) {
          if (!(error instanceof InvalidInput)) throw error;
          refused.push({ line: i + 1, error: error.message });
        }
      });
      if (accepted.length > 0) await store.write((tx) => tx.addOutcomes(trial.id, accepted));
      return { accepted: accepted.length, refused };
    },
  );

  typed.get(
    "/trials/:id/outcomes",
    {
      schema: {
        summary: "The latest outcome of every patch and grader, by patch",
        params: idParams,
        response: { 200: outcomeListSchema },
      },
    },
    ({ params }) =>
      store.read(async (reader) => {
        await findTrial(reader, params.id);
        return { outcomes: await reader.outcomes(params.id) };
      }),
  );

  typed.post(
    "/trials/:id/outcomes",
    {
      schema: {
        summary: "Record outcomes from CSV, as the run sheet is filled in",
        params: idParams,
        consumes: ["text/csv"],
        body: documentedBytes("a filled run sheet, or any table with the column patch"),
        response: { 200: recordedSchema },
      },
    },
    async ({ params, body }) => {
      const { trial } = await trialOf(params.id);
      if (typeof body !== "string") return invalid("outcomes", "no CSV", "", "send text/csv");
      const { enquiry, library } = await store.read(async (reader) => ({
        enquiry: await reader.latest("enquiry", trial.enquiryId),
        library: (await storeLibrary(reader)).library,
      }));
      const recorded = parseOutcomesCsv(body, trial, wantedTests(enquiry?.record, trial.partId, library));
      if (recorded.accepted.length > 0)
        await store.write((tx) => tx.addOutcomes(trial.id, recorded.accepted.map(outcomeToWire)));
      return {
        accepted: recorded.accepted.length,
        refused: recorded.refused.map((r) => ({ line: r.line, error: r.message })),
      };
    },
  );

  typed.get(
    "/trials/:id/run-sheet.csv",
    { schema: { summary: "Run sheet", params: idParams, response: { 200: media("text/csv") } } },
    async ({ params }, reply) => {
      const { trial } = await trialOf(params.id);
      const { library } = await store.read(storeLibrary);
      return reply
        .type("text/csv; charset=utf-8")
        .header("content-disposition", attachment(`${trial.id}.run-sheet.csv`))
        .send(runSheetCsv(trial, library.setup(trial.setupId)));
    },
  );

  typed.get(
    "/trials/:id/coupons/:coupon.svg",
    {
      schema: {
        summary: "Coupon at true size, SVG",
        params: couponParams,
        response: { 200: media("image/svg+xml") },
      },
    },
    async ({ params }, reply) => {
      const { trial, wire } = await trialOf(params.id);
      const svg = couponSvg(trial, couponOf(trial, params.coupon), {
        trueSize: true,
        theme: printTheme,
        cautions: wire.cautions,
      });
      return reply
        .type("image/svg+xml")
        .header("content-disposition", attachment(`${trial.id}.coupon-${params.coupon}.svg`))
        .send(svg);
    },
  );

  typed.get(
    "/trials/:id/coupons/:coupon.pdf",
    {
      schema: {
        summary: "Coupon at true size, PDF",
        params: couponParams,
        response: { 200: media("application/pdf") },
      },
    },
    async ({ params }, reply) => {
      const { trial, wire } = await trialOf(params.id);
      const pdf = await couponPdf(trial, couponOf(trial, params.coupon), { cautions: wire.cautions });
      return reply
        .type("application/pdf")
        .header("content-disposition", attachment(`${trial.id}.coupon-${params.coupon}.pdf`))
        .send(Buffer.from(pdf));
    },
  );
}
