import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parseEnquiry } from "#contract";
import { centralSample, createLibrary } from "#library";

export const root = new URL("..", import.meta.url).pathname;
export const SEED = 7;

/** The first part of the invented example enquiry. */
export function exampleModelParts() {
  const library = createLibrary([]);
  const enquiry = parseEnquiry(JSON.parse(readFileSync(join(root, "examples/enquiry.json"), "utf8")), library);
  const part = enquiry.parts[0]!;
  return { library, enquiry, part, sample: centralSample(part.mixture[0]!.stack) };
}
