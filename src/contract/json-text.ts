import { invalid } from "#units";
import { firstJsonFault } from "./json-fault.ts";
import { shown } from "./validate.ts";

/** Largest text that is read, in characters. */
export const textMax = 20_000_000;

/** Refuses a text that is too large to be meant, before any work is spent on it. */
export function requireTextSize(text: string, name: string): void {
  if (text.length > textMax) {
    invalid(name, `${(text.length / 1e6).toFixed(1)} MB`, "", `at most ${textMax / 1e6} MB of text are read`);
  }
}

/**
 * JSON text to a value that nobody has checked yet. `name` is what the text is, for example the file's name.
 * Throws InvalidInput with line and column (both from 1) for malformed text, and for text over 20 MB.
 */
export function parseJsonText(text: string, name: string): unknown {
  requireTextSize(text, name);
  const body = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  if (body.trim() === "") invalid(name, "empty", "", "must hold JSON");
  try {
    return JSON.parse(body);
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    const fault = Math.max(0, firstJsonFault(body));
    const before = body.slice(0, fault).split(/\r\n|\r|\n/);
    const place = `line ${before.length} column ${before.at(-1)!.length + 1}`;
    const found = fault >= body.length ? "the text ends" : `"${body.slice(fault, fault + 1)}"`;
    return invalid(name, shown(`${found} at ${place}`), "", "must be well-formed JSON");
  }
}
