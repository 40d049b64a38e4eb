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

/**
 * What is particular to one part: what the caller says of it, then what its lead and chromate entries, its layers and
 * its metal call for. The library's own lines are left to the caller where it has handed in cautions for the part.
 */
export function particularCautions(part: PartEnquiry, input: ReportInput): string[] {
  const given = input.partCautions?.[part.id] ?? [];
  const found: string[] = [...given];
  for (const [substance, known] of [
    ["Lead", part.lead],
    ["Chromate", part.chromate],
  ] as const) {
    if (known === "yes") found.push(`${substance} present: stop, specialist work under local law.`);
    if (known === "unknown") found.push(`${substance} content unknown: test before any stripping.`);
  }
  if (given.length === 0) found.push(...mayHoldCautions(part), ...part.mixture.flatMap((m) => m.stack.metal.cautions));
  return unique(found);
}

/** One line per substance that a layer of the part may hold and that has no line of its own. */
function mayHoldCautions(part: PartEnquiry): string[] {
  const holders = new Map<string, Set<string>>();
  for (const { stack } of part.mixture)
    for (const { kind } of stack.layers)
      for (const substance of kind.mayHold) {
        if (substance === "lead" || substance === "chromate") continue;
        holders.set(substance, (holders.get(substance) ?? new Set()).add(kind.name));
      }
  return [...holders].map(
    ([substance, names]) => `May hold ${substance} (${[...names].join(", ")}): test before any stripping.`,
  );
}

/** Everything that holds for a part; lines handed in for other parts alone are left to those. */
export function partCautions(part: PartEnquiry, input: ReportInput): string[] {
  const own = particularCautions(part, input);
  const others = new Set(unique(Object.values(input.partCautions ?? {}).flat()).filter((line) => !own.includes(line)));
  return unique([...own, ...jobCautions(input).filter((line) => !others.has(line))]);
}

/** Cautions come from many hands; they run on in one line on the first page and need their full stops. */
function asSentence(text: string): string {
  const trimmed = sentenceCase(text.trim());
  return /[.!?…]$/.test(trimmed) ? trimmed : `${trimmed}.`;
}

function unique(items: readonly string[]): string[] {
  return [...new Set(items.map(asSentence))];
}
