import type { FastifyError, FastifyInstance } from "fastify";
import { VersionConflict } from "#store";
import { InvalidInput } from "#units";

/** A record that is not there. */
export class NotFound extends Error {
  override name = "NotFound";
}

/** A change that would take the ground from under what is already recorded. */
export class Conflict extends Error {
  override name = "Conflict";
}

/** A refusal that another thread put in words already. */
export class SaidRefusal extends Error {
  override name = "SaidRefusal";
}

/** More heavy work than the machine should do at a time. */
export class TooBusy extends Error {
  override name = "TooBusy";
}

/** Every refusal is one clear line and a number; a fault of ours shows no inside. */
export function refuseErrors(app: FastifyInstance): void {
  app.setErrorHandler((error: FastifyError | Error, _request, reply) => {
    const [status, line] = refusalOf(error);
    void reply.status(status).send({ error: line });
  });
  app.setNotFoundHandler((request, reply) => {
    void reply.status(404).send({ error: oneLine(`there is nothing at ${request.url.slice(0, 120)}`) });
  });
}

/** Longest line that is sent; what came in is not sent back whole. */
const longest = 3000;

/** Lines repeat what came in, names out of an address too: a control character in it would break the one line. */
function oneLine(text: string): string {
  const flat = text.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, " ");
  return flat.length > longest ? `${flat.slice(0, longest)}…` : flat;
}

/** Status and line of a refusal. */
export function refusalOf(error: FastifyError | Error): [number, string] {
  const [status, line] = saidOf(error);
  return [status, oneLine(line)];
}

function saidOf(error: FastifyError | Error): [number, string] {
  if (error instanceof NotFound) return [404, error.message];
  if (error instanceof VersionConflict || error instanceof Conflict) return [409, error.message];
  if (error instanceof InvalidInput) {
    const all = (error as { all?: readonly string[] }).all;
    return [400, all && all.length > 1 ? all.slice(0, 20).join("; ") : error.message];
  }
  if (error instanceof SaidRefusal) return [400, error.message];
  if (error instanceof TooBusy) return [429, error.message];
  const code = "code" in error ? error.code : "";
  const status = "statusCode" in error ? (error.statusCode ?? 500) : 500;
  if ("validation" in error && error.validation) return [400, `invalid request: ${error.message}`];
  if (status === 413)
    return [413, "invalid body: too large (at most 5 MB of JSON, 20 MB of CSV or 30 MB of photograph)"];
  if (status === 415)
    return [
      415,
      "invalid content type: send application/json, text/csv, or a photograph as image/jpeg, image/png or image/heic",
    ];
  if (status === 414) return [414, "invalid address: too long (at most 200 characters for each name in it)"];
  if (status === 400 && code === "FST_ERR_BAD_URL") return [400, "invalid address: cannot be read (bad % sign)"];
  if (status >= 400 && status < 500) return [status, `invalid request: ${error.message}`];
  return [500, "a fault of this program; nothing was changed"];
}
