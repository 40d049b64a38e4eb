import { z } from "zod";
import { refusalSchema } from "#contract";

type Json = Readonly<Record<string, unknown>>;
type Way = "input" | "output";

/** What a route says of itself. */
interface RouteSchema extends Json {
  readonly hide?: boolean;
  readonly params?: z.ZodType;
  readonly querystring?: z.ZodType;
  readonly body?: z.ZodType;
  readonly response?: Readonly<Record<string, unknown>>;
}

interface Route {
  readonly schema?: unknown;
  readonly url: string;
  readonly route: { readonly method: string | readonly string[] };
}

/** Words of the refusals that any route may give; the route adds those of its own. */
const refusals: Readonly<Record<string, string>> = {
  400: "does not fit: the line names the field, the value and the rule",
  401: "the access word is missing, where the server is open to a network",
  403: "another host or another site",
  404: "there is no such record",
  409: "the record has moved on, or stands on what is recorded already",
  413: "too large",
  415: "another content type than the route takes",
  429: "too much at a time: wait and ask again",
  500: "a fault of this program; nothing was changed",
};

/** Words of an answer that needs none. */
export const asAsked = "as asked";

/** Builds the description of every route out of the schemas that the route itself names; big shapes are told once. */
export function describer() {
  const shapes = new Map<string, unknown>();

  const toJson = (schema: z.ZodType, io: Way): Json => {
    const {
      $schema: _,
      $defs,
      ...root
    } = z.toJSONSchema(schema, { io, unrepresentable: "any" }) as Json & {
      $defs?: Json;
    };
    const name = (id: string) => (io === "input" ? `${id}-sent` : id);
    const moved = (value: unknown): unknown =>
      JSON.parse(JSON.stringify(value), (key, part: unknown) =>
        key === "$ref" && typeof part === "string"
          ? `#/components/schemas/${name(part.slice("#/$defs/".length))}`
          : part,
      );
    for (const [id, shape] of Object.entries($defs ?? {})) shapes.set(name(id), moved(shape));
    return moved(root) as Json;
  };

  const answer = (status: string, given: unknown): Json => {
    if (given instanceof z.ZodType) {
      const description = refusals[status] ?? asAsked;
      return { description, content: { "application/json": { schema: toJson(given, "output") } } };
    }
    const { description, content } = given as { description: string; content: Record<string, { schema: z.ZodType }> };
    return {
      description,
      content: Object.fromEntries(
        Object.entries(content).map(([type, { schema }]) => [type, { schema: toJson(schema, "output") }]),
      ),
    };
  };

  const transform = ({ schema, url, route }: Route): { schema: Json; url: string } => {
    const { params, querystring, body, response = {}, ...rest } = (schema ?? {}) as RouteSchema;
    if (rest.hide) return { schema: { hide: true }, url };
    const method = String(route.method);
    const also = ["400", "401", "403", "429", "500", ...(params ? ["404"] : []), ...(body ? ["413", "415"] : [])];
    const answers = { ...Object.fromEntries(also.map((s) => [s, refusalSchema])), ...response };
    return {
      url,
      schema: {
        operationId: operationOf(method, url),
        tags: [tagOf(url)],
        ...rest,
        ...(params && { params: toJson(params, "input") }),
        ...(querystring && { querystring: toJson(querystring, "input") }),
        ...(body && { body: toJson(body, "input") }),
        response: Object.fromEntries(Object.entries(answers).map(([status, given]) => [status, answer(status, given)])),
      },
    };
  };

  const transformObject = (given: object): Json => {
    const { openapiObject } = given as { readonly openapiObject?: unknown };
    const whole = openapiObject as { components?: { schemas?: Json } } & Json;
    const named = Object.fromEntries([...shapes].sort(([a], [b]) => (a < b ? -1 : 1)));
    return { ...whole, components: { ...whole.components, schemas: { ...whole.components?.schemas, ...named } } };
  };

  return { transform, transformObject };
}

const stepsOf = (url: string): string[] => url.split("/").filter((step) => step !== "" && step !== "api");

const tagOf = (url: string): string => stepsOf(url)[0]?.replace(/\W.*/, "") ?? "all";

/** `GET /api/trials/:id/coupons/:coupon.svg` as `getTrialsByIdCouponsByCouponSvg`. */
function operationOf(method: string, url: string): string {
  const words = stepsOf(url).flatMap((step) =>
    (step.startsWith(":") ? `by-${step.slice(1)}` : step).split(/[^A-Za-z0-9]+/).filter((word) => word !== ""),
  );
  return method.toLowerCase() + words.map((word) => word[0]?.toUpperCase() + word.slice(1)).join("");
}
