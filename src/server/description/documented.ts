import { z } from "zod";
import { validate } from "#contract";

const asked = new WeakMap<z.ZodType, z.ZodType>();

/** A body as a handler gets it: an object that nobody has looked into yet. */
export type UncheckedBody = z.ZodType<Record<string, unknown>>;

const anyObject = z.record(z.string(), z.unknown());
const objectOrNothing = z
  .unknown()
  .transform((body) => (body === undefined || body === null || body === "" ? {} : body))
  .pipe(anyObject);

/**
 * A JSON body that the description tells in full, while the handler judges it by the contract, whose lines name the
 * field. Until then it only has to be an object. `optional`: it may be left out.
 */
export function documented(schema: z.ZodType, { optional = false } = {}): UncheckedBody {
  const own = schema.clone();
  asked.set(own, optional ? objectOrNothing : anyObject);
  return own as UncheckedBody;
}

/** A body that is no JSON: text or bytes of the media types that the route's `consumes` names. */
export function documentedBytes(description: string): z.ZodType<unknown> {
  const own = z.string().meta({ description, format: "binary" });
  asked.set(own, z.unknown());
  return own;
}

/** Checks params, query and body; refusals are in the words of the house. */
export function validatorCompiler({ schema, httpPart }: { readonly schema: unknown; readonly httpPart?: string }) {
  const given = schema as z.ZodType;
  const checked = asked.get(given) ?? given;
  const root = httpPart === "querystring" ? "query" : (httpPart ?? "request");
  return (data: unknown): { readonly value: unknown } | { readonly error: Error } => {
    try {
      return { value: validate(checked, data, root) };
    } catch (error) {
      if (error instanceof Error) return { error };
      throw error;
    }
  };
}

/** Schemas of answers describe; tests hold real answers against them. Checking each again would slow the large ones. */
export const serializerCompiler =
  () =>
  (data: unknown): string =>
    JSON.stringify(data);
