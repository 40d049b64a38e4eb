import type { FastifyReply } from "fastify";
import { inThread } from "./answer-thread.ts";
import { attachment } from "./attachment.ts";
import { NotFound, SaidRefusal } from "./errors.ts";
import type { PaperWork } from "./paper-work.ts";
import { stopOnLeave } from "./stop-on-leave.ts";
import type { Turns } from "./turns.ts";

/** The policy of a page that holds its styles and pictures and fetches nothing. */
export const pagePolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'self'";

/** Sets a paper on another thread and sends it: a PDF to be kept as a file, a page to be looked at. */
export async function sendPaper(reply: FastifyReply, work: PaperWork, turns: Turns): Promise<FastifyReply> {
  const gone = stopOnLeave(reply);
  const made = await turns(() => inThread(work, gone));
  if ("refused" in made) throw new SaidRefusal(made.refused);
  if ("missing" in made) throw new NotFound(made.missing);
  if (typeof made.body === "string")
    return reply.header("content-security-policy", pagePolicy).type("text/html; charset=utf-8").send(made.body);
  return reply
    .type("application/pdf")
    .header("content-disposition", attachment(made.name))
    .send(Buffer.from(made.body));
}
