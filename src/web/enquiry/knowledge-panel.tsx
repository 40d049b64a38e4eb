import type { ReactNode } from "react";
import { outcomeState } from "#drawing";
import type { PartEnquiry } from "#terms";
import type { TrialRecord } from "../api/trials.ts";
import { isGraded, seenPatches } from "../show/seen-patches.ts";
import { words } from "../words/index.ts";
import type { PartDoc } from "./doc.ts";

interface Props {
  readonly part: PartDoc;
  readonly resolved: PartEnquiry | null;
  readonly problem: string | null;
  readonly trials: readonly TrialRecord[];
  readonly cautions: readonly string[];
}

/** Always in sight: what is proven, what is only predicted, what is missing, what can hurt. */
export function KnowledgePanel({ part, resolved, problem, trials, cautions }: Props) {
  const graded = trials.flatMap((t) => seenPatches(t.outcomes)).filter(isGraded);
  const states = resolved ? graded.map((o) => outcomeState(o, resolved.acceptance)).filter((s) => s !== "unknown") : [];
  const good = states.filter((s) => s === "good").length;
  return (
    <aside className="panel" aria-label={words.panel.label}>
      <div className="stick">
        <Part title={words.panel.proven} kind="proven" none={words.panel.provenNone}>
          {graded.length > 0
            ? [
                words.panel.provenPatches(graded.length),
                ...(states.length > 0 ? [words.panel.provenGood(good, states.length)] : []),
              ]
            : []}
        </Part>
        <Part title={words.panel.predicted} kind="predicted" none="">
          {[graded.length > 0 ? words.panel.predictedSome : words.panel.predictedAll]}
        </Part>
        <Part title={words.panel.missing} kind="missing" none={words.panel.missingNone}>
          {missingLines(part, resolved, problem, graded.length > 0)}
        </Part>
        <Part title={words.panel.cautions} kind="cautions" none="">
          {cautionLines(part, cautions)}
        </Part>
      </div>
    </aside>
  );
}

function Part({
  title,
  kind,
  none,
  children,
}: {
  readonly title: string;
  readonly kind: string;
  readonly none: string;
  readonly children: readonly ReactNode[];
}) {
  return (
    <section className={kind}>
      <h2>{title}</h2>
      {children.length === 0 ? (
        <p className="none">{none}</p>
      ) : (
        <ul>
          {children.map((line) => (
            <li key={String(line)}>{line}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

function missingLines(part: PartDoc, resolved: PartEnquiry | null, problem: string | null, tried: boolean): string[] {
  const lines: string[] = [];
  if (problem) lines.push(problem);
  for (const unknown of resolved?.unknowns ?? []) lines.push(words.panel.missingUnknown(unknown));
  for (const test of part.acceptance?.tests ?? []) {
    if ((test.value ?? null) === null && (test.passed ?? null) === null)
      lines.push(words.panel.missingTest(words.tests[test.kind] ?? test.kind));
  }
  if (!tried) lines.push(words.panel.missingTrial);
  return [...new Set(lines)];
}

function cautionLines(part: PartDoc, cautions: readonly string[]): string[] {
  const lines: string[] = [];
  const coated = (part.layers ?? []).length > 0;
  if (part.lead === "yes") lines.push(words.panel.hasLead);
  else if (coated && part.lead !== "no") lines.push(words.panel.missingLead);
  if (part.chromate === "yes") lines.push(words.panel.hasChromate);
  else if (coated && part.chromate !== "no") lines.push(words.panel.missingChromate);
  if (cautions.length > 0) return [...new Set([...lines, ...cautions])];
  return [...lines, words.panel.classFour, words.panel.fume, words.panel.officer];
}
