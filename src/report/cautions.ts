import type { PartEnquiry } from "#terms";
import { invalid } from "#units";
import type { ReportInput } from "./input.ts";
import { aidCaution, sentenceCase } from "./wording.ts";

/** Cautions of the whole job; a report without any is refused. */
export function jobCautions(input: ReportInput): string[] {
  if (input.cautions.length === 0)
    return invalid("cautions", input.cautions.length, "", "at least one caution must go along with every setting");
  return unique([...input.cautions, aidCaution]);
}

/** What is particular to one part: its metal, its layers, what is unknown about it. */
export function particularCautions(part: PartEnquiry, input: ReportInput): string[] {
  const found: string[] = [...(input.partCautions?.[part.id] ?? [])];
  if (part.lead === "yes") found.push("Lead present: stop, specialist work under local law.");
  if (part.lead === "unknown") found.push("Lead content unknown: test before any stripping.");
  if (part.chromate === "yes") found.push("Chromate present: stop, specialist work under local law.");
  if (part.chromate === "unknown") found.push("Chromate content unknown: test before any stripping.");
  for (const { stack } of part.mixture) {
    found.push(...stack.metal.cautions);
    for (const { kind } of stack.layers)
      for (const substance of kind.mayHold)
        if (!(substance === "lead" && part.lead === "no") && !(substance === "chromate" && part.chromate === "no"))
          found.push(`${kind.name} may hold ${substance}: test old examples before any stripping.`);
  }
  return unique(found);
}

export function partCautions(part: PartEnquiry, input: ReportInput): string[] {
  return unique([...particularCautions(part, input), ...jobCautions(input)]);
}

/** Cautions come from many hands; they run on in one line on the first page and need their full stops. */
function asSentence(text: string): string {
  const trimmed = sentenceCase(text.trim());
  return /[.!?…]$/.test(trimmed) ? trimmed : `${trimmed}.`;
}

function unique(items: readonly string[]): string[] {
  return [...new Set(items.map(asSentence))];
}
