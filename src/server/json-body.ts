import type { FastifyInstance } from "fastify";
import { parseJsonText } from "#contract";
import { InvalidInput } from "#units";

const quote = 0x22;
const backslash = 0x5c;

/** Lists and objects that stand inside one another at the deepest place of a JSON text. */
export function jsonDepth(text: string): number {
  let depth = 0;
  let deepest = 0;
  let inText = false;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (inText) {
      if (c === backslash) i += 1;
      else if (c === quote) inText = false;
    } else if (c === quote) inText = true;
    else if (c === 0x7b || c === 0x5b) {
      depth += 1;
      if (depth > deepest) deepest = depth;
    } else if (c === 0x7d || c === 0x5d) depth -= 1;
  }
  return deepest;
}

/** Names by which a body could reach what objects inherit; no record has a field of such a name. */
const inherited = ["__proto__", "constructor", "prototype"];

function requirePlain(value: unknown): void {
  if (typeof value !== "object" || value === null) return;
  for (const key of Object.keys(value)) {
    if (inherited.includes(key)) throw new InvalidInput("body", key, "", "is no field of any record");
    requirePlain((value as Record<string, unknown>)[key]);
  }
}

/** JSON bodies: well formed, not nested without end, and without fields that reach behind a record. */
export function readJsonBodies(app: FastifyInstance, depthMost: number): void {
  app.removeContentTypeParser("application/json");
  app.addContentTypeParser("application/json", { parseAs: "string" }, (_request, body, done) => {
    try {
      const text = String(body);
      const depth = jsonDepth(text);
      if (depth > depthMost)
        throw new InvalidInput(
          "body",
          `nested ${depth} deep`,
          "",
          `at most ${depthMost} lists and objects in one another`,
        );
      const value = parseJsonText(text, "body");
      requirePlain(value);
      done(null, value);
    } catch (error) {
      done(error instanceof Error ? error : new Error("unreadable body"), undefined);
    }
  });
}
