import type { FastifyReply } from "fastify";

/** Stops when whoever asked has gone before the answer: nobody is left to hear it. */
export function stopOnLeave({ raw }: FastifyReply): AbortSignal {
  const stop = new AbortController();
  raw.once("close", () => stop.abort());
  return stop.signal;
}
