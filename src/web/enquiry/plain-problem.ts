import { words } from "../words/index.ts";
import { type EnquiryDoc, partId } from "./doc.ts";

/** Why the enquiry cannot be computed yet, in the words of the page where there are any. */
export function plainProblem(doc: EnquiryDoc | null, problem: string | null): string | null {
  if (problem === null || doc === null) return problem;
  const bare = doc.parts.findIndex((part) => (part.layers ?? []).length === 0);
  const first = doc.parts[bare];
  if (first === undefined || !problem.includes(`parts[${bare}].layers`)) return problem;
  return words.part.noLayer(first.name || partId(first, bare));
}
