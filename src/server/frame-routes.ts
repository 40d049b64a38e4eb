import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { frameSheetSvg, printTheme } from "#drawing";
import { couponPlan } from "#grading";
import { framePdf } from "#papers";
import { attachment } from "./attachment.ts";
import { media } from "./description/media.ts";
import type { Desk } from "./desk.ts";
import { couponOf, findTrial } from "./find-trial.ts";
import { couponParams } from "./ids.ts";

/** The sheets that coupons lie on when they are photographed. */
export function frameRoutes(api: FastifyInstance, { store }: Desk): void {
  const typed = api.withTypeProvider<ZodTypeProvider>();

  const frameOf = async (id: string, number: number) => {
    const { trial } = await store.read((r) => findTrial(r, id));
    const { label } = couponOf(trial, number);
    return {
      frame: couponPlan(trial, number).frame,
      names: { coupon: label, trial: trial.id },
      file: `${trial.id}.frame-${number}`,
    };
  };

  typed.get(
    "/trials/:id/frames/:coupon.svg",
    {
      schema: {
        summary: "Frame sheet to photograph a coupon on, at true size, SVG",
        params: couponParams,
        response: { 200: media("image/svg+xml") },
      },
    },
    async ({ params }, reply) => {
      const { frame, names, file } = await frameOf(params.id, params.coupon);
      return reply
        .type("image/svg+xml")
        .header("content-disposition", attachment(`${file}.svg`))
        .send(frameSheetSvg(frame, { ...names, trueSize: true, theme: printTheme }));
    },
  );

  typed.get(
    "/trials/:id/frames/:coupon.pdf",
    {
      schema: {
        summary: "Frame sheet to photograph a coupon on, at true size, PDF",
        params: couponParams,
        response: { 200: media("application/pdf") },
      },
    },
    async ({ params }, reply) => {
      const { frame, names, file } = await frameOf(params.id, params.coupon);
      return reply
        .type("application/pdf")
        .header("content-disposition", attachment(`${file}.pdf`))
        .send(Buffer.from(await framePdf(frame, names)));
    },
  );
}
